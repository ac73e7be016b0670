// Package table is a table of texts with a heading, columns that stay while the
// others are scrolled, and a row that can be chosen. DEVELOPERS.md says why it is
// not the toolkit's.
package table
