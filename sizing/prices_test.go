package sizing

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

var invented = WorkPrices{Cabinet: 900, Slot: 300, Grille: 150, Return: 700, Duct: 400, Visit: 90}

// A bill is whole only where each of its lines has a price.
func TestBill_Identity(t *testing.T) {
	var b bill
	assert.Zero(t, b.whole())
	b.add(2, 150)
	b.add(0, 0)
	assert.Equal(t, units.Money(300), b.whole())
	b.add(1, 0)
	assert.Zero(t, b.whole())
}

func TestWorkOfASize_Identity(t *testing.T) {
	for _, r := range []struct {
		name     string
		size     Size
		branches int
		want     units.Money
	}{
		{"cabinet", Size{Place: InCabinet, Count: 2}, 2, 900},
		{"slot", Size{Place: InSlot, Count: 1}, 1, 300},
		{"a grille on each of two branches", Size{Place: InGrille, Count: 2}, 2, 300},
		{"two more branches than there are", Size{Place: InGrille, Count: 3}, 1, 150 + 2*700},
		{"no branch described", Size{Place: InGrille, Count: 2}, 0, 300},
	} {
		assert.Equal(t, r.want, invented.ofSize(r.size, r.branches).whole(), r.name)
	}
}

// The price of a way's work is in its ten years and in the option that it
// becomes; with one price missing none is told, and it stands behind those that
// are priced.
func TestWaysArePriced(t *testing.T) {
	j := choked()
	j.Prices = invented
	target := solved(t, j).Today().Clean.Airflow * 1.01
	r, err := Reach(context.Background(), j, target, nil)
	require.NoError(t, err)
	require.NotEmpty(t, r.Ways)
	for _, w := range r.Ways {
		require.True(t, w.Priced, w.Name())
		taken := j.Clone()
		name := taken.TakeWay(w)
		option := solved(t, taken).Option(name)
		assert.Equal(t, w.Result.Upgrade, option.Upgrade, name)
		assert.InEpsilon(t, float64(option.TenYearPower+option.TenYearOutdoor+option.TenYearFilter+w.Result.Upgrade), float64(option.TenYearCost), 1e-12, name)
	}

	j.Prices.Cabinet, j.Prices.Slot, j.Prices.Grille = 0, 0, 0
	r, err = Reach(context.Background(), j, target, nil)
	require.NoError(t, err)
	priced, unpriced := 0, 0
	for i, w := range r.Ways {
		if w.Priced {
			priced++
			if i > 0 && len(r.Ways[i-1].Changes) == len(w.Changes) {
				assert.True(t, r.Ways[i-1].Priced, "%s stands behind one without a price", w.Name())
			}
			continue
		}
		unpriced++
		assert.Zero(t, w.Result.Upgrade, w.Name())
	}
	assert.Positive(t, priced)
	assert.Positive(t, unpriced)
}

func TestSizeTakenIsPriced(t *testing.T) {
	j := choked()
	j.Prices = invented
	study := solved(t, j)
	name := j.Take(*study.Answer.Cabinet)
	assert.Equal(t, invented.Cabinet, solved(t, j).Option(name).Upgrade)
}

func TestOverTheBudget(t *testing.T) {
	said := func(j Job) bool {
		for _, f := range solved(t, j).Option("dear").Findings {
			if f.Code == "over_budget" {
				return true
			}
		}
		return false
	}
	j := choked()
	j.Options = append(j.Options, Option{Name: "dear", Price: 2000})
	assert.False(t, said(j), "no budget, no limit")
	j.Limits.Budget = 2000
	assert.False(t, said(j))
	j.Limits.Budget = 1999
	assert.True(t, said(j))
}

func TestNegativePricesAreFaults(t *testing.T) {
	j := choked()
	j.Prices.Duct = -1
	faults := j.Check()
	require.Len(t, faults, 1)
	assert.Equal(t, "work_prices.duct", faults[0].Path)
}
