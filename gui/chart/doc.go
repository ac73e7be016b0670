// Package chart is a chart in the window. The chart itself is drawn by package
// plots; this one adds the read-out under the pointer or by keyboard, and zoom.
package chart
