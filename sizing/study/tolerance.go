package study

import (
	"cmp"
	"math"
)

// Order compares two conditions for a sort that puts true after false.
func Order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// CompareLoose orders two numbers and takes those within rounding as equal, so
// that the units in which a house was typed do not decide between two equal
// sizes.
func CompareLoose(a, b float64) int {
	if math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return cmp.Compare(a, b)
}

// tolerance is the share by which a figure may pass a limit before it counts as
// over it: nominal sizes turned from inches to meters and back, and an operating
// point found by iteration, differ by less.
const tolerance = 1e-4

// Exceeds reports whether v is over the highest that is allowed.
func Exceeds[T ~float64](v, most T) bool { return v > most*(1+tolerance) }

// Under reports whether v is below the least that is wanted.
func Under[T ~float64](v, least T) bool { return v*(1+tolerance) < least }

// Noticeable is the smallest change that counts as one, as a share of the
// number compared with: gauges of the trade do not show less (common practice,
// no source).
const Noticeable = 0.01

// Short reports whether an airflow is short of the one wanted by more than a
// noticeable share. Findings, taps and upgrades all use this one rule.
func Short[T ~float64](flow, wanted T) bool { return flow < wanted*(1-Noticeable) }
