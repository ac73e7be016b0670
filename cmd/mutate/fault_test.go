package main

import (
	"go/parser"
	"go/token"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const sample = `package sample

func total(parts []float64, heating bool) float64 {
	sum := 0.5
	for i := range parts {
		sum += parts[i]
	}
	if heating && sum > 1 {
		return -sum * float64(parts[0])
	}
	return sum + parts[1] - coolingShare(sum)
}

func coolingShare(x float64) float64 { return x }
func heatingShare(x float64) float64 { return x / 2 }
`

func TestFind(t *testing.T) {
	faults, err := find("sample.go", []byte(sample))
	require.NoError(t, err)
	kinds := map[string]int{}
	for _, f := range faults {
		kinds[f.kind]++
		changed := f.apply([]byte(sample))
		assert.NotEqual(t, sample, string(changed), f.String())
		_, err := parser.ParseFile(token.NewFileSet(), "", changed, 0)
		assert.NoError(t, err, "%s makes %s", f, changed)
	}
	for _, kind := range []string{"sign", "factor", "comparison", "condition", "index", "neighbor", "dropped term", "dropped assignment"} {
		assert.Positive(t, kinds[kind], kind)
	}
	var confused bool
	for _, f := range faults {
		confused = confused || f.with == "heatingShare"
	}
	assert.True(t, confused, "heating is taken for cooling")
}

func TestDraw(t *testing.T) {
	drawn := func(seed uint64) []fault {
		faults, err := find("sample.go", []byte(sample))
		require.NoError(t, err)
		draw(faults, seed)
		return faults
	}
	one := drawn(1)
	assert.Equal(t, one, drawn(1), "a seed draws the same faults")
	assert.NotEqual(t, one, drawn(2))
	kinds := map[string]bool{}
	for _, f := range one[:6] {
		kinds[f.kind] = true
	}
	assert.Len(t, kinds, 6, "the first are each of another kind")
}
