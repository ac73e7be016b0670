package readings

import (
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// CompareRounds compares every round of readings with the Study's prediction for
// the option that was in place.
func CompareRounds(h *house.House, s *study.Study) ([]study.ReadingResult, error) {
	var out []study.ReadingResult
	for i := range h.Readings {
		r := &h.Readings[i]
		name := r.Option
		if name == "" {
			name = job.TodayName
		}
		option := s.Option(name)
		if option == nil {
			continue
		}
		result, err := reading(h, option, r, i)
		if err != nil {
			return nil, err
		}
		out = append(out, result)
	}
	return out, nil
}

func reading(h *house.House, option *study.OptionResult, r *job.Reading, i int) (study.ReadingResult, error) {
	out := study.ReadingResult{Label: r.Label, Date: r.Date, Option: option.Name, Mode: r.Season(), AfterWork: r.AfterWork || option.Kind == study.KindOption,
		Verdict: study.Good, CalibratesStudy: h.Gauge.Round == r}
	if out.Label == "" {
		out.Label = fmt.Sprintf("round %d", i+1)
	}
	out.Airflow, out.ExternalStatic, out.AirflowBasis, _ = h.FlowOf(r)
	a, sys, err := asRead(h, option, r)
	if err != nil {
		return out, err
	}
	predicted, err := h.Condition(a, sys)
	if err != nil {
		return out, err
	}
	out.PredictedAirflow, out.Predicted = predicted.Airflow, predicted
	p := h.PortsRead(r)
	out.Rows = portRows(r, p, predicted, out.ExternalStatic)
	if out.Airflow > 0 {
		if out.Parts, err = partRows(r, p, a, sys, float64(out.Airflow)); err != nil {
			return out, err
		}
	}
	out.Suspect = suspect(out.Parts)
	if out.OtherQuantities, err = others(h, r, predicted); err != nil {
		return out, err
	}
	if slices.ContainsFunc(out.Rows, func(r study.ReadingRow) bool { return !r.Agrees }) ||
		slices.ContainsFunc(out.OtherQuantities, func(m study.ReadingMatch) bool { return !m.Agrees }) {
		out.Verdict = study.Caution
	}
	out.Findings = judge.RoundFindings(h, r, out)
	return out, nil
}

// asRead is the option in the state in which it was read: on the tap of the
// round, with the filter as found.
func asRead(h *house.House, option *study.OptionResult, r *job.Reading) (*house.Arrangement, airpath.System, error) {
	o := job.Option{Name: option.Name}
	for _, candidate := range h.Options {
		if candidate.Name == option.Name {
			o = candidate
		}
	}
	if r.Tap != "" || r.Mode == job.Heating {
		o.Tap = h.ReadingTap(r)
	}
	a, err := h.Arrange(o, option.Kind)
	if err != nil {
		return nil, airpath.System{}, err
	}
	if k := h.Gauge.FoundScale; option.Kind == study.KindToday && k > 0 && !r.FilterIsClean && !r.AfterWork {
		if p := a.Central(); p != nil {
			p.SetCurve(p.Law.Curve.Scale(k))
		}
	}
	sys, err := h.System(a)
	if err == nil && r.Mode == job.Heating {
		sys, _, _ = h.DryCoil(sys)
	}
	return a, sys, err
}

func portRows(r *job.Reading, p job.Ports, c study.Condition, static units.Pressure) []study.ReadingRow {
	var rows []study.ReadingRow
	add := func(name message.ID, has, workedOut bool, measured float64, predicted units.Pressure) {
		if has {
			m := units.Pressure(measured)
			rows = append(rows, study.ReadingRow{Name: name, Measured: m, Predicted: predicted, Agrees: judge.Agrees(m, predicted), WorkedOut: workedOut})
		}
	}
	add(house.PortReturn, p.HasReturn, p.WorkedReturn, -p.ReturnPlenum, Port(&c, house.PortReturn))
	add(house.PortInlet, p.HasInlet, p.WorkedInlet, -p.BlowerInlet, Port(&c, house.PortInlet))
	add(house.PortOutlet, p.HasOutlet, false, p.BlowerOutlet, Port(&c, house.PortOutlet))
	add(house.PortSupply, p.HasSupply, false, p.SupplyPlenum, Port(&c, house.PortSupply))
	add("filter drop", p.HasFD, p.WorkedFD, p.FilterDrop, c.FilterDrop+entryRead(r, c))
	add("external static", static > 0, false, float64(static), c.ExternalStatic)
	return rows
}

// entryRead is the drop of the slot's entry that the filter's reading contains: the
// difference of the ports before and after the slot contains it, a gauge over the filter
// itself does not.
func entryRead(r *job.Reading, c study.Condition) units.Pressure {
	if r.FilterDrop != 0 {
		return 0
	}
	entry, _ := study.First(c.Parts, func(p study.PartDrop) bool { return p.Name == airpath.PartSlotEntry })
	return entry.Drop
}

// partRows compares the drop read of each part with its law at the airflow of
// the round, so that an error of the airflow is not taken for one of a part.
func partRows(r *job.Reading, p job.Ports, a *house.Arrangement, sys airpath.System, q float64) ([]study.ReadingRow, error) {
	law, err := dropsAt(sys, q)
	if err != nil {
		return nil, err
	}
	law[airpath.PartReturn] += law[airpath.PartUnexplained]
	if r.FilterDrop == 0 { // the ports before and after the slot read its entry too, a gauge over the filter does not
		law[airpath.PartFilter] += law[airpath.PartSlotEntry]
	}
	var rows []study.ReadingRow
	add := func(part airpath.PartName, has, workedOut bool, measured float64) {
		predicted, known := law[part]
		if has && known {
			m, w := units.Pressure(measured), units.Pressure(predicted)
			rows = append(rows, study.ReadingRow{Name: message.ID(part), Measured: m, Predicted: w, Agrees: judge.Agrees(m, w), WorkedOut: workedOut})
		}
	}
	add(airpath.PartReturn, p.HasReturn, p.WorkedReturn, p.ReturnPlenum)
	add(airpath.PartFilter, p.HasFD && a.Central() != nil, p.WorkedFD, p.FilterDrop)
	add(airpath.PartCoil, p.HasOutlet && p.HasSupply, true, p.BlowerOutlet-p.SupplyPlenum)
	add(airpath.PartSupply, p.HasSupply, false, p.SupplyPlenum)
	return rows, nil
}

// dropsAt is the drop of each part at an airflow, by its name.
func dropsAt(sys airpath.System, q float64) (map[airpath.PartName]float64, error) {
	plenum, err := sys.Split(q, make([]float64, len(sys.Branches)))
	if err != nil {
		return nil, err
	}
	law := map[airpath.PartName]float64{airpath.PartReturn: plenum}
	for _, part := range sys.Series {
		law[part.Name] += part.Law(q)
	}
	return law, nil
}

// suspect is the part with the largest disagreement; empty where all agree.
func suspect(parts []study.ReadingRow) airpath.PartName {
	name, most := message.ID(""), 0.0
	for _, r := range parts {
		if off := math.Abs(float64(r.Measured - r.Predicted)); !r.Agrees && off > most {
			name, most = r.Name, off
		}
	}
	return airpath.PartName(name)
}

// Port is the predicted static at a port, found by its name; zero where there
// is none of that name.
func Port(c *study.Condition, name message.ID) units.Pressure {
	for _, p := range c.Ports {
		if p.Name == name {
			return p.Static
		}
	}
	return 0
}
