// Package job is what a person entered about one house: the equipment, the
// returns, the filters, the readings, the options to compare and the limits. Check
// finds every fault at once; Clone copies. It computes nothing.
package job
