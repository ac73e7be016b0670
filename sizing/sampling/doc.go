// Package sampling solves a house many times, each time with what went in moved
// within its uncertainty, and gives the spread of the numbers.
//
// # How samples are taken
//
// Each sample is drawn by its number alone (package perturb), so any number of
// workers gives the same ranges. An option is compared with today sample by sample:
// what is uncertain of both alike does not blur the difference.
package sampling
