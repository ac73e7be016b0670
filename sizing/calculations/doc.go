// Package calculations lists the steps behind each headline number of a Study.
package calculations
