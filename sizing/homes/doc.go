// Package homes screens a list of homes: CSV in, one row a home, and the same
// rows out with what the study of each home says beside them. It streams, so a
// list may be of any length, and it gives the same bytes with any number of
// workers. It touches no disk: readers and writers come from outside.
//
// A column is named as the job file names the field, in snake_case, and only
// those that are wanted need be there: what is left out, and every empty cell,
// is assumed as in any job. A quantity has its unit in the cell ("1200 cfm") or
// in the heading ("design_airflow [cfm]"). Columns lists the names.
//
// The columns that the screening adds all begin with study_, but for the last,
// error, which is empty where the row was solved. A row at fault keeps its own
// cells and has its line, column and reason there. A row is one line: a quote
// that does not close on its line is a fault of that row and swallows no other.
package homes
