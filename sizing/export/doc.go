// Package export writes a Study for others to read: JSON for programs, CSV and
// a workbook (XLSX) for spreadsheets, a summary in words for a terminal.
//
// JSON, CSV and the workbook hold every number at full precision; the summary
// rounds as a screen does. Nothing here computes: the numbers are those of the
// Study.
package export
