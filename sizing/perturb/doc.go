// Package perturb changes the inputs of one sample of a house within their
// uncertainty: readings, blower table, ratings, geometry and assumed values. Each
// random draw depends on a seed, the sample's number and the name of the input
// alone.
package perturb
