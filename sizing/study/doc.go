// Package study holds the results of a solve: options, conditions, parts, ports,
// findings, sizes, rounds of readings and the recommendation. They are data; a
// finding can be written in either system of units.
package study
