// Package house is a job made ready to solve, with nothing left open and the law of
// each part compiled, and its operating points. One arrangement of filters and
// returns is solved to a Condition, clean or loaded with dust.
//
// # How a condition is found
//
// system joins the laws of the arrangement's parts. meet finds the flow at which the
// blower's curve gives what they take (package airpath). seatFilters then lets each
// frame bow: an edge whose seat is drawn out opens a gap, and the point is solved
// again. march puts dust on the filters step by step, each step a solve of its own,
// until each filter reaches its change limit.
package house
