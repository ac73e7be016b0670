package gui

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
)

// Every field of the Job can be reached and edited in some place.
func TestEveryFieldOfTheJobIsReachable(t *testing.T) {
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	require.NoError(t, err)
	missing := map[string]bool{}
	for _, path := range fieldpath.Leaves(reflect.TypeFor[sizing.Job]()) {
		missing[path] = true
	}
	require.Greater(t, len(missing), 150)
	delete(missing, "schema") // the engine's own
	for _, job := range jobsWithAllLists() {
		b.put(job, "")
		for _, p := range places() {
			b.goTo(p.key)
			f, ok := b.screens[p.key].(formFields)
			if !ok {
				continue
			}
			for path := range missing {
				whole, _, grid := strings.Cut(path, ".points[0].")
				if f.Field(path) != nil || grid && f.Field(whole+".points") != nil {
					delete(missing, path)
				}
			}
		}
	}
	require.Empty(t, missing)
}

// A fault of any field leads to the place that holds the field.
func TestEveryFaultLeadsToItsField(t *testing.T) {
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	require.NoError(t, err)
	b.put(jobWithAllLists(duct.Rectangular, duct.ElbowSmooth), "")
	require.NotEmpty(t, b.session.Errors())
	for _, f := range b.session.Errors() {
		b.showPath(f.Path)
		place, ok := b.screens[b.at].(formFields)
		require.True(t, ok, f.Path)
		found := false
		for path := f.Path; path != "" && !found; path = fieldpath.Parent(path) {
			found = place.Field(path) != nil
			for _, p := range place.Paths() {
				found = found || strings.HasPrefix(p, path+".")
			}
		}
		require.True(t, found, "%s is not in %s", f.Path, b.at)
	}
}

// A size of the list becomes an option that solves, and that moves about the
// air that the list says.
func TestEverySizeCanBeCompared(t *testing.T) {
	for _, name := range []string{"one-inch-slot", "two-returns", "constant-airflow", "metric-altitude"} {
		t.Run(name, func(t *testing.T) {
			b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
			require.NoError(t, err)
			b.put(example(t, name), "")
			seen := map[sizing.PlaceKind]bool{}
			for i, size := range b.session.Study().Sizes {
				if seen[size.Place] {
					continue
				}
				seen[size.Place] = true
				b.enter("sizes")
				s := b.screens["sizes"].(interface {
					Choose(row int)
					Add()
				})
				s.Choose(i)
				s.Add()
				require.Empty(t, b.session.Errors(), "%s %s", size.Place, size.Label)
				require.Equal(t, "compare", b.at)
				options := b.session.Study().Options
				got := options[len(options)-1]
				require.InEpsilon(t, size.Airflow.SI(), got.Clean.Airflow.SI(), 0.05, fmt.Sprint(size.Place, size.Label))
				b.Undo()
			}
			require.Equal(t, example(t, name), b.session.Job())
		})
	}
}
