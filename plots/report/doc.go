// Package report writes the printed pages as PDF: the proposal for the
// customer, the work order, the calculations behind every number, a blank field
// sheet, and the sheet of a demonstration.
//
// Every number is the Study's or the Job's, rounded for paper. The only
// arithmetic is rounding, layout, and the margin round an expected airflow or
// power, which the page itself names.
//
//	sheet    a PDF with its faces; writes text, wraps and shrinks it
//	tape     the PDF, and a memory of what was drawn, from which picture draws
//	         the same page for a screen
//	canvas   a vg.Canvas on a part of a sheet: charts stay vectors
//	row      the least piece that stays whole; rows are packed into pages
//	flow     a list of rows in the making: headings, paragraphs, tables
//
// Lengths on paper are in points of 1/72 inch, y downwards.
//
// The face is Liberation Sans (SIL Open Font License), embedded as far as it is
// used. It holds Latin, Greek, Cyrillic and Hebrew. Other letters show as □,
// and Pages.Warnings names them.
package report
