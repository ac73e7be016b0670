package plots

import (
	"math"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// testStudy is an invented house of three tons with n options besides no
// filter and today: a blower table read off straight lines and quadratic
// drops, solved by bisection. The numbers are plausible and no one's.
func testStudy(n int) *sizing.Study {
	s := &sizing.Study{
		Name: "Invented house", DesignAirflow: 1200 * units.CFM, HeatingAirflow: 1000 * units.CFM,
		TargetFaceVelocity: 300 * units.FPM, RatedExternalStatic: 0.5 * units.InchWater,
		Blower: sizing.BlowerResult{Motor: blower.PSC, CoolingTap: "high", HeatingTap: "medium",
			Taps: []sizing.TapResult{testTap("low", 0.74), testTap("medium", 0.87), testTap("high", 1)}},
	}
	made := []struct {
		name                 string
		filter, face, loaded float64
		merv                 int
		e1, leak, months     float64
		upgrade              float64
	}{
		{"No filter", 0, 0, 0, 0, 0, 0, 0, 0},
		{"Today", 0.24, 2.43, 0.5, 8, 0.15, 0.06, 3.1, 0},
		{"20x25x1 pleated", 0.17, 3.47, 0.42, 8, 0.15, 0.03, 4.6, 180},
		{"16x25x4 cabinet", 0.11, 2.78, 0.34, 11, 0.35, 0.02, 8.4, 420},
		{"20x25x5 cabinet", 0.08, 3.47, 0.29, 13, 0.62, 0.01, 12, 640},
		{"Two 20x20x1 grilles", 0.06, 5.56, 0.25, 8, 0.15, 0.03, 7.2, 560},
		{"Two 20x20x4 grilles", 0.04, 5.56, 0.21, 13, 0.6, 0.01, 14, 880},
	}
	for _, p := range s.Blower.Taps[2].Curve {
		low, high := p, p
		low.Airflow, high.Airflow = 0.93*p.Airflow, 1.07*p.Airflow
		s.Bands.Blower.Low, s.Bands.Blower.High = append(s.Bands.Blower.Low, low), append(s.Bands.Blower.High, high)
	}
	s.Bands.Blower.Deviation = 0.04
	for i, m := range made[:2+n] {
		o := sizing.OptionResult{Name: m.name, Kind: sizing.KindOption, FaceArea: units.Area(m.face) * units.SquareFoot,
			LeakFraction: m.leak, Life: units.Duration(m.months) * units.Month, Upgrade: units.Money(m.upgrade),
			Efficiency: sizing.Efficiency{E1: m.e1, MERV: m.merv}}
		switch i {
		case 0:
			o.Kind = sizing.KindNoFilter
		case 1:
			o.Kind = sizing.KindToday
		}
		o.Clean, o.SystemClean = testCondition(m.filter, m.face)
		o.Loaded, o.SystemLoaded = testCondition(m.loaded, m.face)
		if i > 0 {
			testFilter(&o, m.filter, m.face, m.loaded)
		}
		if i == 1 {
			s.Bands.System = testBand(o.SystemClean)
		}
		s.Options = append(s.Options, o)
	}
	return s
}

func testBand(curve []sizing.CurvePoint) sizing.Band {
	b := sizing.Band{Deviation: 0.03}
	for _, p := range curve {
		low, high := p, p
		low.Static, high.Static = 0.95*p.Static, 1.05*p.Static
		b.Low, b.High = append(b.Low, low), append(b.High, high)
	}
	return b
}

// testBlower gives the static, in inches of water, that the high tap raises at
// q thousand cfm.
func testBlower(q float64) float64 { return 1.02 - 0.28*q - 0.28*q*q*q }

func testWatts(q float64) float64 { return 230 + 260*q }

func testTap(name string, speed float64) sizing.TapResult {
	t := sizing.TapResult{Name: name}
	for q := 0.3; q < 1.4; q += 0.1 {
		if h := testBlower(q); h > 0 {
			t.Curve = append(t.Curve, testPoint(q*speed, h*speed*speed))
		}
	}
	return t
}

func testPoint(q, h float64) sizing.CurvePoint {
	return sizing.CurvePoint{Airflow: units.Flow(1000*q) * units.CFM, Static: units.Pressure(h) * units.InchWater, Power: units.Power(testWatts(q))}
}

// testCondition solves the house with a filter of the given drop at 1200 cfm.
func testCondition(filter, face float64) (sizing.Condition, []sizing.CurvePoint) {
	parts := []struct {
		name string
		drop float64
	}{{"return", 0.12}, {"filter", filter}, {"coil", 0.2}, {"supply", 0.15}}
	k := 0.0
	for _, p := range parts {
		k += p.drop / (1.2 * 1.2)
	}
	lo, hi := 0.0, 2.0
	for range 60 {
		if q := (lo + hi) / 2; testBlower(q) > k*q*q {
			lo = q
		} else {
			hi = q
		}
	}
	q := lo
	c := sizing.Condition{Airflow: units.Flow(1000*q) * units.CFM, ExternalStatic: units.Pressure(k*q*q) * units.InchWater,
		FilterDrop: units.Pressure(filter*q*q/1.44) * units.InchWater, BlowerPower: units.Power(testWatts(q)), WithinBlowerTable: true}
	if face > 0 {
		c.FaceVelocity = units.Speed(1000*q/face) * units.FPM
	}
	for _, p := range parts {
		c.Parts = append(c.Parts, sizing.PartDrop{Name: sizing.PartName(p.name), Drop: units.Pressure(p.drop*q*q/1.44) * units.InchWater})
	}
	var curve []sizing.CurvePoint
	for q := 0.0; q <= 1.6; q += 0.05 {
		p := testPoint(q, k*q*q)
		p.Power = 0
		curve = append(curve, p)
	}
	return c, curve
}

func testFilter(o *sizing.OptionResult, clean, face, loaded float64) {
	for v := 0.0; v <= 800; v += 40 {
		o.FilterCurve = append(o.FilterCurve, sizing.FaceDrop{FaceVelocity: units.Speed(v) * units.FPM,
			Drop: units.Pressure(clean*math.Pow(v*face/1200, 2)) * units.InchWater})
	}
	for i := range o.Efficiency.BySize {
		e := 1 - (1-o.Efficiency.E1)*math.Exp(-0.45*float64(i))
		o.Efficiency.BySize[i], o.Efficiency.Installed[i] = e, e*(1-o.LeakFraction)
	}
	for i := range 13 {
		t := float64(i) / 12
		c, _ := testCondition(clean+(loaded-clean)*t*t, face)
		o.LifeCurve = append(o.LifeCurve, sizing.LifePoint{Time: o.Life * units.Duration(t), Airflow: c.Airflow, Drop: c.FilterDrop, Power: c.BlowerPower})
	}
	o.AnnualFilter = units.Money(15 * 12 / o.Life.In(units.Month))
	o.AnnualPower = units.Money(float64(o.Clean.BlowerPower) * 0.2)
	o.AnnualCost = o.AnnualFilter + o.AnnualPower
	o.TenYearFilter, o.TenYearPower = 8.5*o.AnnualFilter, 8.5*o.AnnualPower
	o.AnnualKnown, o.UpgradeKnown, o.TenYearKnown = true, true, true
	o.TenYearCost = o.Upgrade + o.TenYearFilter + o.TenYearPower
}
