// Package paste reads a blower's table from the clipboard: cells between tabs,
// semicolons, commas or blanks, with or without a heading, of one tap or with a
// column for each. It imports no toolkit.
//
// Read cuts the text into cells. ColumnOrder reads from the heading which column
// is which. IsTapTable decides whether the table has a column of airflow for each
// tap; where it cannot decide, it returns the reason and nothing is pasted,
// because airflows taken for watts would not be noticed.
package paste
