// Package search finds nominal sizes. It solves every filter grille, slot, cabinet
// and duct that may fit in the real house, ranks them, and makes a size an option
// of the job.
package search
