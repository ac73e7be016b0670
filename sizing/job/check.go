package job

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing/air"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// Check finds every fault of the job at once; nil means that Solve can use it.
func (j Job) Check() FieldErrors {
	c := checker{job: &j}
	if c.all(); c.faults == nil {
		return nil
	}
	c = checker{job: &j, tells: true}
	c.all()
	return c.faults.limited()
}

func (c *checker) all() {
	if !c.bounds() {
		return
	}
	j := c.job
	c.whole()
	c.site()
	c.equipment()
	c.filters()
	for i := range j.Returns {
		c.branch(c.item("", "returns", i), j.Returns[i])
	}
	c.slot("slot", j.Slot)
	c.part("coil", j.Coil)
	c.part("supply", j.Supply)
	c.readings()
	c.options()
	c.limits()
	c.stockSizes()
	c.workPrices()
	c.paper()
	c.photos()
	c.uncertainty()
}

// checker looks at a job twice where it has faults: most jobs have none, and to write
// the path of every field takes longer than to check it.
type checker struct {
	job    *Job
	tells  bool // paths are written
	faults FieldErrors
}

// item is the path of one item of a list.
func (c *checker) item(path, list string, i int) string {
	if !c.tells {
		return ""
	}
	return fmt.Sprintf("%s[%d]", c.field(path, list), i)
}

// field is the path of a field; of the job itself where path is empty.
func (c *checker) field(path, name string) string {
	if !c.tells || path == "" {
		return name
	}
	return path + "." + name
}

func (c *checker) fault(path string, given any, wanted message.Message) {
	c.faults = append(c.faults, NewFieldError(path, given, wanted))
}

func (c *checker) want(ok bool, path string, given any, wanted message.ID, args ...any) {
	if !ok {
		c.fault(path, given, message.New(wanted, args...))
	}
}

// moreThanNone checks that a quantity is there, up to a bound.
func moreThanNone[D units.Quantity](c *checker, path string, q, most D) {
	if v := q.SI(); !(v > 0 && v <= most.SI()) {
		c.want(false, path, q, "more than 0 and at most {most}", "most", most)
	}
}

// noneTo checks that a quantity is not below zero and at most a bound.
func noneTo[D units.Quantity](c *checker, path string, q, most D, wanted message.ID) {
	if v := q.SI(); !(v >= 0 && v <= most.SI()) {
		c.want(false, path, q, wanted, "most", most)
	}
}

// nothing is what a message shows where a field is left open.
const nothing message.ID = "nothing"

// mostMoney is over any price of work on a house, in any currency.
const mostMoney = 1e9 * units.Dollar

func (c *checker) price(path string, v units.Money) {
	noneTo(c, path, v, mostMoney, "0 to {most}")
}

// within checks that a quantity is in a range, or left open (zero).
func within[D interface{ units.Quantity }](c *checker, path string, q, low, high D) {
	if v := q.SI(); v == 0 || v >= low.SI() && v <= high.SI() {
		return
	}
	c.want(false, path, q, "{low} to {high}, or nothing to let it be assumed", "low", low, "high", high)
}

func share(c *checker, path string, v, low, high float64) {
	if v == 0 || v >= low && v <= high {
		return
	}
	c.want(false, path, v, "a number from {low} to {high}, or nothing to let it be assumed", "low", low, "high", high)
}

// word is a text type that lists its values.
type word interface {
	~string
	Values() []string
}

func oneOf[T word](c *checker, path string, v T) {
	if v != "" && !slices.Contains(v.Values(), string(v)) {
		c.fault(path, strconv.Quote(string(v)), fieldpath.OneOf(v.Values()))
	}
}

func (c *checker) whole() {
	j := c.job
	c.want(j.Schema == Schema, "schema", j.Schema, "{schema}", "schema", Schema)
	if j.Equipment.CoolingCapacity == 0 && j.DesignAirflow == 0 {
		c.fault("design_airflow", nothing, message.New("an airflow such as {airflow}, or a cooling capacity such as {capacity}", "airflow", 1200*units.CFM, "capacity", 3*units.Ton))
	}
	within(c, "design_airflow", j.DesignAirflow, 50*units.CFM, 10000*units.CFM)
	within(c, "heating_airflow", j.HeatingAirflow, 50*units.CFM, 10000*units.CFM)
	within(c, "airflow_per_capacity", j.AirflowPerCapacity, 150*units.CFMPerTon, 800*units.CFMPerTon)
	within(c, "target_face_velocity", j.TargetFaceVelocity, 20*units.FPM, 1000*units.FPM)
}

func (c *checker) site() {
	s := c.job.Site
	c.want(s.Altitude >= -500*units.Metre && s.Altitude <= 5000*units.Metre, "site.altitude", s.Altitude, "{low} to {high}", "low", -500*units.Metre, "high", 5000*units.Metre)
	within(c, "site.indoor_dry_bulb", s.IndoorDryBulb, units.Fahrenheit(45), units.Fahrenheit(120))
	within(c, "site.indoor_wet_bulb", s.IndoorWetBulb, units.Fahrenheit(35), units.Fahrenheit(110))
	if s.IndoorDryBulb != 0 {
		c.want(s.IndoorWetBulb <= s.IndoorDryBulb, "site.indoor_wet_bulb", s.IndoorWetBulb, "at most the dry bulb, {dry_bulb}", "dry_bulb", s.IndoorDryBulb)
	}
	c.wetBulb()
	within(c, "site.heating_indoor", s.HeatingIndoor, units.Fahrenheit(40), units.Fahrenheit(90))
	within(c, "site.power_price", s.PowerPrice, 0.001*units.MoneyPerKilowattHour, 1000*units.MoneyPerKilowattHour)
	for _, h := range []struct {
		path string
		v    units.Duration
	}{{"site.cooling_hours", s.CoolingHours}, {"site.heating_hours", s.HeatingHours}, {"site.fan_hours", s.FanHours}} {
		within(c, h.path, h.v, 0.1*units.Hour, 8766*units.Hour)
	}
	sum := s.CoolingHours + s.HeatingHours + s.FanHours
	c.want(sum <= 8766*units.Hour, "site.fan_hours", s.FanHours, "hours that with cooling and heating come to at most 8766 h a year, now {sum}", "sum", sum)
	share(c, "site.discount_rate", s.DiscountRate, 0.0001, 0.5)
	oneOf(c, "site.dust", s.Dust)
	within(c, "site.dust_rate", s.DustRate, 0.001*units.GramPerDay, 1000*units.GramPerDay)
}

// Return air in cooling where nobody typed it (common practice, no source).
const (
	UsualDryBulb units.Temperature = 273.15 + (75-32)*5.0/9
	// UsualDepression is how far the wet bulb lies under the dry bulb.
	UsualDepression units.Temperature = 12 * 5.0 / 9
)

// wetBulb finds a wet bulb that is impossible at the dry bulb and the altitude.
func (c *checker) wetBulb() {
	s := c.job.Site
	if len(c.faults) > 0 || s.IndoorDryBulb == 0 && s.IndoorWetBulb == 0 {
		return
	}
	path, given := "site.indoor_wet_bulb", s.IndoorWetBulb
	if s.IndoorDryBulb == 0 {
		s.IndoorDryBulb = max(UsualDryBulb, s.IndoorWetBulb)
	}
	if s.IndoorWetBulb == 0 {
		path, given, s.IndoorWetBulb = "site.indoor_dry_bulb", s.IndoorDryBulb, s.IndoorDryBulb-UsualDepression
	}
	if _, err := air.FromWetBulb(s.Altitude, s.IndoorDryBulb, s.IndoorWetBulb); err != nil {
		c.fault(path, given, message.OfError(err))
	}
}

// sensibleHeatRatio finds a ratio that is impossible for a coil at its rating.
func (c *checker) sensibleHeatRatio() {
	e := c.job.Equipment
	if e.Kind == Furnace || !(e.SensibleHeatRatio >= 0.4 && e.SensibleHeatRatio <= 1) {
		return
	}
	_, err := thermal.RatedCoil(units.Ton, e.SensibleHeatRatio)
	if ratio := (*thermal.RatioError)(nil); errors.As(err, &ratio) {
		c.fault("equipment.sensible_heat_ratio", ratio.Ratio, ratio.Wanted)
	}
}

func (c *checker) equipment() {
	e := c.job.Equipment
	oneOf(c, "equipment.kind", e.Kind)
	within(c, "equipment.cooling_capacity", e.CoolingCapacity, 0.5*units.Ton, 25*units.Ton)
	share(c, "equipment.sensible_heat_ratio", e.SensibleHeatRatio, 0.4, 1)
	c.sensibleHeatRatio()
	share(c, "equipment.eer", e.EER, 4, 30)
	share(c, "equipment.coil_dry_share", e.CoilDryShare, 0.3, 1)
	within(c, "equipment.heating_output", e.HeatingOutput, 2000*units.BtuPerHour, 500000*units.BtuPerHour)
	oneOf(c, "equipment.heating_output_at", e.HeatingOutputAt)
	share(c, "equipment.altitude_derate", e.AltitudeDerate, 0.001, 0.05)
	within(c, "equipment.rise_low", e.RiseLow, 5*units.FahrenheitDegree, 120*units.FahrenheitDegree)
	within(c, "equipment.rise_high", e.RiseHigh, 5*units.FahrenheitDegree, 150*units.FahrenheitDegree)
	if e.RiseLow != 0 && e.RiseHigh != 0 {
		c.want(e.RiseLow < e.RiseHigh, "equipment.rise_high", e.RiseHigh, "more than the low end of the range, {low}", "low", e.RiseLow)
	}
	within(c, "equipment.rated_external_static", e.RatedExternalStatic, 0.05*units.InchWater, 3*units.InchWater)
	c.blower(e.Blower)
}

func (c *checker) blower(b blower.Table) {
	const at = "equipment.blower"
	oneOf(c, at+".motor", b.Motor)
	names := map[string]bool{}
	for i, tap := range b.Taps {
		path := c.item(at, "taps", i)
		c.want(tap.Name != "", path+".name", nothing, "a name for the tap")
		c.want(!names[tap.Name], path+".name", message.New("{name} again", "name", strconv.Quote(tap.Name)), "a name of its own for each tap")
		names[tap.Name] = true
		c.tap(path, tap)
	}
	for _, use := range []struct{ path, name string }{{at + ".cooling_tap", b.CoolingTap}, {at + ".heating_tap", b.HeatingTap}, {at + ".fan_tap", b.FanTap}} {
		if use.name != "" {
			c.want(names[use.name], use.path, strconv.Quote(use.name), "the name of a tap of the table: {names}", "names", tapNames(b, use.name))
		}
	}
	for i, in := range b.Includes {
		oneOf(c, c.item(at, "includes", i), in)
	}
}

func tapNames(b blower.Table, given string) message.Message {
	if len(b.Taps) == 0 {
		return message.New("the table has none")
	}
	names := make([]string, len(b.Taps))
	for i, t := range b.Taps {
		names[i] = t.Name
	}
	return nearestNames(given, names)
}

func (c *checker) tap(path string, tap blower.Tap) {
	before := len(c.faults)
	c.want(len(tap.Points) >= 2, path+".points", rows(len(tap.Points)), "at least 2 rows of external static and airflow")
	for i, p := range tap.Points {
		at := c.item(path, "points", i)
		moreThanNone(c, at+".airflow", p.Airflow, 10000*units.CFM)
		if !(p.ExternalStatic >= -0.5*units.InchWater && p.ExternalStatic <= 5*units.InchWater) {
			c.fault(at+".external_static", p.ExternalStatic, message.New("{low} to {high} in. w.c.", "low", -0.5, "high", 5))
		}
		if !(p.Power >= 0 && p.Power <= 5*units.Kilowatt) {
			c.fault(at+".power", p.Power, message.New("at most 5 kW, or nothing"))
		}
		noneTo(c, at+".speed", p.Speed, 5000*units.RPM, "at most {most}, or nothing")
	}
	if len(c.faults) > before {
		return
	}
	if err := blower.CheckPoints(tap.Points); err != nil {
		c.points(path+".points", tap.Points, err)
	}
}

// points reports each row that the curve found wrong, at its own field.
func (c *checker) points(path string, points []blower.Point, err error) {
	joined, many := err.(interface{ Unwrap() []error })
	if !many {
		c.fault(path, rows(len(points)), message.OfError(err))
		return
	}
	for _, e := range joined.Unwrap() {
		var row *blower.PointError
		if !errors.As(e, &row) {
			c.fault(path, rows(len(points)), message.OfError(e))
			continue
		}
		given := map[string]units.Quantity{"external_static": points[row.Row].ExternalStatic, "airflow": points[row.Row].Airflow,
			"power": points[row.Row].Power, "speed": points[row.Row].Speed}[row.Field]
		c.fault(fmt.Sprintf("%s[%d].%s", path, row.Row, row.Field), given, message.New("{wanted}: {reason}", "wanted", row.Want, "reason", message.Rounded{Message: row.Reason}))
	}
}

func (c *checker) filters() {
	names := map[string]bool{}
	for i, f := range c.job.Filters {
		path := c.item("", "filters", i)
		c.want(f.Name != "", path+".name", nothing, "a name for the filter")
		c.want(f.Name == "" || !names[f.Name], path+".name", message.New("{name} again", "name", strconv.Quote(f.Name)), "a name of its own for each filter")
		names[f.Name] = true
		before := len(c.faults)
		c.filterSize(path, f)
		c.filterFigures(path, f)
		if len(c.faults) > before || f.Depth == 0 && !c.job.uses(f.Name) {
			continue // a filter that has only a name so far is not checked
		}
		for _, fault := range f.Usable() {
			c.fault(path+"."+fault.Field, fault.Given, message.Verbatim(message.Rounded{Message: fault.Want}))
		}
	}
}

func (c *checker) filterSize(path string, f filter.Filter) {
	within(c, path+".width", f.Width, 4*units.Inch, 72*units.Inch)
	within(c, path+".height", f.Height, 4*units.Inch, 72*units.Inch)
	within(c, path+".depth", f.Depth, 0.2*units.Inch, 30*units.Inch)
	c.want((f.Width == 0) == (f.Height == 0), path+".height", f.Height, "both width and height, or neither")
	c.actualSize(path+".actual_width", f.ActualWidth, f.Width)
	c.actualSize(path+".actual_height", f.ActualHeight, f.Height)
	for i, p := range f.Rating {
		at := c.item(path, "rating", i)
		moreThanNone(c, at+".drop", p.Drop, 5*units.InchWater)
		c.want((p.Airflow > 0) != (p.FaceVelocity > 0), at+".airflow", p.Airflow, "either an airflow or a face velocity, one of the two")
		if p.Airflow > 0 {
			c.want(f.Width > 0, at+".airflow", p.Airflow, "the filter's width and height beside it, to know the face it was rated for")
		}
		within(c, at+".face_velocity", p.FaceVelocity, 5*units.FPM, 2000*units.FPM)
	}
	share(c, path+".exponent", f.Exponent, 1, 2)
}

// uses reports whether a place of the job or of an option holds a filter.
func (j Job) uses(name string) bool {
	in := func(r Return) bool { return r.Filter == name }
	return j.Slot.Filter == name || slices.ContainsFunc(j.Returns, in) || slices.ContainsFunc(j.Options, func(o Option) bool {
		return o.Filter == name || o.Slot.Filter == name || slices.ContainsFunc(o.Returns, in)
	})
}

// actualSize compares a printed size with the nominal one. A real frame differs
// from its nominal size by less than these limits: common practice, no source.
func (c *checker) actualSize(path string, actual, nominal units.Length) {
	const under, over = 1.5 * units.Inch, 0.5 * units.Inch
	if actual != 0 {
		c.want(nominal > 0 && actual >= nominal-under && actual <= nominal+over, path, actual, "{low} to {high}, beside the nominal size", "low", nominal-under, "high", nominal+over)
	}
}

func (c *checker) filterFigures(path string, f filter.Filter) {
	if f.MERV > 16 && f.MERV <= 20 {
		c.fault(path+".merv", f.MERV, message.New("1 to 16: ASHRAE 52.2 ends at 16; 17 to 20 in older literature are HEPA grades outside the scale"))
	} else {
		c.want(f.MERV >= 0 && f.MERV <= 16, path+".merv", f.MERV, "1 to 16, or nothing")
	}
	c.want(len(f.Efficiency) == 0 || len(f.Efficiency) == 12, path+".efficiency", message.New("{count} numbers", "count", len(f.Efficiency)), "12 numbers, one a size range of ASHRAE 52.2, or none")
	for i, e := range f.Efficiency {
		c.want(e >= 0 && e <= 1, c.item(path, "efficiency", i), e, "a share from 0 to 1")
	}
	c.want(f.Pleats == 0 || f.Pleats >= 2 && f.Pleats <= 200, path+".pleats", f.Pleats, "2 to 200, or nothing")
	if f.Pleats != 0 {
		c.want(f.Width > 0, path+".pleats", f.Pleats, "the filter's width and height beside the pleats, to know their pitch")
		c.want(f.MediaResistance > 0 || f.MediaPermeability > 0 || len(f.Rating) > 0, path+".media_resistance", nothing, "the media's resistance or its air permeability, or a rating of the filter")
	}
	within(c, path+".pleat_depth", f.PleatDepth, 2*units.Millimetre, 30*units.Inch)
	if f.Depth > 0 {
		c.want(f.PleatDepth <= f.Depth, path+".pleat_depth", f.PleatDepth, "at most the filter's depth, {depth}", "depth", f.Depth)
	}
	within(c, path+".media_thickness", f.MediaThickness, 0.05*units.Millimetre, 10*units.Millimetre)
	within(c, path+".fold_gap", f.FoldGap, 0.05*units.Millimetre, 20*units.Millimetre)
	within(c, path+".media_resistance", f.MediaResistance, 0.1*units.PascalSecondPerMetre, 50000*units.PascalSecondPerMetre)
	within(c, path+".media_permeability", f.MediaPermeability, 0.1*units.PermeabilityCFMPerSquare, 5000*units.PermeabilityCFMPerSquare)
	within(c, path+".media_area", f.MediaArea, 10*units.SquareInch, 1000*units.SquareFoot)
	share(c, path+".grid_open_share", f.GridOpenShare, 0.2, 1)
	oneOf(c, path+".bracing", f.Bracing)
	within(c, path+".final_drop", f.FinalDrop, 0.02*units.InchWater, 5*units.InchWater)
	within(c, path+".dust_capacity", f.DustCapacity, 1*units.Gram, 5*units.Kilogram)
	if f.DustCapacity != 0 {
		c.want(f.Width > 0, path+".dust_capacity", f.DustCapacity, "the filter's width and height beside it, to know the face it was found for")
	}
	c.price(path+".price", f.Price)
}

func (c *checker) knownFilter(path, name string) {
	if name == "" {
		return
	}
	var names []string
	for _, f := range c.job.Filters {
		if f.Name == name {
			return
		}
		names = append(names, f.Name)
	}
	have := message.New("the job has none")
	if len(names) > 0 {
		have = nearestNames(name, names)
	}
	c.fault(path, strconv.Quote(name), message.New("the name of a filter of the job: {names}", "names", have))
}

func (c *checker) branch(path string, r Return) {
	g := r.Grille
	c.want((g.Width == 0) == (g.Height == 0), path+".grille.height", g.Height, "both width and height, or neither")
	within(c, path+".grille.width", g.Width, leastGrilleSide, mostGrilleSide)
	within(c, path+".grille.height", g.Height, leastGrilleSide, mostGrilleSide)
	share(c, path+".grille.free_area", g.FreeArea, 0.1, 1)
	oneOf(c, path+".grille.style", g.Style)
	for i, p := range g.Rating {
		at := c.item(path, "grille.rating", i)
		moreThanNone(c, at+".airflow", p.Airflow, 10000*units.CFM)
		moreThanNone(c, at+".drop", p.Drop, 5*units.InchWater)
	}
	c.knownFilter(path+".filter", r.Filter)
	if r.Filter != "" {
		c.want(g.Width > 0, path+".grille.width", nothing, "the grille's size, since a filter sits in it")
	}
	c.want(g.Width > 0 || len(r.Runs) > 0, path, message.ID("a branch with neither grille nor duct"), "at least a grille or a duct run")
	for i, run := range r.Runs {
		c.run(c.item(path, "runs", i), run)
	}
	for i, f := range r.Fittings {
		c.fitting(c.item(path, "fittings", i), f, r)
	}
	oneOf(c, path+".ends", r.Ends)
	within(c, path+".opening_width", r.OpeningWidth, 3*units.Inch, 96*units.Inch)
	within(c, path+".opening_height", r.OpeningHeight, 3*units.Inch, 96*units.Inch)
}

func (c *checker) run(path string, r duct.Run) {
	if r.Shape == "" {
		c.fault(path+".shape", nothing, fieldpath.OneOf(r.Shape.Values()))
	}
	oneOf(c, path+".shape", r.Shape)
	oneOf(c, path+".material", r.Material)
	if r.Shape == duct.Rectangular {
		c.want(r.Width > 0, path+".width", r.Width, "the width of the duct")
		c.want(r.Height > 0, path+".height", r.Height, "the height of the duct")
	} else if r.Shape != "" {
		c.want(r.Diameter > 0, path+".diameter", r.Diameter, "the diameter of the duct")
	}
	within(c, path+".diameter", r.Diameter, 2*units.Inch, 60*units.Inch)
	within(c, path+".width", r.Width, 2*units.Inch, 96*units.Inch)
	within(c, path+".height", r.Height, 2*units.Inch, 96*units.Inch)
	moreThanNone(c, path+".length", r.Length, 500*units.Foot)
	c.want(r.Compression >= 0 && r.Compression <= 0.5, path+".compression", r.Compression, "a share from 0 (stretched) to {most}", "most", 0.5)
	if r.Shape != duct.Flex {
		c.want(r.Compression == 0, path+".compression", r.Compression, "nothing: only a flex is compressed")
	}
	within(c, path+".roughness", r.Roughness, 0.001*units.Millimetre, 10*units.Millimetre)
}

func (c *checker) fitting(path string, f duct.Fitting, r Return) {
	before := len(c.faults)
	c.want(f.Count >= 0 && f.Count <= 50, path+".count", f.Count, "1 to 50, or nothing for 1")
	c.want(f.Coefficient >= 0 && f.Coefficient <= 100, path+".coefficient", f.Coefficient, "0 to 100, or nothing to take the library's")
	within(c, path+".diameter", f.Diameter, 2*units.Inch, 60*units.Inch)
	within(c, path+".width", f.Width, 2*units.Inch, 96*units.Inch)
	within(c, path+".height", f.Height, 2*units.Inch, 96*units.Inch)
	share(c, path+".radius_ratio", f.RadiusRatio, 0.01, 10)
	share(c, path+".angle", f.Angle, 1, 180)
	share(c, path+".area_ratio", f.AreaRatio, 0.01, 1)
	if f.Kind == "" && f.Coefficient == 0 {
		c.fault(path+".kind", nothing, message.New("a kind of the fitting library, or a coefficient"))
	}
	if Section(f, r) == 0 {
		c.fault(path+".diameter", nothing, message.New("the section whose velocity counts, since the branch has no duct run"))
	}
	if len(c.faults) > before {
		return
	}
	if _, err := f.Loss(); err != nil && f.Coefficient == 0 {
		c.fault(path+".kind", strconv.Quote(string(f.Kind)), message.OfError(err))
	}
}

// Section is the area, m2, whose velocity a fitting's coefficient refers to:
// the fitting's own, else that of the branch's first run.
func Section(f duct.Fitting, r Return) float64 {
	var branch units.Area
	if len(r.Runs) > 0 {
		branch = r.Runs[0].Area()
	}
	return float64(f.Section(branch))
}

func (c *checker) slot(path string, s Slot) {
	c.want((s.Width == 0) == (s.Height == 0), path+".height", s.Height, "both width and height, or neither")
	within(c, path+".width", s.Width, leastFilterSide, mostFilterSide)
	within(c, path+".height", s.Height, leastFilterSide, mostFilterSide)
	within(c, path+".depth", s.Depth, leastFilterDepth, mostFilterDepth)
	c.want(s.Count >= 0 && s.Count <= MostInCasing, path+".count", s.Count, "1 to {most}, or nothing for 1", "most", MostInCasing)
	c.want(!s.Stacked || s.Count > 1, path+".stacked", s.Stacked, "two filters or more to stack")
	c.knownFilter(path+".filter", s.Filter)
	c.want(s.EntryCoefficient >= 0 && s.EntryCoefficient <= 50, path+".entry_coefficient", s.EntryCoefficient, "0 to 50")
	noneTo(c, path+".gap", s.Gap, 1*units.Inch, "0 (sealed) to {most}")
	c.want(s.GapBends >= 0 && s.GapBends <= 4, path+".gap_bends", s.GapBends, "0 to 4")
	noneTo(c, path+".edge_cover", s.EdgeCover, 4*units.Inch, "0 to {most}")
	c.estimated(path, s)
	if s.None {
		c.want(s.Filter == "", path+".filter", strconv.Quote(s.Filter), "nothing, since the slot is said to be none")
		return
	}
	c.fitsSlot(path, s, s.Filter)
}

// estimated finds a slot whose depth is outside the range of filter.GenericDrop
// where its filter is known by MERV and depth alone.
func (c *checker) estimated(path string, s Slot) {
	f, named := c.job.Filter(s.Filter)
	if s.None || s.Depth == 0 || named && (f.Depth > 0 || !f.IsEstimated()) {
		return
	}
	c.want(s.Depth >= filter.ThinnestGeneric && s.Depth <= filter.DeepestGeneric, path+".depth", s.Depth,
		"{low} to {high}, or a filter with its own depth or rating in it", "low", filter.ThinnestGeneric, "high", filter.DeepestGeneric)
}

// fitsSlot finds a filter that is deeper than the place it is meant for.
func (c *checker) fitsSlot(path string, s Slot, name string) {
	if f, ok := c.job.Filter(name); ok && f.Depth > 0 && s.Depth > 0 {
		c.want(f.Depth <= s.Depth+0.26*units.Inch, path+".filter", message.New("{name}, {depth} deep", "name", strconv.Quote(name), "depth", f.Depth), "a filter that fits a slot {depth} deep", "depth", s.Depth)
	}
}

// Filter finds a filter of the job by its name.
func (j Job) Filter(name string) (filter.Filter, bool) {
	for _, f := range j.Filters {
		if f.Name == name {
			return f, true
		}
	}
	return filter.Filter{}, false
}

func (c *checker) part(path string, p Part) {
	within(c, path+".drop", p.Drop, 0.001*units.InchWater, 3*units.InchWater)
	within(c, path+".airflow", p.Airflow, 50*units.CFM, 10000*units.CFM)
	share(c, path+".exponent", p.Exponent, 1, 2.5)
	if p.Airflow != 0 {
		c.want(p.Drop != 0, path+".drop", nothing, "the drop at that airflow")
	}
}

func (c *checker) readings() {
	for i, r := range c.job.Readings {
		path := c.item("", "readings", i)
		oneOf(c, path+".mode", r.Mode)
		if r.Option != "" && r.Option != TodayName {
			c.want(c.job.hasOption(r.Option), path+".option", strconv.Quote(r.Option), "the name of an option of the job, or nothing for today")
		}
		if r.AfterWork && r.Option == "" {
			c.fault(path+".option", message.ID("nothing, though the round was read after the work"), c.job.installed())
		}
		if _, ok := c.job.Equipment.Blower.Tap(r.Tap); r.Tap != "" && !ok {
			c.fault(path+".tap", strconv.Quote(r.Tap), message.New("the name of a tap of the table: {names}", "names", tapNames(c.job.Equipment.Blower, r.Tap)))
		}
		for _, p := range []struct {
			name string
			v    units.Pressure
		}{{"return_plenum", r.ReturnPlenum}, {"blower_inlet", r.BlowerInlet}, {"blower_outlet", r.BlowerOutlet}, {"supply_plenum", r.SupplyPlenum}, {"filter_drop", r.FilterDrop}} {
			c.want(math.Abs(float64(p.v)) <= float64(5*units.InchWater), c.field(path, p.name), p.v, "at most {most} either way", "most", 5*units.InchWater)
		}
		within(c, path+".airflow", r.Airflow, 50*units.CFM, 10000*units.CFM)
		within(c, path+".blower_power", r.BlowerPower, 5*units.Watt, 5*units.Kilowatt)
		within(c, path+".return_temperature", r.ReturnTemperature, units.Fahrenheit(32), units.Fahrenheit(130))
		within(c, path+".supply_temperature", r.SupplyTemperature, units.Fahrenheit(20), units.Fahrenheit(220))
	}
}

// installed asks for the name of the option that was in place in a round after
// the work.
func (j Job) installed() message.Message {
	if len(j.Options) == 0 {
		return message.New("the option that was installed: {today} where nothing was changed", "today", strconv.Quote(TodayName))
	}
	names := make([]string, len(j.Options))
	for i, o := range j.Options {
		names[i] = strconv.Quote(o.Name)
	}
	return message.New("the option that was installed: {names}, or {today} where nothing was changed",
		"names", strings.Join(names, ", "), "today", strconv.Quote(TodayName))
}

func (j Job) hasOption(name string) bool {
	return slices.ContainsFunc(j.Options, func(o Option) bool { return o.Name == name })
}

func (c *checker) options() {
	names := map[string]bool{NoFilterName: true, TodayName: true}
	for i, o := range c.job.Options {
		path := c.item("", "options", i)
		c.want(o.Name != "", path+".name", nothing, "a name for the option")
		c.want(o.Name == "" || !names[o.Name], path+".name", message.New("{name} again", "name", strconv.Quote(o.Name)), "a name of its own for each option, and neither {first} nor {second}", "first", strconv.Quote(NoFilterName), "second", strconv.Quote(TodayName))
		names[o.Name] = true
		c.knownFilter(path+".filter", o.Filter)
		for k := range o.Returns {
			c.branch(c.item(path, "returns", k), o.Returns[k])
		}
		c.slot(path+".slot", o.Slot)
		if o.Filter != "" {
			slot := c.job.Slot
			if o.Slot != (Slot{}) {
				slot = o.Slot
			}
			c.fitsSlot(path, slot, o.Filter)
		}
		if _, ok := c.job.Equipment.Blower.Tap(o.Tap); o.Tap != "" && !ok {
			c.fault(path+".tap", strconv.Quote(o.Tap), message.New("the name of a tap of the table: {names}", "names", tapNames(c.job.Equipment.Blower, o.Tap)))
		}
		share(c, path+".speed_ratio", o.SpeedRatio, slowestRatio, fastestRatio)
		if c.job.Equipment.Blower.Motor == blower.ConstantAirflow {
			c.want(o.SpeedRatio == 0, path+".speed_ratio", o.SpeedRatio, "nothing: a constant-airflow motor sets its own speed")
		}
		c.price(path+".price", o.Price)
	}
}

func (c *checker) limits() {
	l := c.job.Limits
	for _, q := range []struct {
		path string
		v    units.Length
	}{{"wall_width", l.WallWidth}, {"wall_height", l.WallHeight}, {"stud_bay", l.StudBay}, {"cabinet_width", l.CabinetWidth}, {"cabinet_height", l.CabinetHeight}, {"cabinet_depth", l.CabinetDepth}} {
		within(c, c.field("limits", q.path), q.v, 0.5*units.Inch, 120*units.Inch)
	}
	within(c, "limits.casing_face", l.CasingFace, 0.1*units.Inch, 12*units.Inch)
	within(c, "limits.casing_depth", l.CasingDepth, 0.1*units.Inch, 24*units.Inch)
	c.want(l.MaxOpenings >= 0 && l.MaxOpenings <= 6, "limits.max_openings", l.MaxOpenings, "1 to 6, or nothing")
	within(c, "limits.max_filter_drop", l.MaxFilterDrop, 0.01*units.InchWater, 2*units.InchWater)
	c.want(l.MinMERV >= 0 && l.MinMERV <= 16, "limits.min_merv", l.MinMERV, "1 to 16, or nothing")
	within(c, "limits.duct_velocity", l.DuctVelocity, 100*units.FPM, 3000*units.FPM)
	within(c, "limits.duct_friction", l.DuctFriction, 0.005*units.InchWaterPer100Feet, 1*units.InchWaterPer100Feet)
	share(c, "limits.flex_compression", l.FlexCompression, 0.001, 0.5)
	oneOf(c, "limits.nominal_sizes", l.NominalSizes)
	c.price("limits.budget", l.Budget)
	within(c, "limits.change_drop", l.ChangeDrop, 0.02*units.InchWater, 5*units.InchWater)
	share(c, "limits.change_airflow_loss", l.ChangeAirflowLoss, 0.005, 0.9)
	within(c, "limits.change_months", l.ChangeMonths, 0.25*units.Month, 120*units.Month)
	for i, s := range l.Checks {
		oneOf(c, c.item("limits", "checks", i), s)
	}
}

// rows counts in words: "1 row", "2 rows".
func rows(n int) message.Message { return message.New("{count} rows", "count", n) }

func (c *checker) uncertainty() {
	u := c.job.Uncertainty
	for _, d := range []struct {
		path string
		v    *float64
	}{{"gauge", u.Gauge}, {"blower_table", u.BlowerTable}, {"rating", u.Rating}, {"geometry", u.Geometry}, {"assumed", u.Assumed}} {
		if v := d.v; v != nil {
			c.want(*v == 0 || *v >= 0.001 && *v <= 0.5, c.field("uncertainty", d.path), *v, "a number from {low} to {high}, 0 for exactly known, or nothing for the usual one", "low", 0.001, "high", 0.5)
		}
	}
}

// Speed ratios that an option may ask for, and those within which a motor's
// efficiency moves little (common practice, no source).
const (
	slowestRatio = 0.5
	fastestRatio = 1.5
	NearRatioLow = 0.8
	NearRatio    = 1.2
)
