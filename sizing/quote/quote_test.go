package quote

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/units"
)

// Hand-worked: 1 x 650 + 2 x 38 = 726 before tax. The permit of 45 is not taxed:
// 726 x 0.0825 = 59.895, to the cent 59.90 (half up). 726 + 45 + 59.90 = 830.90.
func TestSum_Identity(t *testing.T) {
	lines := []Line{
		{Item: "cabinet", Price: 650 * units.Dollar},
		{Item: "filter", Count: 2, Price: 38 * units.Dollar},
		{Item: "permit", Price: 45 * units.Dollar, NoTax: true},
	}
	got := Sum(lines, 0.0825)
	assert.True(t, got.Known)
	assert.InDelta(t, 771, float64(got.Net/units.Dollar), 1e-9)
	assert.InDelta(t, 59.90, float64(got.Tax/units.Dollar), 1e-9)
	assert.InDelta(t, 830.90, float64(got.Total/units.Dollar), 1e-9)
}

func TestSumNotKnown_Identity(t *testing.T) {
	assert.False(t, Sum(nil, 0.05).Known, "nothing to sell has no price")
	got := Sum([]Line{{Item: "cabinet", Price: 650 * units.Dollar}, {Item: "duct"}}, 0.05)
	assert.False(t, got.Known)
	assert.Zero(t, got.Total, "half a sum is never told")
}

func TestOf_Identity(t *testing.T) {
	q := Quote{Lines: []Line{{Item: "visit"}, {Item: "cabinet", Option: "deep"}, {Item: "grille", Option: "wide"}}}
	assert.Equal(t, []Line{{Item: "visit"}, {Item: "cabinet", Option: "deep"}}, q.Of("deep"))
	assert.Equal(t, []Line{{Item: "visit"}}, q.Of("today"))
}
