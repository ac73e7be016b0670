// Package house is a job made ready to solve, with nothing left open and the law of
// each part compiled, and its operating points. One arrangement of filters and
// returns is solved to a Condition, clean or loaded with dust.
//
// # How a condition is found
//
// System joins the laws of the arrangement's parts. solvePoint finds the flow at
// which the blower's static equals their drop (package airpath). seatFilters then
// applies the bow of each frame: a frame drawn out of its seat opens a gap, and the
// point is solved again. dustSimulation adds dust to the filters in time steps, each solved
// in turn, until each filter reaches its change limit.
package house
