package report

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// TestFieldSheet: one page that asks for the units in use, on both papers.
func TestFieldSheet(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	for _, p := range Papers() {
		for sys, unit := range map[units.Locale]string{units.IP: "Rated external static, in. w.c.", units.SI: "Rated external static, Pa"} {
			pages := readPages(t, written(t, job, s, testOptions(FieldSheet, p, sys)))
			require.Len(t, pages, 1)
			holds(t, string(p), pageText(pages[0]), unit, "Switch off power", "Blower table", "Returns", "Readings")
		}
	}
}

// TestClassSheet: of every demonstration the front asks and tells nothing
// of the end, and the back answers with the outcome's own numbers.
func TestClassSheet(t *testing.T) {
	for _, name := range assets.Lessons() {
		data, err := assets.OpenLesson(name)
		require.NoError(t, err)
		l, err := jobfile.ReadLesson(data)
		require.NoError(t, err)
		o, err := l.Run(sizing.Solve)
		require.NoError(t, err)
		p, err := NewClass(o, Options{Paper: A4, System: units.IP})
		require.NoError(t, err)
		require.Equal(t, 2, p.Count, name)
		var out bytes.Buffer
		require.NoError(t, p.Write(&out))
		pages := readPages(t, out.Bytes())
		front, back := pageText(pages[0]), pageText(pages[1])
		holds(t, name, front, l.Ask(units.IP))
		for _, n := range l.Numbers {
			holds(t, name, back, o.End().Value(n).Show(units.IP))
		}
		for i, right := range o.Right() {
			if right {
				holds(t, name, back, "[X] "+l.Predictions[i].Text)
			}
		}
		assert.NotContains(t, front, "[X]")
		for _, n := range l.Numbers[:min(1, len(l.Numbers))] {
			if o.Change(n).Goes() != lesson.Level {
				assert.NotContains(t, front, " "+o.End().Value(n).Show(units.IP), name)
			}
		}
	}
}

func TestRoundUp_Identity(t *testing.T) {
	for v, want := range map[float64]float64{0.888: 1, 1.2: 2, 2: 2, 350: 400, 83: 100, 0: 1} {
		assert.InDelta(t, want, roundUp(v), 1e-12*want)
	}
}
