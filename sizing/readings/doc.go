// Package readings sets each round with the gauge beside what the Study predicts,
// and finds the house as it was at the moment of the gauge.
package readings
