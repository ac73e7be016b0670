// Package pleats sweeps a filter's media over pleat counts and depths.
package pleats
