package sizing

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// manyReturns is a house of three unlike returns, two of them with filters, of which the
// second is soon full.
func manyReturns() Job {
	j := pinned()
	soft, small := holding("soft", 20, 25, 400), holding("small", 16, 20, 30)
	soft.Bracing, soft.Rating[0].Drop, soft.FinalDrop = filter.Unbraced, 1.2*units.InchWater, 3*units.InchWater
	small.FinalDrop = 3 * units.InchWater
	j.Filters = []filter.Filter{soft, small}
	j.Slot = Slot{None: true}
	j.Returns = []Return{drop10("hall", 2), drop10("den", 8), drop10("attic", 30)}
	for i, f := range j.Filters {
		j.Returns[i].Filter, j.Returns[i].Grille = f.Name, duct.Grille{Width: f.Width, Height: f.Height}
	}
	j.Returns[1].Runs = append(j.Returns[1].Runs, duct.Run{Shape: duct.Flex, Diameter: 9 * units.Inch, Length: 10 * units.Foot, Compression: 0.1})
	j.Returns[2].Grille = duct.Grille{Width: 12 * units.Inch, Height: 10 * units.Inch}
	j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 0.9, 60*units.Month
	return j
}

// The order in which returns are listed changes no number of the Study.
func TestOrderOfReturns_Identity(t *testing.T) {
	unfiltered := manyReturns()
	for i := range unfiltered.Returns {
		unfiltered.Returns[i].Filter = ""
	}
	unfiltered.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "soft", Gap: 2 * units.Millimetre}
	behind := manyReturns()
	behind.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "soft", EdgeCover: 2 * units.Millimetre}
	for name, j := range map[string]Job{"filters in grilles": manyReturns(), "filter at the unit": unfiltered, "both": behind} {
		own := job.CloneReturns(j.Returns)
		own[0].Runs[0].Diameter, own[2].Grille.Width = 12*units.Inch, 14*units.Inch
		j.Options = []Option{{Name: "other", Returns: own}}
		turned := j.Clone()
		slices.Reverse(turned.Returns)
		slices.Reverse(turned.Options[0].Returns)
		was, is := solved(t, j), solved(t, turned)
		require.Equal(t, name == "both", was.Today().Clean.LeftSeat)
		for _, o := range []string{TodayName, "other"} {
			assert.Empty(t, differences(o, reflect.ValueOf(*was.Option(o)), reflect.ValueOf(*is.Option(o))), name)
		}
		assert.Empty(t, differences("ducts", reflect.ValueOf(was.Ducts), reflect.ValueOf(is.Ducts)), name)
		assert.Empty(t, differences("pieces", reflect.ValueOf(was.ReturnComponents), reflect.ValueOf(is.ReturnComponents)), name)
		assert.Empty(t, differences("sizes", reflect.ValueOf(was.Sizes), reflect.ValueOf(is.Sizes)), name)
		assert.Equal(t, codes(was.Findings), codes(is.Findings), name)
	}
}

// Nor does the order of options and taps.
func TestOrderOfOptions_Identity(t *testing.T) {
	j := twoTaps()
	j.Filters = []filter.Filter{holding("own", 20, 25, 60), holding("small", 16, 20, 30)}
	j.Slot = Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "own"}
	j.Returns = []Return{drop10("hall", 2), drop10("den", 8)}
	wide := job.CloneReturns(j.Returns)
	wide[0].Runs[0].Diameter = 14 * units.Inch
	j.Options = []Option{{Name: "small", Slot: Slot{Filter: "small", Gap: 3 * units.Millimetre}}, {Name: "wide", Returns: wide, Price: 300},
		{Name: "high", Tap: "high"}, {Name: "fast", SpeedRatio: 1.08}, {Name: "wide and small", Returns: wide, Slot: Slot{Filter: "small"}}}
	turned := j.Clone()
	slices.Reverse(turned.Options)
	slices.Reverse(turned.Equipment.Blower.Taps)
	was, is := solved(t, j), solved(t, turned)
	for _, o := range append([]Option{{Name: TodayName}}, j.Options...) {
		assert.Empty(t, differences(o.Name, reflect.ValueOf(*was.Option(o.Name)), reflect.ValueOf(*is.Option(o.Name))))
	}
	assert.Empty(t, differences("taps", reflect.ValueOf(was.Taps), reflect.ValueOf(is.Taps)))
	assert.Empty(t, differences("sizes", reflect.ValueOf(was.Sizes), reflect.ValueOf(is.Sizes)))
}

// ofNoPlace are what was typed, what is told of the first filter alone, and rounding.
var ofNoPlace = map[string]bool{
	"OptionResult.Returns": true, "OptionResult.Filter": true, "OptionResult.FilterCurve": true, "Condition.Residual": true,
}

// differences lists the numbers that differ, those of a branch found by its name.
func differences(path string, a, b reflect.Value) (out []string) {
	switch a.Kind() {
	case reflect.Float64:
		if x, y := a.Float(), b.Float(); math.Abs(x-y) > 1e-6*math.Max(math.Abs(x), math.Abs(y)) {
			out = append(out, fmt.Sprintf("%s: %g, %g", path, x, y))
		}
	case reflect.Bool, reflect.String:
		if !a.Equal(b) {
			out = append(out, fmt.Sprintf("%s: %v, %v", path, a, b))
		}
	case reflect.Pointer:
		if a.IsNil() != b.IsNil() {
			out = append(out, path+": one is missing")
		} else if !a.IsNil() {
			out = differences(path, a.Elem(), b.Elem())
		}
	case reflect.Struct:
		if _, words := a.Interface().(message.Message); words {
			break // names what it is about in the order of the list
		}
		for i := range a.NumField() {
			name := a.Type().Field(i).Name
			if a.Type().Field(i).IsExported() && !ofNoPlace[a.Type().Name()+"."+name] {
				out = append(out, differences(path+"."+name, a.Field(i), b.Field(i))...)
			}
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return []string{fmt.Sprintf("%s: %d, %d long", path, a.Len(), b.Len())}
		}
		for i := range a.Len() {
			k, at := i, fmt.Sprintf("%s[%d]", path, i)
			if name := nameOf(a.Index(i)); name != "" {
				at = path + "[" + name + "]"
				for k = 0; k < b.Len() && nameOf(b.Index(k)) != name; k++ {
				}
			}
			if k == b.Len() {
				out = append(out, at+": missing")
				continue
			}
			out = append(out, differences(at, a.Index(i), b.Index(k))...)
		}
	}
	return out
}

// nameOf tells which branch an entry of a list is of, and which of its pieces.
func nameOf(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case BranchFlow:
		return x.Name.String()
	case FilterPlace:
		return string(x.Where) + x.Return.String()
	case DuctSize:
		return x.Branch.String()
	case ReturnComponent:
		return x.Branch.String() + x.Name.String()
	case Finding:
		return x.Code
	case TapAdvice:
		return x.Tap
	case Size:
		return string(x.Place) + x.Label
	}
	return ""
}
