package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// twoInARow has a filter at the unit and one in the first of its grilles.
func twoInARow() Job {
	j := cramped()
	j.Filters = []filter.Filter{{Name: "pleated", Depth: units.Inch, MERV: 8}}
	j.Returns[0].Filter = "pleated"
	j.Slot.Filter = "pleated"
	return j
}

// A size at the unit that takes the filter out of a grille says so: in its name, in the
// words about the option, and in the changes of an upgrade.
func TestSizeAtTheUnitSaysThatAGrilleLosesItsFilter(t *testing.T) {
	j := twoInARow()
	s, err := Solve(j)
	require.NoError(t, err)
	at := -1
	for i, z := range s.Sizes {
		if z.Place == InCabinet {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0)
	z := s.Sizes[at]
	name := AddSize(&j, z)
	assert.Equal(t, "cabinet "+z.Label+", no filter in the grille of hall", name)
	s, err = Solve(j)
	require.NoError(t, err)
	assert.Equal(t, "The filter comes out of the grille of hall: all air then passes the filter at the unit, and two filters in a row cost their drop twice.",
		s.EmptiedWords(s.Option(name)).In(units.IP))

	w, _ := single(t, twoInARow(), "cabinet ")
	assert.Contains(t, w.Name(), ", no filter in the grille of hall")

	kept := twoInARow()
	kept.Options = []Option{{Name: "another", Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: 4 * units.Inch}},
		{Name: "none", Slot: Slot{None: true}, Returns: cramped().Returns}, {Name: "den alone", Returns: cramped().Returns[1:]}}
	s, err = Solve(kept)
	require.NoError(t, err)
	for _, o := range []string{TodayName, "another", "den alone"} {
		assert.True(t, s.EmptiedWords(s.Option(o)).Empty(), o)
	}
	assert.Equal(t, "The filter comes out of the grille of hall: its air is then not filtered.", s.EmptiedWords(s.Option("none")).In(units.IP))
}

// A filter place in a grille takes no filter out of another, and several returns are
// named together.
func TestSizeNamesCountManyGrilles(t *testing.T) {
	j := twoInARow()
	j.Returns[1].Filter = "pleated"
	s, err := Solve(j)
	require.NoError(t, err)
	for _, z := range s.Sizes {
		k := j.Clone()
		name := AddSize(&k, z)
		if z.Place == InGrille {
			assert.NotContains(t, name, "no filter")
		} else {
			assert.Contains(t, name, ", no filters in the grilles of hall and den")
		}
	}
	j.Returns = append(j.Returns, j.Returns[0])
	for _, z := range s.Sizes {
		if z.Place == InCabinet {
			assert.Contains(t, AddSize(&j, z), ", no filters in 3 grilles")
			return
		}
	}
	t.Fatal("no cabinet is listed")
}
