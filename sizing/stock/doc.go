// Package stock lists the nominal sizes that filters, grilles, cabinets and
// ducts are usually sold in, inch and metric.
//
// The lists are common practice, no source: what a supply house usually has. A
// size that is missing can often be ordered, and a listed one may not be on
// the shelf. Sizes carry no price and no make.
//
// Three sizes of one thing are kept apart:
//
//	nominal  the printed name, "20x25x4", and the opening it is meant for
//	actual   the frame itself, less than nominal so that it slides in: Actual
//	box      the room a cabinet's sheet metal takes: Box
//
// Metric filters (592x592x48 mm) are named by their actual frame, so there
// nominal and actual are the same.
//
// The smaller side comes first everywhere; a grille or filter may be turned.
package stock
