// Package calculations tells the steps behind each headline number of a Study.
package calculations
