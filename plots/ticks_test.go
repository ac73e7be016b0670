package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		width := math.Pow(10, rapid.Float64Range(-3, 5).Draw(t, "decades"))
		ticks := roundTicks{n: rapid.IntRange(1, 8).Draw(t, "n")}.Ticks(lo, lo+width)
		if len(ticks) < 2 {
			t.Fatalf("%d ticks from %g to %g", len(ticks), lo, lo+width)
		}
		seen := map[string]bool{}
		for _, k := range ticks {
			if k.Value < lo-1e-6*width || k.Value > lo+width*(1+1e-6) {
				t.Fatalf("tick %g outside %g to %g", k.Value, lo, lo+width)
			}
			if seen[k.Label] {
				t.Fatalf("two ticks read %q", k.Label)
			}
			seen[k.Label] = true
		}
	})
	labels := []string{}
	for _, k := range (roundTicks{n: 5}).Ticks(0, 0.62) {
		labels = append(labels, k.Label)
	}
	assert.Equal(t, []string{"0.0", "0.2", "0.4", "0.6"}, labels)
}
