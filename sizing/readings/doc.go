// Package readings compares each round of gauge readings with the Study's
// prediction, and finds the state of the house at the moment of the readings.
package readings
