package readings

import (
	"math"
	"slices"

	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// CompareAfterWork compares each round read after the work with its prediction and
// with the house before: as found by the gauge in the same season, else as
// calculated, which is for cooling only.
func CompareAfterWork(h *house.House, s *study.Study) []study.AfterWorkComparison {
	var out []study.AfterWorkComparison
	for i := range s.Readings {
		r := &s.Readings[i]
		if !r.AfterWork {
			continue
		}
		w := study.AfterWorkComparison{Label: r.Label, Date: r.Date, Option: r.Option, Reading: i}
		var before *study.Condition
		switch {
		case s.AsFound != nil && s.AsFound.Mode == r.Mode:
			before, w.BeforeMeasured = &s.AsFound.Condition, true
		case r.Mode == job.Cooling:
			before = &s.Today().Clean
		}
		w.Rows = workRows(r, before)
		for i := range w.Rows {
			w.Rows[i].BeforeWorkedOut = w.BeforeMeasured && slices.Contains(s.AsFound.NotRead, w.Rows[i].Name)
		}
		out = append(out, w)
	}
	return out
}

func workRows(r *study.ReadingResult, before *study.Condition) []study.AfterWorkRow {
	var rows []study.AfterWorkRow
	add := func(name message.ID, of func(*study.Condition) units.Quantity, after units.Quantity, agree bool) {
		row := study.AfterWorkRow{Name: name, Predicted: of(&r.Predicted), After: after, Agrees: agree}
		if before != nil {
			row.Before = of(before)
		}
		rows = append(rows, row)
	}
	flow := func(c *study.Condition) units.Quantity { return c.Airflow }
	if r.Airflow > 0 {
		off := math.Abs(float64(r.Airflow)/float64(r.PredictedAirflow) - 1)
		add("airflow", flow, r.Airflow, off < judge.ReadingShare)
	} else {
		add("airflow", flow, nil, false)
	}
	pressure := func(name message.ID, of func(*study.Condition) units.Quantity) {
		if read, is := study.First(r.Rows, func(row study.ReadingRow) bool { return row.Name == name }); is {
			add(name, of, read.Measured, read.Agrees)
			rows[len(rows)-1].Predicted, rows[len(rows)-1].AfterWorkedOut = read.Predicted, read.WorkedOut
			return
		}
		add(name, of, nil, false)
	}
	pressure("external static", func(c *study.Condition) units.Quantity { return c.ExternalStatic })
	pressure("filter drop", func(c *study.Condition) units.Quantity { return c.FilterDrop })
	for _, port := range r.Predicted.Ports {
		pressure(port.Name, func(c *study.Condition) units.Quantity { return Port(c, port.Name) })
	}
	return rows
}
