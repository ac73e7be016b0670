// Package perturb moves what goes into one sample of a house within its
// uncertainty: readings, blower table, ratings, geometry and what is assumed. Each
// draw follows from a seed, the sample's number and the name of what it moves.
package perturb
