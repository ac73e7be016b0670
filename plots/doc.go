// Package plots draws the charts of a Study: one function for each chart, with
// a Study and a Look as its input. It computes nothing that belongs in the
// Study; it chooses the ranges of axes, cuts lines to the part that matters,
// and places the labels.
//
// Every line is identified by the label at its end, its dash and the shape of
// its marker as well as by its color:
//
//	solid   with a clean filter       filled marker
//	dashed  at the change limit       hollow marker
//	dotted  with no filter            filled gray marker
//
// An option keeps its color and shape in every chart, by the order of
// Study.Options.
//
// Lengths are in points of 1/72 inch: at the usual 96 dots per inch a chart of
// 675 x 375 points is 900 x 500 pixels.
package plots
