package house

import (
	"cmp"
	"slices"

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
		r.Taps = append(r.Taps, sampled(tap.Name, h.Curves[AtTableSpeed(tap.Name)]))
	}
	for _, t := range h.adjustedTaps {
		at := sampled(t.Tap, h.Curves[t])
		at.SpeedRatio = t.Ratio
		r.Taps = append(r.Taps, at)
	}
	return r
}

// TapSpeed is a tap at Ratio times the speed of its table.
type TapSpeed struct {
	Tap   string
	Ratio float64 // 1: as in its table
}

// AtTableSpeed is a tap as its table has it.
func AtTableSpeed(tap string) TapSpeed { return TapSpeed{tap, 1} }

// TapCurve is the curve of a tap at ratio times the speed of its table, as an option
// that was solved runs on it; 0: as the table.
func (h *House) TapCurve(tap string, ratio float64) blower.Curve {
	return h.Curves[TapSpeed{tap, cmp.Or(ratio, 1)}]
}

// tapAtSpeed makes the curve of a tap at ratio times its speed by the fan laws; 0: as its
// table. A drop that the table includes changes with the square
// of the speed.
func (h *House) tapAtSpeed(tap string, ratio float64) (TapSpeed, error) {
	at := TapSpeed{tap, cmp.Or(ratio, 1)}
	if _, done := h.Curves[at]; done || at.Ratio == 1 {
		return at, nil
	}
	t, _ := h.Equipment.Blower.Tap(tap)
	c, err := h.curve(t.AtSpeed(ratio))
	if err != nil {
		return at, job.FieldErrors{{Path: "equipment.blower.taps", Given: tap, Wanted: message.OfError(err)}}
	}
	h.Curves[at] = c
	h.adjustedTaps = append(h.adjustedTaps, at)
	return at, nil
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

// WattsAssumedOf reports whether the watts of an option, in any season, are usual
// ones and not the table's.
func (h *House) WattsAssumedOf(o *study.OptionResult) bool {
	b := h.Equipment.Blower
	taps := []string{o.Tap}
	if !h.Equipment.NoHeating {
		taps = append(taps, b.HeatingTap)
	}
	if h.Site.FanHours > 0 {
		taps = append(taps, b.FanTap)
	}
	return slices.ContainsFunc(taps, func(t string) bool { return slices.Contains(h.WattsAssumed, t) })
}

// ReachesHeating reports whether a tap moves the airflow needed in heating, within
// its table.
func (h *House) ReachesHeating(t study.TapAdvice) bool {
	return t.WithinBlowerTable && !study.Short(t.HeatingAirflow, h.HeatingAirflow)
}
