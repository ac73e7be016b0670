// Package sampling solves a house many times, each time with its inputs changed
// within their uncertainty, and returns the spread of the results.
//
// # How samples are taken
//
// Each sample is drawn by its number alone (package perturb), so any number of
// workers gives the same ranges. An option is compared with today sample by sample:
// an uncertainty that both share does not blur the difference.
package sampling
