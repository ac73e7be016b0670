// Package plots draws the pictures of a Study: one function a chart,
// Study and Look in, *plot.Plot out. Nothing is computed here that the Study
// should hold; the package chooses ranges, shortens lines to what is worth
// seeing, and finds room for words.
//
// Every line is identified by its word at its end, its dash and the shape of
// its marker as well as by its colour:
//
//	solid   with a clean filter       filled marker
//	dashed  at the change limit       hollow marker
//	dotted  with no filter            filled grey marker
//
// An option keeps its colour and shape in every chart: the order of
// Study.Options decides.
//
// Lengths are in points of 1/72 inch: at the usual 96 dots per inch a chart of
// 675 x 375 points is 900 x 500 pixels.
package plots
