//go:build e2e

package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// TestWindow_Estimator: an estimator opens an example by the menu, puts two
// options beside today, holds them against another baseline, copies the table for
// a spreadsheet, and saves the page for the customer.
func TestWindow_Estimator(t *testing.T) {
	p := newPerson(newDesk(t), "estimator", "")
	empty := p.sees("empty")
	p.opensExample()
	opened := p.seesNew(empty, "example")

	for i, row := range []string{"slot", "cabinet"} {
		if i > 0 {
			p.press("ctrl+1")
			p.seesNew(opened, "answer-for-"+row)
		}
		p.to("Smallest sizes that fit, or the nearest")
		p.press("Down", "Down")
		for range i {
			p.press("Down")
		}
		p.sees("chosen-" + row)
		p.clicks("Add to Compare")
		opened = p.sees("compare-" + row)
	}
	p.press("ctrl+s")
	file := p.saves("quote.job.json")
	asIs, err := jobfile.Load(example("one-inch-slot"))
	require.NoError(t, err)
	n := len(asIs.Options)
	job := p.job(file, func(j *sizing.Job) error {
		if len(j.Options) != n+2 {
			return fmt.Errorf("%d options", len(j.Options))
		}
		return nil
	})
	require.Equal(t, asIs.Options, job.Options[:n])
	slot, cabinet := job.Options[n].Name, job.Options[n+1].Name

	before := p.sees("compared")
	p.clicks("Copy")
	today := copied(t, p.clipboard())
	for _, o := range job.Options {
		require.GreaterOrEqual(t, today.column(o.Name+" minus today"), 0, "%s in %q", o.Name, today.heads)
	}
	p.chooses("Compare against", slot)
	p.seesNew(before, "another-baseline")
	p.presses("Copy")
	var against table
	p.soon("the table against the other baseline is copied", func() error {
		against = copied(t, p.clipboard())
		if against.column("today minus "+slot) < 0 {
			return fmt.Errorf("the heads are %q", against.heads)
		}
		return nil
	})
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	for _, name := range []string{sizing.TodayName, slot, cabinet} {
		require.InDelta(t, study.Option(name).Clean.Airflow.In(units.CFM), against.number(t, "Airflow, clean, cfm", name), 0.5+1e-9, name)
	}
	// The change is the difference of what stands in the table; each of the three
	// is rounded to a whole cfm.
	for _, name := range []string{sizing.TodayName, cabinet} {
		change := against.number(t, "Airflow, clean, cfm", name) - against.number(t, "Airflow, clean, cfm", slot)
		require.InDelta(t, change, against.number(t, "Airflow, clean, cfm", name+" minus "+slot), 1.5, name)
	}

	p.press("ctrl+shift+7")
	p.seesPage("page")
	p.chooses("Option", cabinet)
	p.seesPage("page-of-the-cabinet")
	p.presses("Save ...")
	page := p.pdf(p.saves("customer.pdf", "Return"))
	for _, name := range []string{sizing.TodayName, cabinet} {
		require.Contains(t, page, fmt.Sprintf("%.0f", 10*math.Round(study.Option(name).Clean.Airflow.In(units.CFM)/10)), name)
	}
	require.Contains(t, page, cabinet)
	p.sees("end")
	p.close()
}

// table is a copied comparison.
type table struct {
	heads []string
	rows  [][]string
}

func copied(t *testing.T, text string) table {
	t.Helper()
	var lines [][]string
	for line := range strings.Lines(text) {
		lines = append(lines, strings.Split(strings.TrimRight(line, "\n"), "\t"))
	}
	require.Greater(t, len(lines), 6, text)
	return table{lines[0], lines[1:]}
}

func (x table) column(head string) int { return slices.Index(x.heads, head) }

func (x table) number(t *testing.T, row, head string) float64 {
	t.Helper()
	at := x.column(head)
	require.GreaterOrEqual(t, at, 0, "%s in %q", head, x.heads)
	for _, r := range x.rows {
		if r[0] == row {
			v, err := strconv.ParseFloat(r[at], 64)
			require.NoError(t, err)
			return v
		}
	}
	require.Fail(t, "no row "+row, "%q", x.rows)
	return 0
}
