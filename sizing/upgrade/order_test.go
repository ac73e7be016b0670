package upgrade

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Where the cost of ten years is known it decides, however many changes it takes; the
// others follow, the fewest changes first.
func TestOrderOfUpgrades_Identity(t *testing.T) {
	upgrade := func(name string, changes int, cost units.Money, known bool) Upgrade {
		return Upgrade{Changes: make([]message.Message, changes), Result: study.OptionResult{Name: name, TenYearCost: cost, TenYearKnown: known}}
	}
	got := []Upgrade{upgrade("two, no price", 2, 5000, false), upgrade("dear", 1, 9000, true), upgrade("one, no price", 1, 6000, false), upgrade("cheap", 2, 7000, true)}
	slices.SortStableFunc(got, compare)
	var names []string
	for _, u := range got {
		names = append(names, u.Result.Name)
	}
	require.Equal(t, []string{"cheap", "dear", "one, no price", "two, no price"}, names)
}
