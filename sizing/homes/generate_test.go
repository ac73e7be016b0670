package homes

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// TestGenerate: one seed gives one list; every home says that it is
// invented; a shorter list is the start of a longer one.
func TestGenerate(t *testing.T) {
	a := invented(t, 5, 300)
	assert.Equal(t, a, invented(t, 5, 300))
	assert.NotEqual(t, a, invented(t, 6, 300))
	assert.True(t, strings.HasPrefix(a, invented(t, 5, 20)))
	rows := records(t, a)
	require.Len(t, rows, 301)
	for _, r := range rows[1:] {
		assert.Contains(t, r[0], "invented")
	}
	require.ErrorIs(t, Generate(1, 10000, &full{5000}), errFull)
}

// TestGenerateMeans_Identity holds the means of many invented homes against
// those found in the field that they are drawn about: 0.82 in. w.c. external
// static (secondary text); 0.28 in. w.c. filter drop, Proctor, ASHRAE Journal,
// Oct. 2012 (secondary text). It is a check of the drawing, not of any result.
// The tolerance is half of the last printed digit.
func TestGenerateMeans_Identity(t *testing.T) {
	rows := records(t, invented(t, 1, 20000))
	h, err := readHeading(rows[0])
	require.NoError(t, err)
	var static, drop float64
	for _, r := range rows[1:] {
		home, faults := h.read(r)
		require.Empty(t, faults)
		static += (home.reading.BlowerOutlet - home.reading.BlowerInlet).In(units.InchWater)
		drop += home.reading.FilterDrop.In(units.InchWater)
	}
	n := float64(len(rows) - 1)
	assert.InDelta(t, 0.82, static/n, 0.005)
	assert.InDelta(t, 0.28, drop/n, 0.005)
}

// TestGenerateSolves: no invented home is at fault.
func TestGenerateSolves(t *testing.T) {
	_, s := screened(t, invented(t, 11, 400), Options{Report: func(f Fault) { t.Error(f) }})
	assert.Equal(t, 400, s.Homes)
	assert.Zero(t, s.Faulty)
}

func BenchmarkGenerate(b *testing.B) {
	for b.Loop() {
		if err := Generate(1, 1000, io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
