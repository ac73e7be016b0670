package sizing

import (
	"fmt"
	"math"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/units"
)

// How far a reading and the prediction may lie apart and still agree: a tenth,
// or a gauge's last digits, whichever is more (common practice, no source).
const (
	ReadingShare  = 0.10
	readingLeast  = 0.03 * units.InchWater
	readingSource = "10 % or 0.03 in. w.c.: " + commonPractice
)

// ReadingMargin is how far a pressure read may lie from the one predicted.
func ReadingMargin(predicted units.Pressure) units.Pressure {
	return max(readingLeast, ReadingShare*max(predicted, -predicted))
}

func agrees(measured, predicted units.Pressure) bool {
	return math.Abs(float64(measured-predicted)) <= float64(ReadingMargin(predicted))
}

// readings holds every round against what the Study predicts for the option
// that was in place.
func (h *house) readings(s *Study) ([]ReadingResult, error) {
	var out []ReadingResult
	for i := range h.Readings {
		r := &h.Readings[i]
		name := r.Option
		if name == "" {
			name = TodayName
		}
		option := s.Option(name)
		if option == nil {
			continue
		}
		result, err := h.reading(option, r, i)
		if err != nil {
			return nil, err
		}
		out = append(out, result)
	}
	return out, nil
}

func (h *house) reading(option *OptionResult, r *Reading, i int) (ReadingResult, error) {
	out := ReadingResult{Label: r.Label, Date: r.Date, Option: option.Name, Verdict: Good, Sets: h.gauge.round == r}
	if out.Label == "" {
		out.Label = fmt.Sprintf("round %d", i+1)
	}
	out.Airflow, out.ExternalStatic, out.AirflowBasis, _ = h.flowOf(r)
	a, sys, err := h.asRead(option, r)
	if err != nil {
		return out, err
	}
	predicted, err := h.condition(a, sys)
	if err != nil {
		return out, err
	}
	out.PredictedAirflow = predicted.Airflow
	p := h.portsRead(r)
	out.Rows = h.portRows(p, predicted, out.ExternalStatic)
	if out.Airflow > 0 {
		if out.Parts, err = h.partRows(p, a, sys, float64(out.Airflow)); err != nil {
			return out, err
		}
	}
	out.Suspect = suspect(out.Parts)
	if out.Others, err = h.others(r, predicted); err != nil {
		return out, err
	}
	if slices.ContainsFunc(out.Rows, func(r ReadingRow) bool { return !r.Agrees }) ||
		slices.ContainsFunc(out.Others, func(m ReadingMatch) bool { return !m.Agrees }) {
		out.Verdict = Caution
	}
	out.Findings = h.judgeRound(r, out)
	return out, nil
}

// asRead is the option as it stood when it was read: on the tap of the round,
// with the filter as found.
func (h *house) asRead(option *OptionResult, r *Reading) (*arrangement, airpath.System, error) {
	o := Option{Name: option.Name}
	for _, candidate := range h.Options {
		if candidate.Name == option.Name {
			o = candidate
		}
	}
	if r.Tap != "" || r.Mode == Heating {
		o.Tap = h.readingTap(r)
	}
	a, err := h.arrange(o, option.Kind)
	if err != nil {
		return nil, airpath.System{}, err
	}
	if k := h.gauge.foundScale; option.Kind == "today" && k > 0 && !r.FilterIsClean {
		if p := a.central(); p != nil {
			p.become(p.law.Curve.Scale(k))
		}
	}
	sys, err := h.system(a)
	if err == nil && r.Mode == Heating {
		sys, _, _ = h.dry(sys)
	}
	return a, sys, err
}

func (h *house) portRows(p ports, c Condition, static units.Pressure) []ReadingRow {
	var rows []ReadingRow
	add := func(name string, has bool, measured float64, predicted units.Pressure) {
		if has {
			m := units.Pressure(measured)
			rows = append(rows, ReadingRow{Name: name, Measured: m, Predicted: predicted, Agrees: agrees(m, predicted)})
		}
	}
	add(PortReturn, p.hasReturn, -p.returnPlenum, c.port(PortReturn))
	add(PortInlet, p.hasInlet, -p.blowerInlet, c.port(PortInlet))
	add(PortOutlet, p.hasOutlet, p.blowerOutlet, c.port(PortOutlet))
	add(PortSupply, p.hasSupply, p.supplyPlenum, c.port(PortSupply))
	add("filter drop", p.hasFD, p.filterDrop, c.FilterDrop)
	add("external static", static > 0, float64(static), c.ExternalStatic)
	return rows
}

// partRows holds the drop of each part read against its law at the airflow of
// the round, so that a part is not blamed for another's airflow.
func (h *house) partRows(p ports, a *arrangement, sys airpath.System, q float64) ([]ReadingRow, error) {
	plenum, err := sys.Split(q, make([]float64, len(sys.Branches)))
	if err != nil {
		return nil, err
	}
	law := map[string]float64{"return": plenum}
	for _, part := range sys.Series {
		law[part.Name] += part.Law(q)
	}
	var rows []ReadingRow
	add := func(name string, has bool, measured float64) {
		predicted, known := law[name]
		if has && known {
			m, w := units.Pressure(measured), units.Pressure(predicted)
			rows = append(rows, ReadingRow{Name: name, Measured: m, Predicted: w, Agrees: agrees(m, w)})
		}
	}
	add("return", p.hasReturn, p.returnPlenum)
	add("filter", p.hasFD && a.central() != nil, p.filterDrop)
	add("coil", p.hasOutlet && p.hasSupply, p.blowerOutlet-p.supplyPlenum)
	add("supply", p.hasSupply, p.supplyPlenum)
	return rows, nil
}

// suspect is the part that is off the most, where any is.
func suspect(parts []ReadingRow) string {
	name, most := "", 0.0
	for _, r := range parts {
		if off := math.Abs(float64(r.Measured - r.Predicted)); !r.Agrees && off > most {
			name, most = r.Name, off
		}
	}
	return name
}

func (c *Condition) port(name string) units.Pressure {
	for _, p := range c.Ports {
		if p.Name == name {
			return p.Static
		}
	}
	return 0
}
