package airpath

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// oneGrille is an invented house whose first of two grilles holds a filter; atUnit: the
// unit holds one too.
func oneGrille(atUnit bool) *sizing.Study {
	s := airStudy(2, false)
	o := &s.Options[1]
	in := func(v float64) units.Pressure { return units.Pressure(v) * units.InchWater }
	o.Clean.Branches[0].FilterDrop, o.Clean.Branches[0].Airflow = in(0.049), 400*units.CFM
	o.Clean.Branches[1].Airflow = 780 * units.CFM
	mean := in(0.049 * 400 / 1180)
	f := &o.Clean.Parts[1]
	o.Places = []sizing.FilterPlace{{Where: sizing.InGrille}}
	f.Drop, f.Basis, f.Over = mean, "typed", false
	if atUnit {
		o.Places = append(o.Places, sizing.FilterPlace{Where: sizing.InSlot, Branch: -1})
		f.Drop, f.Over = mean+in(0.286), true
	}
	f.Share = float64(f.Drop) / float64(s.RatedExternalStatic)
	return s
}

// costlyFilters counts the filters that are painted as taking too much.
func costlyFilters(a *Drawing) int {
	n := 0
	for _, o := range test.WidgetRenderer(a).Objects() {
		if r, ok := o.(*canvas.Rectangle); ok && r.FillColor == look.Of(a.Theme(), look.WashCaution) {
			n++
		}
	}
	return n
}

// A filter at the unit and one in a grille are both drawn, each with what a gauge reads
// over it, and the one that takes too much is marked.
func TestFiltersInARowAreBothDrawn(t *testing.T) {
	a, _ := airpathOn(t, oneGrille(true), false, 900, 460)
	text := guitest.Words(a)
	assert.Contains(t, text, "unit filter")
	assert.Contains(t, text, "0.286 in. w.c.")
	assert.Contains(t, text, "57 % of rated")
	assert.Contains(t, text, "all filters 0.303")
	assert.Contains(t, text, "filter 0.049 in. w.c.")
	assert.NotContains(t, text, "filters at grilles")
	assert.Equal(t, 1, costlyFilters(a), "the filter at the unit alone takes more than its budget")
	checkLegible(t, a, "two in a row")
}

// Of one filter in one of two grilles stands what a gauge reads over it; the mean says
// that it is one.
func TestFilterInOneGrilleShowsWhatAGaugeReads(t *testing.T) {
	s := oneGrille(false)
	a, _ := airpathOn(t, s, false, 900, 460)
	text := guitest.Words(a)
	assert.Contains(t, text, "filter at grille")
	assert.Contains(t, text, "0.049 in. w.c.")
	assert.Regexp(t, `mean over all\s+return air 0\.017`, text)
	checkLegible(t, a, "one grille")

	for i := range s.Options[1].Clean.Branches {
		s.Options[1].Clean.Branches[i].FilterDrop = 0.049 * units.InchWater
	}
	a.Set(s, s.Today(), false, units.IP)
	assert.Regexp(t, `mean over all\s+return air`, guitest.Words(a))
	a.Resize(fyne.NewSize(900, 460))
	checkLegible(t, a, "two grilles")

	b, _ := airpathOn(t, airStudy(1, true), false, 900, 460)
	assert.Contains(t, guitest.Words(b), "filter at grille")
	assert.NotContains(t, guitest.Words(b), "mean over", "one return carries all the air")
}
