// Package fit holds filters, grilles and casings to the house: wall openings, stud
// bays, the room at the equipment and the least MERV.
package fit
