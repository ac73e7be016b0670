// Package money puts a year and ten years of an option into power, the outdoor
// unit and filters, at the cooling that the house gets today. A price that nobody
// knows makes a total not known.
package money
