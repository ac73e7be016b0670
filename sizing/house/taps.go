package house

import (
	"fmt"

	"returnbench/sizing/blower"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// BlowerResult samples the curve of each tap, and of the taps made from them by
// the fan laws.
func (h *House) BlowerResult() study.BlowerResult {
	b := h.Equipment.Blower
	r := study.BlowerResult{Motor: b.Motor, Source: "typed table", CoolingTap: b.CoolingTap, HeatingTap: b.HeatingTap}
	if h.Assumes("equipment.blower.taps") {
		r.Source = blower.GenericSource
	}
	for _, tap := range b.Taps {
		r.Taps = append(r.Taps, sampled(tap.Name, h.Curves[tap.Name]))
	}
	for _, name := range h.adjustedTaps {
		r.Taps = append(r.Taps, sampled(name, h.Curves[name]))
	}
	return r
}

// tapAtSpeed makes the curve of a tap at ratio times its speed by the fan laws, and
// gives the name of that tap. A drop that the table includes changes with the square
// of the speed.
func (h *House) tapAtSpeed(tap string, ratio float64) (string, error) {
	if ratio == 0 || ratio == 1 {
		return tap, nil
	}
	name := fmt.Sprintf("%s at %.2f times the speed", tap, ratio)
	if _, done := h.Curves[name]; done {
		return name, nil
	}
	t, _ := h.Equipment.Blower.Tap(tap)
	c, err := h.curve(t.AtSpeed(ratio))
	if err != nil {
		return "", job.FieldErrors{{Path: "equipment.blower.taps", Given: tap, Wanted: message.OfError(err)}}
	}
	h.Curves[name] = c
	h.adjustedTaps = append(h.adjustedTaps, name)
	return name, nil
}

// curve is a tap's curve in the house's air.
func (h *House) curve(tap blower.Tap) (blower.Curve, error) {
	c, err := blower.NewCurve(tap.Points)
	return c.AtDensity(h.ratio).BlendLinear(h.Perturbation.TableReading()), err
}

// speedRatio is the blower speed factor of an option by its name; 1: as the table.
func (h *House) speedRatio(option string) float64 {
	for _, o := range h.Options {
		if o.Name == option && o.SpeedRatio != 0 {
			return o.SpeedRatio
		}
	}
	return 1
}

// sampled is a tap's curve over its table, more finely than its rows.
func sampled(name string, c blower.Curve) study.TapResult {
	low, high, _, _ := c.Range()
	t := study.TapResult{Name: name}
	const n = 40
	t.Curve = make([]study.CurvePoint, 0, n)
	for i := range n {
		p := low + (high-low)*units.Pressure(i)/(n-1)
		q, _ := c.Airflow(p)
		w, _ := c.Power(p)
		t.Curve = append(t.Curve, study.CurvePoint{Airflow: q, Static: p, Power: w})
	}
	return t
}

// ReachesHeating reports whether a tap moves the airflow needed in heating, within
// its table.
func (h *House) ReachesHeating(t study.TapAdvice) bool {
	return t.WithinBlowerTable && !study.Short(t.HeatingAirflow, h.HeatingAirflow)
}
