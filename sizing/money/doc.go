// Package money puts a year and ten years of an option into power, the outdoor
// unit and filters, at the cooling that the house gets today. A missing price
// makes a total unknown, not zero.
package money
