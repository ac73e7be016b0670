// Package search finds nominal sizes: every filter grille, slot, cabinet and duct
// worth solving, solved in the real house and ranked, and makes a size an option of
// the job.
package search
