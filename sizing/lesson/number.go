package lesson

import (
	"math"
	"strconv"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Number names a headline number.
type Number string

// The numbers that a lesson can show, use in claims and name in texts.
const (
	Airflow         Number = "airflow"
	ExternalStatic  Number = "external_static"
	FilterDrop      Number = "filter_drop"
	Suction         Number = "suction"
	BlowerPower     Number = "blower_power"
	FanEfficacy     Number = "fan_efficacy"
	FaceVelocity    Number = "face_velocity"
	MediaVelocity   Number = "media_velocity"
	MediaArea       Number = "media_area"
	HeatingAirflow  Number = "heating_airflow"
	TemperatureRise Number = "temperature_rise"
	CoilAirLeaving  Number = "coil_air_leaving"
	TotalCapacity   Number = "total_capacity"
	AirDensity      Number = "air_density"
	LeakShare       Number = "leak_share"
	FrameBow        Number = "frame_bow"
	SmallCaught     Number = "small_caught"
	MiddleCaught    Number = "middle_caught"
	SmallReached    Number = "small_caught_installed"
	InstalledMERV   Number = "installed_merv"
	Life            Number = "life"
	AnnualPower     Number = "annual_power"
	AnnualFilter    Number = "annual_filter"
	AnnualCost      Number = "annual_cost"
)

// figure is the title of a Number, its place in a Study, and the path
// of its working behind "options[n]."; a path with %s takes the filter's state.
type figure struct {
	number  Number
	name    message.ID
	of      func(SolvedSetting) Value
	working string
}

var figures = []figure{
	{Airflow, "Airflow", at(func(c *sizing.Condition) units.Quantity { return c.Airflow }), "%s.airflow"},
	{ExternalStatic, "External static", at(func(c *sizing.Condition) units.Quantity { return c.ExternalStatic }), "%s.external_static"},
	{FilterDrop, "Filter drop", at(func(c *sizing.Condition) units.Quantity { return c.FilterDrop }), "%s.filter_drop"},
	{Suction, "Suction at the blower inlet", at(func(c *sizing.Condition) units.Quantity { return -c.ReturnStatic }), "%s.return_static"},
	{BlowerPower, "Blower watts", at(func(c *sizing.Condition) units.Quantity { return c.BlowerPower }), "%s.blower_power"},
	{FanEfficacy, "Watts per airflow", at(func(c *sizing.Condition) units.Quantity { return c.FanEfficacy }), "%s.blower_power"},
	{FaceVelocity, "Face velocity", at(func(c *sizing.Condition) units.Quantity { return c.FaceVelocity }), "%s.face_velocity"},
	{MediaVelocity, "Media velocity", at(func(c *sizing.Condition) units.Quantity { return c.MediaVelocity }), "%s.media_velocity"},
	{MediaArea, "Media area", of(func(o *sizing.OptionResult) units.Quantity { return o.MediaArea }), "media_area"},
	{HeatingAirflow, "Heating airflow", at(func(c *sizing.Condition) units.Quantity { return c.HeatingAirflow }), "%s.temperature_rise"},
	{TemperatureRise, "Temperature rise", at(func(c *sizing.Condition) units.Quantity { return c.TemperatureRise }), "%s.temperature_rise"},
	{CoilAirLeaving, "Air leaving the coil", at(func(c *sizing.Condition) units.Quantity { return c.CoilAirLeaving }), "%s.coil_air_leaving"},
	{TotalCapacity, "Cooling capacity", at(func(c *sizing.Condition) units.Quantity { return c.TotalCapacity }), "%s.coil_air_leaving"},
	{AirDensity, "Air density", func(s SolvedSetting) Value { return quantity(s.Study.Air.Density) }, "air.density"},
	{LeakShare, "Air that slips past", func(s SolvedSetting) Value { return Value{v: s.Condition().LeakFraction, share: true} }, "leak_fraction"},
	{FrameBow, "Bow of the frame", at(func(c *sizing.Condition) units.Quantity { return c.FrameBow }), ""},
	{SmallCaught, "Caught, 0.3 to 1 µm", func(s SolvedSetting) Value { return Value{v: s.Result().Efficiency.E1, share: true} }, "efficiency.merv"},
	{MiddleCaught, "Caught, 1 to 3 µm", func(s SolvedSetting) Value { return Value{v: s.Result().Efficiency.E2, share: true} }, "efficiency.merv"},
	{SmallReached, "Caught as installed, 0.3 to 1 µm", func(s SolvedSetting) Value { return Value{v: mean(s.Result().Efficiency.Installed[:4]), share: true} }, "efficiency.merv"},
	{InstalledMERV, "MERV as installed", func(s SolvedSetting) Value { return Value{v: float64(s.Result().Efficiency.InstalledMERV)} }, "efficiency.merv"},
	{Life, "Filter life", of(func(o *sizing.OptionResult) units.Quantity { return o.Life }), "life"},
	{AnnualPower, "Power a year", of(func(o *sizing.OptionResult) units.Quantity { return o.AnnualPower }), "annual_cost"},
	{AnnualFilter, "Filters a year", of(func(o *sizing.OptionResult) units.Quantity { return o.AnnualFilter }), "annual_cost"},
	{AnnualCost, "Cost a year", of(func(o *sizing.OptionResult) units.Quantity { return o.AnnualCost }), "annual_cost"},
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

func at(f func(*sizing.Condition) units.Quantity) func(SolvedSetting) Value {
	return func(s SolvedSetting) Value { return quantity(f(s.Condition())) }
}

func of(f func(*sizing.OptionResult) units.Quantity) func(SolvedSetting) Value {
	return func(s SolvedSetting) Value { return quantity(f(s.Result())) }
}

// Numbers lists all numbers.
func Numbers() []Number {
	out := make([]Number, len(figures))
	for i, f := range figures {
		out[i] = f.number
	}
	return out
}

// Values are the words that a file may hold.
func (Number) Values() []string { return words(Numbers()) }

func (n Number) figure() *figure {
	for i := range figures {
		if figures[i].number == n {
			return &figures[i]
		}
	}
	return nil
}

// Name is the number's name on screen.
func (n Number) Name() message.ID {
	if f := n.figure(); f != nil {
		return f.name
	}
	return message.ID(n)
}

// Value is a number of a SolvedSetting: a quantity, a share of one, or a plain number.
type Value struct {
	v     float64 // SI
	kind  *units.Kind
	share bool
}

func quantity(q units.Quantity) Value { return Value{v: q.SI(), kind: q.Kind()} }

// Show writes the value in the units of a system.
func (v Value) Show(sys units.Locale) string {
	switch {
	case v.share:
		return percent(v.v).Show(sys) + " %"
	case v.kind == nil:
		return sys.Mark(strconv.FormatFloat(v.v, 'f', -1, 64))
	}
	return v.kind.Show(v.v, sys)
}

// In is the value as a number with its unit in a system.
func (v Value) In(sys units.Locale) (number float64, unit string) {
	switch {
	case v.share:
		return 100 * v.v, "%"
	case v.kind == nil:
		return v.v, ""
	}
	u := v.kind.Usual(sys)
	return (v.v - u.Offset) / u.Scale, u.Label()
}

func percent(share float64) message.Number {
	digits := 0
	if math.Abs(share) < 0.0995 {
		digits = 1
	}
	return message.Fixed(100*share, digits)
}

// Change is the change from one value to another.
type Change struct{ From, To Value }

// levelShare is the change below which a number counts as level: a hundredth,
// too little to see on a gauge.
const levelShare = 0.01

const (
	levelPoints = 0.005 // of a share
	levelKelvin = 0.1   // of a temperature
)

// absolute reports whether the value is a temperature, whose zero is far away.
func (c Change) absolute() bool { return c.From.kind != nil && c.From.kind.Difference() != c.From.kind }

// size is the change as claims and texts state it: a share of the start; for a
// share its difference; for a temperature the difference in K.
func (c Change) size() float64 {
	d := c.To.v - c.From.v
	if c.From.share || c.absolute() || c.From.v == 0 {
		return d
	}
	return d / math.Abs(c.From.v)
}

func (c Change) level() float64 {
	switch {
	case c.From.share:
		return levelPoints
	case c.absolute():
		return levelKelvin
	case c.From.v == 0:
		return 0
	}
	return levelShare
}

// Goes is the direction: Up, Down or Level.
func (c Change) Goes() Goes {
	switch s := c.size(); {
	case s > c.level():
		return Up
	case s < -c.level():
		return Down
	}
	return Level
}

// Words name the change: "12 % higher", "hardly changed".
func (c Change) Words(sys units.Locale) string {
	trend := c.Goes()
	pick := func(higher, lower message.ID) message.ID { return map[Goes]message.ID{Up: higher, Down: lower}[trend] }
	by := func(d any) string { return message.Text(sys, pick("{change} higher", "{change} lower"), "change", d) }
	d := math.Abs(c.To.v - c.From.v)
	switch {
	case c.From == c.To:
		return message.Text(sys, "the same")
	case trend == Level:
		return message.Text(sys, "hardly changed")
	case c.From.share:
		return message.Text(sys, pick("{points} points higher", "{points} points lower"), "points", percent(d))
	case c.absolute():
		return by(c.From.kind.Difference().Show(d, sys))
	case c.From.v == 0, c.From.kind == nil:
		return by(Value{v: d, kind: c.From.kind})
	case math.Abs(c.size()) >= 2:
		return message.Text(sys, "{ratio} times as much", "ratio", message.Fixed(c.To.v/c.From.v, 1))
	}
	return message.Text(sys, pick("{percent} % higher", "{percent} % lower"), "percent", message.Fixed(100*math.Abs(c.size()), 0))
}
