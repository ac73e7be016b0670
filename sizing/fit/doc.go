// Package fit checks that filters, grilles and casings fit the house: wall openings, stud
// bays, the room at the equipment and the least MERV.
package fit
