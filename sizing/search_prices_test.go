package sizing

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/search"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

var invented = WorkPrices{Cabinet: 900, Slot: 300, Grille: 150, Return: 700, Duct: 400, Visit: 90}

// A bill is whole only where each of its lines has a price.
func TestBill_Identity(t *testing.T) {
	var b search.WorkCost
	assert.Zero(t, b.TotalIfKnown())
	b.Add(2, 150)
	b.Add(0, 0)
	assert.Equal(t, units.Money(300), b.TotalIfKnown())
	b.Add(1, 0)
	assert.Zero(t, b.TotalIfKnown())
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
		assert.Equal(t, r.want, search.OfSize(invented, r.size, r.branches).TotalIfKnown(), r.name)
	}
}

// The price of a way's work is in its ten years and in the option that it
// becomes; with one price missing none is reported, and it stands behind those that
// are priced.
func TestUpgradesArePriced(t *testing.T) {
	j := choked()
	j.Prices = invented
	target := solved(t, j).Today().Clean.Airflow * 1.01
	r, err := FindUpgrades(context.Background(), j, target, nil)
	require.NoError(t, err)
	require.NotEmpty(t, r.Upgrades)
	for _, w := range r.Upgrades {
		require.True(t, w.Priced, w.Name())
		taken := j.Clone()
		name := upgrade.AddUpgrade(units.IP, &taken, w)
		option := solved(t, taken).Option(name)
		assert.Equal(t, w.Result.Upgrade, option.Upgrade, name)
		assert.InEpsilon(t, float64(option.TenYearPower+option.TenYearOutdoor+option.TenYearFilter+w.Result.Upgrade), float64(option.TenYearCost), 1e-12, name)
	}

	j.Prices.Cabinet, j.Prices.Slot, j.Prices.Grille = 0, 0, 0
	r, err = FindUpgrades(context.Background(), j, target, nil)
	require.NoError(t, err)
	priced, unpriced := 0, 0
	for i, w := range r.Upgrades {
		if w.Priced {
			priced++
			if i > 0 && len(r.Upgrades[i-1].Changes) == len(w.Changes) {
				assert.True(t, r.Upgrades[i-1].Priced, "%s stands behind one without a price", w.Name())
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
	name := search.AddSize(units.IP, &j, *study.SuggestedSizes.Cabinet)
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
