//go:build e2e

package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

// TestWindow_Installer: an installer enters an invented house by keyboard in the
// order in which he walks it, takes a deeper cabinet into the comparison, leaves
// with the work order, and comes back to enter what the gauge read after the work.
func TestWindow_Installer(t *testing.T) {
	p := newPerson(newDesk(t), "installer", "")
	empty := p.sees("empty")
	p.types("3")
	p.enters("Design airflow", "1200")
	p.enters("Target face velocity", "300")
	p.press("Tab")
	first := p.seesNew(empty, "question")

	p.press("ctrl+period", "ctrl+period") // past the site
	p.chooses("Kind", "furnace with coil")
	p.enters("Rated external static", ".5")
	p.enters("Heating output", "60000")
	p.sees("equipment")

	p.press("ctrl+period")
	p.chooses("Motor", "PSC")
	p.presses("Add tap")
	p.enters("Tap name", "high")
	p.press("Tab")
	for i, cell := range []string{".2", "1390", "600", "", ".5", "1230", "550", "", ".8", "1010", "490"} {
		switch {
		case i > 0 && i%4 == 0:
			p.presses("Add row")
		case i > 0:
			p.press("Tab")
		}
		p.types(cell)
	}
	p.sees("blower")

	p.press("ctrl+period")
	p.presses("Add return")
	p.enters("Return name", "hall")
	p.enters("Size, W x H", "24x16")
	p.presses("Add duct run")
	p.enters("Diameter", "16")
	p.enters("Length", "14 ft")
	p.sees("returns")

	p.press("ctrl+period")
	p.enters("Size, W x H x D", "16x25x1")
	p.sees("slot")

	p.press("ctrl+period")
	p.enters("Drop", ".2")
	p.enters("at an airflow of", "1200")
	p.sees("coil")

	p.press("ctrl+period")
	p.presses("Add test")
	p.enters("Label", "before")
	p.enters("Date", "3 March")
	p.enters("Before the filter", ".12")
	p.enters("After filter, before blower", ".35")
	p.enters("After the blower", ".24")
	p.press("Tab")
	p.sees("gauge")

	p.press("ctrl+1")
	p.seesNew(first, "answer")
	p.to("Suggested sizes: the smallest that fit")
	p.press("Down", "Down", "Down")
	p.sees("cabinet-chosen")
	p.press("Return")
	p.sees("compare")

	p.press("ctrl+s")
	house := p.saves("hill.job.json")
	job := p.job(house, func(j *sizing.Job) error {
		if len(j.Options) != 1 {
			return fmt.Errorf("%d options", len(j.Options))
		}
		return nil
	})
	holdsTheHouse(t, &job)
	require.Contains(t, p.cli("check", house), "no fault found")

	// What he takes is what the program without a window finds for the house
	// without the option.
	bare := job.Clone()
	bare.Options = nil
	study, err := sizing.Solve(bare)
	require.NoError(t, err)
	cabinet := study.SuggestedSizes.Cabinet
	require.NotNil(t, cabinet)
	taken := job.Options[0]
	require.Equal(t, [3]units.Length{cabinet.Width, cabinet.Height, cabinet.Depth}, [3]units.Length{taken.Slot.Width, taken.Slot.Height, taken.Slot.Depth})
	require.GreaterOrEqual(t, taken.Slot.Depth, 4*units.Inch, "a deeper cabinet than the slot of one inch")

	p.press("ctrl+shift+7")
	page := p.seesPage("pages")
	p.chooses("Pages", "Work order")
	locked := p.seesNew(page, "cautions")
	p.presses("I have read all of these cautions")
	p.seesNew(locked, "cautions-read")
	p.seesPage("work-order")
	p.presses("Save ...")
	p.sees("work-order-name")
	order := p.pdf(p.saves("order.pdf", "Return"))
	safe, work, found := strings.Cut(order, "What is done")
	require.True(t, found, order)
	require.Contains(t, safe, "Switch off power")
	require.Contains(t, safe, "licensed installers")
	require.Contains(t, work, cabinet.Label)
	p.sees("work-order-saved")

	p.press("ctrl+9") // he comes back after the work
	p.presses("Add test")
	p.enters("Label", "after")
	p.enters("Date", "9 March")
	p.chooses("What is installed", taken.Name)
	p.presses("The filter was new")
	p.enters("Before the filter", ".14")
	p.enters("After filter, before blower", ".21")
	p.enters("After the blower", ".3")
	p.enters("After the coil", ".1")
	p.press("Tab")
	p.sees("measured-beside-predicted")
	p.press("ctrl+s")
	job = p.job(house, func(j *sizing.Job) error {
		if n := len(j.Readings); n != 2 || j.Readings[1].SupplyPlenum == 0 {
			return fmt.Errorf("%d rounds", n)
		}
		return nil
	})
	after := job.Readings[1]
	require.Equal(t, "after", after.Label)
	require.Equal(t, taken.Name, after.Option)
	require.True(t, after.FilterIsClean)
	require.InDelta(t, 0.21, math.Abs(after.BlowerInlet.In(units.InchWater)), 1e-9)

	p.press("ctrl+shift+7")
	page = p.seesPage("pages-again")
	p.chooses("Pages", "Calculations")
	p.seesNew(page, "the-working")
	p.seesPage("the-working-laid-out")
	p.presses("Save ...")
	working := p.pdf(p.saves("working.pdf", "Return"))
	study, err = sizing.Solve(job)
	require.NoError(t, err)
	beside(t, working, &study.Readings[1])
	p.sees("end")
	p.close()
}

func holdsTheHouse(t *testing.T, j *sizing.Job) {
	t.Helper()
	require.Equal(t, 3*units.Ton, j.Equipment.CoolingCapacity)
	require.Equal(t, 1200*units.CFM, j.DesignAirflow)
	require.InDelta(t, 300, j.TargetFaceVelocity.In(units.FPM), 1e-9)
	require.Equal(t, sizing.FurnaceWithCoil, j.Equipment.Kind)
	require.InDelta(t, 0.5, j.Equipment.RatedExternalStatic.In(units.InchWater), 1e-9)
	require.Equal(t, blower.PSC, j.Equipment.Blower.Motor)
	require.Len(t, j.Equipment.Blower.Taps, 1)
	require.Equal(t, "high", j.Equipment.Blower.Taps[0].Name)
	var table [][3]float64
	for _, q := range j.Equipment.Blower.Taps[0].Points {
		table = append(table, [3]float64{q.ExternalStatic.In(units.InchWater), q.Airflow.In(units.CFM), q.Power.In(units.Watt)})
	}
	for i, want := range [][3]float64{{0.2, 1390, 600}, {0.5, 1230, 550}, {0.8, 1010, 490}} {
		require.InDeltaSlice(t, want[:], table[i][:], 1e-6)
	}
	require.Len(t, j.Returns, 1)
	require.Equal(t, "hall", j.Returns[0].Name)
	require.Equal(t, [2]units.Length{24 * units.Inch, 16 * units.Inch}, [2]units.Length{j.Returns[0].Grille.Width, j.Returns[0].Grille.Height})
	require.Equal(t, []duct.Run{{Shape: duct.Round, Diameter: 16 * units.Inch, Length: 14 * units.Foot}}, j.Returns[0].Runs)
	require.Equal(t, [3]units.Length{16 * units.Inch, 25 * units.Inch, units.Inch}, [3]units.Length{j.Slot.Width, j.Slot.Height, j.Slot.Depth})
	require.InDelta(t, 0.2, j.Coil.Drop.In(units.InchWater), 1e-9)
	require.Len(t, j.Readings, 1)
	require.InDelta(t, 0.35, math.Abs(j.Readings[0].BlowerInlet.In(units.InchWater)), 1e-9)
	require.InDelta(t, 0.24, j.Readings[0].BlowerOutlet.In(units.InchWater), 1e-9)
}

// beside finds measured and predicted on one line of the page for each port.
func beside(t *testing.T, page string, r *sizing.ReadingResult) {
	t.Helper()
	require.NotEmpty(t, r.Rows)
	for _, row := range r.Rows {
		found := false
		for line := range strings.Lines(page) {
			found = found || strings.Contains(line, rounded(row.Measured)+" ") && strings.Contains(line, rounded(row.Predicted)+" ")
		}
		require.True(t, found, "%s: %v measured, %v predicted, in\n%s", row.Name, rounded(row.Measured), rounded(row.Predicted), page)
	}
}

// rounded is a pressure as pages print it.
func rounded(p units.Pressure) string { return fmt.Sprintf("%.2f in. w.c.", p.In(units.InchWater)) }
