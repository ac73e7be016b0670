package sizing

import (
	"fmt"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// Speed ratios that an option may ask for, and those within which a motor's
// efficiency moves little (common practice, no source).
const (
	slowestRatio = 0.5
	fastestRatio = 1.5
	nearRatioLow = 0.8
	nearRatio    = 1.2
)

// sped is a tap's name once its wheel turns ratio times as fast, its curve being
// the tap's table moved along the fan laws. A drop that the table already holds
// moves with it as the square of the speed.
func (h *house) sped(tap string, ratio float64) (string, error) {
	if ratio == 0 || ratio == 1 {
		return tap, nil
	}
	name := fmt.Sprintf("%s at %.2f times the speed", tap, ratio)
	if _, done := h.curves[name]; done {
		return name, nil
	}
	t, _ := h.Equipment.Blower.Tap(tap)
	c, err := h.curve(t.AtSpeed(ratio))
	if err != nil {
		return "", FieldErrors{{Path: "equipment.blower.taps", Given: tap, Wanted: err.Error()}}
	}
	h.curves[name] = c
	h.spedTaps = append(h.spedTaps, name)
	return name, nil
}

// curve is a tap's curve in the house's air.
func (h *house) curve(tap blower.Tap) (blower.Curve, error) {
	c, err := blower.NewCurve(tap.Points)
	return c.AtDensity(h.ratio).Straightened(h.scatter.reading()), err
}

// speedRatio is that of an option of the job by its name; 1: as the table.
func (h *house) speedRatio(option string) float64 {
	for _, o := range h.Options {
		if o.Name == option && o.SpeedRatio != 0 {
			return o.SpeedRatio
		}
	}
	return 1
}

// judgeSpeed says what a faster wheel asks of the motor, and when the fan laws
// are stretched.
func (h *house) judgeSpeed(o, today *OptionResult) []Finding {
	if o.SpeedRatio == 0 {
		return nil
	}
	const source = "fan laws, power in proportion to the cube of the speed, textbook"
	var out []Finding
	if o.SpeedRatio > 1 && o.Clean.BlowerPower > 0 {
		out = append(out, newFinding(Caution, "speed_up", source,
			"The wheel turns %.2f times as fast and the blower takes %v where it takes %v today: hold the motor's amperes to its nameplate, and the wheel to its highest speed.",
			o.SpeedRatio, o.Clean.BlowerPower, today.Clean.BlowerPower))
	}
	if o.SpeedRatio < nearRatioLow || o.SpeedRatio > nearRatio {
		out = append(out, newFinding(Caution, "speed_far", source,
			"The speed is %.2f times that of the table: the fan laws hold for the wheel, but the motor's efficiency moves too, so its watts are a guess.", o.SpeedRatio))
	}
	return out
}

// speedStep tells of the fan laws where an option runs by them.
func (s *calculation) speedStep(o *OptionResult, c *Condition) []Step {
	if o.SpeedRatio == 0 || o.SpeedRatio == 1 {
		return nil
	}
	numbers, args := "n %.3f, n^2 %.3f, n^3 %.3f", []any{o.SpeedRatio, o.SpeedRatio * o.SpeedRatio, o.SpeedRatio * o.SpeedRatio * o.SpeedRatio}
	result := any(TapName(o.Tap))
	if c.BlowerSpeed > 0 {
		numbers += "; the wheel then turns at %v"
		args = append(args, c.BlowerSpeed)
	}
	return []Step{newStep("The tap's table with its wheel turned n times as fast.", "Q ~ n, p ~ n^2, W ~ n^3; new pulley / old pulley on the motor",
		"fan laws, textbook: same wheel, same air; fair from 0.8 to 1.2, the motor's efficiency taken as unchanged", result, numbers, args...)}
}

// sampled is a tap's curve over its table, more finely than its rows.
func sampled(name string, c blower.Curve) TapResult {
	low, high, _, _ := c.Range()
	t := TapResult{Name: name}
	const n = 40
	for i := range n {
		p := low + (high-low)*units.Pressure(i)/(n-1)
		q, _ := c.Airflow(p)
		w, _ := c.Power(p)
		t.Curve = append(t.Curve, CurvePoint{Airflow: q, Static: p, Power: w})
	}
	return t
}
