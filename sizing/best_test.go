package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestBest_Identity(t *testing.T) {
	option := func(name, kind string, v sizing.Severity, static units.Pressure) sizing.OptionResult {
		o := sizing.OptionResult{Name: name, Kind: kind, Verdict: v}
		o.Clean.ExternalStatic = static
		return o
	}
	none, today := option("no filter", "no_filter", sizing.Good, 50), option("today", "today", sizing.Good, 90)
	for _, c := range []struct {
		want    string
		options []sizing.OptionResult
	}{
		{"today", nil},
		{"a", []sizing.OptionResult{option("a", "option", sizing.Stop, 200)}}, // something is proposed where it can be
		{"b", []sizing.OptionResult{option("a", "option", sizing.Stop, 80), option("b", "option", sizing.Caution, 200)}},
		{"b", []sizing.OptionResult{option("a", "option", sizing.Good, 100), option("b", "option", sizing.Good, 99)}},
		{"a", []sizing.OptionResult{option("a", "option", sizing.Good, 99), option("b", "option", sizing.Good, 99)}},
	} {
		s := &sizing.Study{Options: append([]sizing.OptionResult{none, today}, c.options...)}
		require.Equal(t, c.want, s.Best().Name)
	}
}
