package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/air"
	"returnbench/sizing/blower"
	"returnbench/sizing/cost"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// calculation is a Study beside the house it was solved from.
type calculation struct {
	*Study
	house *house
	typed bool // the design airflow
}

func calculations(study *Study, h *house, typed bool) []Working {
	s := &calculation{Study: study, house: h, typed: typed}
	out := []Working{s.workDesign(), s.workFace(), s.workAir()}
	for i := range s.Options {
		out = append(out, s.optionWorkings(i)...)
	}
	return append(out, s.ductWorkings()...)
}

func (s *calculation) workDesign() Working {
	w := Working{Key: "design_airflow", Name: "Design airflow"}
	if s.AirflowPerCapacity <= 0 || s.house.Equipment.CoolingCapacity <= 0 {
		w.Steps = []Step{equationStep("The airflow as it was typed.", "the job", s.DesignAirflow, "Q = Q_typed", "", take("Q_typed", "", s.DesignAirflow))}
		return w
	}
	text, source := "Airflow per cooling capacity times the capacity.", s.sourceOf("airflow_per_capacity", "the job")
	if s.typed {
		text, source = "The airflow as it was typed, and what it is per cooling capacity.", "the job"
	}
	w.Steps = []Step{equationStep(text, source, s.DesignAirflow, "Q = r × C", "",
		take("r", "airflow per capacity", s.AirflowPerCapacity), take("C", "capacity", s.house.Equipment.CoolingCapacity))}
	return w
}

func (s *calculation) sourceOf(path, otherwise string) string {
	for _, a := range s.Assumptions {
		if a.Path == path {
			return "assumed: " + a.Source
		}
	}
	return otherwise
}

func (s *calculation) workFace() Working {
	return Working{Key: "needed_face", Name: "Face area wanted", Steps: []Step{
		equationStep("The face through which the design airflow passes at the target face velocity.",
			s.sourceOf("target_face_velocity", "the job's target"), s.NeededFace, "A = 144 × Q / v", "A = 10 × Q / v",
			take("Q", "design airflow", s.DesignAirflow), take("v", "target face velocity", s.TargetFaceVelocity)),
	}}
}

func (s *calculation) workAir() Working {
	a, state := s.Air, s.house.state
	const (
		lapse, power = 2.25577e-5, "5.25588" // ISO 2533
		gas          = 287.042               // J/(kg K), of dry air
	)
	seaLevel := func(u units.Pressure) string { return factor(101325 / float64(u)) }
	perInch := factor(float64(units.InchWater) * 1.8 / gas / float64(units.PoundPerCubicFoot))
	return Working{Key: "air.density", Name: "Air density", Steps: []Step{
		equationStep("Pressure at the altitude.", "ISO 2533", a.Pressure,
			"p = "+seaLevel(units.InchWater)+" × (1 - "+factor(lapse*0.3048)+" × z)^"+power, "p = 101325 × (1 - "+factor(lapse)+" × z)^"+power,
			takeIn("z", "altitude", a.Altitude.In(units.Foot), a.Altitude.SI(), "ft", "m")),
		equationStep("Density of the moist return air.", "ASHRAE Handbook Fundamentals ch. 1", a.Density,
			"rho = "+perInch+" × p × (1 + W) / ((T + 459.67) × (1 + 1.607858 × W))",
			"rho = p × (1 + W) / (287.042 × (T + 273.15) × (1 + 1.607858 × W))",
			take("p", "pressure", a.Pressure), take("T", "temperature", a.Temperature), takeNumber("W", "humidity ratio", state.HumidityRatio, "")),
	}}
}

func (s *calculation) optionWorkings(i int) []Working {
	o := &s.Options[i]
	at := fmt.Sprintf("options[%d]", i)
	clean := s.conditionWorkings(at+".clean", o, &o.Clean)
	if o.Kind == KindNoFilter {
		return clean
	}
	loaded := s.conditionWorkings(at+".loaded", o, &o.Loaded)
	for i := range clean {
		clean[i].Filter = "clean"
	}
	for i := range loaded {
		loaded[i].Filter = "loaded"
	}
	out := append(clean, loaded...)
	if o.MediaArea > 0 {
		out = append(out, s.workMedia(at, o))
	}
	out = append(out, s.workEfficiency(at, o), s.workLeak(at, o), s.workLife(at, o), s.workCost(at, o))
	return append(out, s.moneyWorkings(at, o)...)
}

func (s *calculation) conditionWorkings(at string, o *OptionResult, c *Condition) []Working {
	h := s.house
	name := func(what string) string { return what + ", " + o.Name }
	out := []Working{
		{Key: at + ".airflow", Name: name("Airflow"), Steps: append(s.speedStep(o, c), s.pointSteps(o, c)...)},
		{Key: at + ".external_static", Name: name("External static"), Steps: s.sumSteps(c)},
		{Key: at + ".return_static", Name: name("Static at the blower inlet"), Steps: []Step{
			equationStep("Return and filter drops, as suction.", "continuity of pressure", c.ReturnStatic, "p = -(p_return + p_filter)", "",
				take("p_return", "return side", -c.ReturnStatic-c.FilterDrop), take("p_filter", "filter", c.FilterDrop))}},
		{Key: at + ".blower_power", Name: name("Blower watts"), Steps: []Step{
			equationStep("The tap's watts at the external static, in the air of the house.", s.Blower.Source+"; fan laws, P in proportion to density", c.BlowerPower,
				"W = W_table × d", "",
				take("W_table", "in the table", c.BlowerPower/units.Power(s.Air.DensityRatio)), take("p", "at an external static", c.ExternalStatic), takeNumber("d", "density ratio", s.Air.DensityRatio, ""))}},
	}
	if !h.Equipment.NoHeating {
		out = append(out,
			Working{Key: at + ".heating_airflow", Name: name("Airflow in heating"), Steps: s.heatingSteps(c)},
			Working{Key: at + ".temperature_rise", Name: name("Temperature rise in heating"), Steps: s.riseSteps(c)})
	}
	if h.Equipment.Kind != Furnace {
		out = append(out, Working{Key: at + ".coil_air_leaving", Name: name("Air leaving the coil"), Steps: s.coilSteps(c)},
			Working{Key: at + ".supply_air", Name: name("Supply air in cooling"), Steps: []Step{
				equationStep("The blower's watts warm the air that it moves.", "sensible heat balance", c.SupplyAir,
					"t = t_coil + 3.4121416 × W / (60 × rho × cp × Q)", "t = t_coil + W / (rho × cp × Q)",
					append([]stepInput{take("t_coil", "air leaving the coil", c.CoilAirLeaving), take("W", "blower", c.BlowerPower), take("Q", "airflow", c.Airflow)}, heatOf(h.state)...)...)}})
	}
	if o.Kind != KindNoFilter && o.FaceArea > 0 {
		out = append(out,
			Working{Key: at + ".face_velocity", Name: name("Face velocity"), Steps: []Step{velocityStep("Airflow over the nominal face.", c.FaceVelocity, take("Q", "airflow", c.Airflow), take("A", "face", o.FaceArea))}},
			Working{Key: at + ".filter_drop", Name: name("Filter drop"), Steps: s.dropSteps(o, c)})
		if o.MediaArea > 0 {
			out = append(out, Working{Key: at + ".media_velocity", Name: name("Media velocity"), Steps: []Step{
				velocityStep("Airflow over the media.", c.MediaVelocity, take("Q", "airflow", c.Airflow), take("A", "media area", o.MediaArea))}})
		}
	}
	return out
}

func velocityStep(text string, v units.Speed, flow, area stepInput) Step {
	return equationStep(text, "continuity", v, "v = 144 × Q / A", "v = 10 × Q / A", flow, area)
}

// heatOf is what a heat balance takes of the air.
func heatOf(state air.State) []stepInput {
	const btuPerPound = 4186.8 // J/(kg K) in a Btu/(lb F)
	return []stepInput{take("rho", "density", state.Density()),
		takeIn("cp", "specific heat", state.SpecificHeat()/btuPerPound, state.SpecificHeat()/1000, "Btu/(lb F)", "kJ/(kg K)")}
}

// riseSteps are the heat balance of the heater.
func (s *calculation) riseSteps(c *Condition) []Step {
	h := s.house
	z := h.Site.Altitude
	return []Step{
		equationStep("Heating output at the site.", s.sourceOf("equipment.altitude_derate", "the job"), h.delivered(),
			"H = H_plate × (1 - s × z / 1000)", "H = H_plate × (1 - s × z / 304.8)",
			take("H_plate", "output on the nameplate", h.Equipment.HeatingOutput), takeNumber("s", "share lost, by altitude", h.Equipment.AltitudeDerate, ""),
			takeIn("z", "altitude", z.In(units.Foot), z.SI(), "ft", "m")),
		equationStep("Sensible heat into the heating airflow; the blower's watts end as heat in it.", "sensible heat balance", c.TemperatureRise,
			"rise = (H + 3.4121416 × W) / (60 × rho × cp × Q)", "rise = (1000 × H + W) / (rho × cp × Q)",
			append([]stepInput{take("H", "output", h.delivered()), take("W", "blower", c.HeatingPower), take("Q", "heating airflow", c.HeatingAirflow)}, heatOf(h.heated)...)...),
	}
}

// coilSteps are the capacity of the coil and the air that leaves it.
func (s *calculation) coilSteps(c *Condition) []Step {
	h := s.house
	f := float64(c.Airflow) / h.state.SpecificVolume() / (float64(h.coil.Airflow) / h.coil.Entering.SpecificVolume())
	f = min(max(f, thermal.LeastFlowFraction), thermal.MostFlowFraction)
	humid := c.TotalCapacity.SI() / (h.coil.Capacity.SI() * (0.8 + 0.2*f))
	in := h.state.Temperature
	bypass := 1.0
	if span := float64(in - c.ApparatusDewPt); span != 0 {
		bypass = float64(c.CoilAirLeaving-c.ApparatusDewPt) / span
	}
	return []Step{
		equationStep("Total capacity at this airflow.", "default direct-expansion coil of an open building-energy reference, from memory", c.TotalCapacity,
			"C = C_rated × (0.8 + 0.2 × f) × k", "",
			take("C_rated", "rated capacity", h.coil.Capacity), takeNumber("f", "mass flow over the rated one", f, ""), takeNumber("k", "factor of the humidity of the air", humid, "")),
		equationStep("Leaving air between entering air and the apparatus dew point.", "apparatus dew point and bypass factor, textbook", c.CoilAirLeaving,
			"t = t_adp + BF × (t_in - t_adp)", "",
			take("t_adp", "apparatus dew point", c.ApparatusDewPt), takeNumber("BF", "share of the sensible heat that passes by", bypass, ""), take("t_in", "return air", in)),
	}
}

// tableSteps read an airflow off a tap's table: along a straight line between two
// rows, as by hand, and then by how far the curve through all rows lies beside it.
func tableSteps(curve blower.Curve, source string, p units.Pressure, q units.Flow, ratio float64) []Step {
	line := curve.LinearAirflow(p)
	bend := equationStep("The curve through all rows lies beside that line; here the blower gives just the static that the house asks.",
		source+", monotone cubic between its rows, static in proportion to density", q, "Q = q + d", "",
		take("q", "straight line", line), take("d", "curve beside it", q-line))
	a, b, ok := curve.Rows(p)
	if !ok {
		return []Step{bend}
	}
	return []Step{
		equationStep(fmt.Sprintf("The airflow in the table at that static, in straight lines between its rows as a printed table is read by hand. The rows' statics are times the density ratio, %.4f.", ratio),
			source, line, "q = q1 + (q2 - q1) × (p - p1) / (p2 - p1)", "",
			take("p", "static", p), take("p1", "row", a.ExternalStatic), take("q1", "", a.Airflow), take("p2", "row", b.ExternalStatic), take("q2", "", b.Airflow)),
		bend,
	}
}

func (s *calculation) pointSteps(o *OptionResult, c *Condition) []Step {
	steps := append([]Step{s.sumStep("The drops at the blower's airflow.", c)},
		tableSteps(s.house.curves[o.Tap], s.Blower.Source, c.ExternalStatic, c.Airflow, s.Air.DensityRatio)...)
	return steps
}

// heatingSteps find the airflow that the furnace heats.
func (s *calculation) heatingSteps(c *Condition) []Step {
	h := s.house
	var steps []Step
	if h.hasCoil() {
		steps = append(steps, equationStep("In heating the coil is dry.", s.sourceOf("equipment.coil_dry_share", "the job"),
			units.Pressure(h.Equipment.CoilDryShare)*h.Coil.Drop, "p_dry = k × p_wet", "",
			takeNumber("k", "dry over wet", h.Equipment.CoilDryShare, ""), take("p_wet", "wet", h.Coil.Drop), take("Q0", "at", h.Coil.Airflow)))
	}
	return append(steps, tableSteps(h.curves[h.Equipment.Blower.HeatingTap], s.Blower.Source, c.HeatingStatic, c.HeatingAirflow, s.Air.DensityRatio)...)
}

// partStep tells the law of a part: by its drop at one airflow, or, where it is
// made of many pieces, by what they take together at the design airflow.
func (s *calculation) partStep(p PartDrop, c *Condition) Step {
	known := map[string]Part{"coil": s.house.Coil, "supply": s.house.Supply, "return": s.house.returnPart}
	part, from := known[p.Name], p.Basis+"; n "+exponentSource(p.Name)
	if part.Drop == 0 || part.Airflow == 0 || p.Name == "return" && len(c.Branches) > 0 {
		share := float64(c.Airflow) / float64(s.DesignAirflow)
		part = Part{Drop: p.Drop / units.Pressure(share*share), Airflow: s.DesignAirflow, Exponent: 2}
		from = p.Basis + "; its pieces solved at this airflow, told as a drop at the design airflow"
	}
	return equationStep("Drop of: "+p.Name+".", from, p.Drop, "p = p0 × (Q / Q0)^n", "",
		take("p0", "drop", part.Drop), take("Q0", "at", part.Airflow), take("Q", "airflow", c.Airflow), takeNumber("n", "", part.Exponent, ""))
}

func exponentSource(part string) string {
	if part == "coil" {
		return "of a wet coil, common practice, no source, or typed"
	}
	return "2 of the reference system of the federal test of blowers, static = k Q^2, from memory, or typed"
}

func (s *calculation) sumSteps(c *Condition) []Step {
	var steps []Step
	for _, p := range c.Parts {
		steps = append(steps, s.partStep(p, c))
	}
	return append(steps, s.sumStep("Their sum.", c))
}

// sumStep adds up what the parts take of the external static.
func (s *calculation) sumStep(text string, c *Condition) Step {
	equation := "p = "
	var inputs []stepInput
	for _, p := range c.Parts {
		if p.Internal {
			continue
		}
		symbol := fmt.Sprintf("p%d", len(inputs)+1)
		if len(inputs) > 0 {
			equation += " + "
		}
		equation += symbol
		inputs = append(inputs, take(symbol, p.Name, p.Drop))
	}
	return equationStep(text, "continuity of pressure", c.ExternalStatic, equation, "", inputs...)
}

var lawSources = map[string]string{
	"rating":  "the filter's printed rating, fitted by non-negative least squares",
	"make":    "two-channel pleat model with inertia, solved numerically",
	"generic": "generic invented estimate by MERV and depth",
	"gauge":   "the gauge's reading of today's filter",
}

func (s *calculation) dropSteps(o *OptionResult, c *Condition) []Step {
	var steps []Step
	clean, v := c.FilterDrop, c.FaceVelocity
	curve := o.FilterCurve
	at := slices.IndexFunc(curve, func(p FaceDrop) bool { return p.FaceVelocity >= v })
	source := cmp.Or(lawSources[o.LawSource], "the laws of its filters")
	if at > 0 {
		a, b := curve[at-1], curve[at]
		line := a.Drop + (b.Drop-a.Drop)*units.Pressure((v-a.FaceVelocity)/(b.FaceVelocity-a.FaceVelocity))
		steps = append(steps, equationStep("The clean filter's curve in straight lines between two of its points.", source, line,
			"p = p1 + (p2 - p1) × (v - v1) / (v2 - v1)", "",
			take("v", "face velocity", v), take("v1", "point", a.FaceVelocity), take("p1", "", a.Drop), take("v2", "point", b.FaceVelocity), take("p2", "", b.Drop)))
		clean = line
	}
	rest := "the curve beside the line"
	if c == &o.Loaded {
		rest = "its dust, and the curve beside the line"
	}
	steps = append(steps, equationStep("The filter's drop at its face velocity.", source, c.FilterDrop, "p = p_line + p_rest", "",
		take("p_line", "straight line", clean), take("p_rest", rest, c.FilterDrop-clean)))
	if o.LawSource == filter.FromMake {
		spread := units.Pressure(filter.PleatTrust) * c.FilterDrop
		steps = append(steps, equationStep("The pleat model agrees with resolved flow to 5 %; a real pack's media, folds and spacers differ by more. The low end; the high end is as far above.",
			"two-dimensional computations of five packs, see the tests", c.FilterDrop-spread, "p_low = p × (1 - k)", "",
			take("p", "drop", c.FilterDrop), takeNumber("k", "agreement", filter.PleatTrust, "")).spread())
		steps = append(steps, s.leftOutSteps(o, c)...)
	}
	return steps
}

func (s *calculation) workMedia(at string, o *OptionResult) Working {
	ratio := float64(o.MediaArea) / float64(o.FaceArea)
	from := "geometry of the pack, or as printed"
	return Working{Key: at + ".media_area", Name: "Media area, " + o.Name, Steps: []Step{
		equationStep("Media for each unit of face, over the face.", from, o.MediaArea, "A = k × A_face", "",
			takeNumber("k", "media over face", ratio, ""), take("A_face", "face", o.FaceArea))}}
}

func (s *calculation) workEfficiency(at string, o *OptionResult) Working {
	e := o.Efficiency
	source := "the filter's own curve"
	if e.Assumed {
		source = "typical curve of the rating, invented"
	}
	var steps []Step
	ranges := []string{"0.3 to 1", "1 to 3", "3 to 10"}
	for k, mean := range []float64{e.E1, e.E2, e.E3} {
		var inputs []stepInput
		for i := range 4 {
			inputs = append(inputs, takeNumber(fmt.Sprintf("e%d", 4*k+i+1), "", 100*e.BySize[4*k+i], "%"))
		}
		symbols := []any{k + 1, inputs[0].symbol, inputs[1].symbol, inputs[2].symbol, inputs[3].symbol}
		steps = append(steps, equationStep("Mean efficiency of four sizes, "+ranges[k]+" micrometres.", source, fmt.Sprintf("%.0f %%", 100*mean),
			fmt.Sprintf("E%d = (%s + %s + %s + %s) / 4", symbols...), "", inputs...))
	}
	steps = append(steps, newStep("The highest row of the table whose least efficiencies are all met.", "table 12-1", "ASHRAE 52.2-2017, from secondary text", fmt.Sprintf("MERV %d", e.MERV),
		"E1 %.0f %%, E2 %.0f %%, E3 %.0f %%; installed with the leak: MERV %d", 100*e.E1, 100*e.E2, 100*e.E3, e.InstalledMERV))
	return Working{Key: at + ".efficiency.merv", Name: "MERV, " + o.Name, Steps: steps}
}

func (s *calculation) workLeak(at string, o *OptionResult) Working {
	gap := units.Flow(o.LeakFraction) * o.Clean.Airflow
	return Working{Key: at + ".leak_fraction", Name: "Air that slips past, " + o.Name, Steps: []Step{
		equationStep("Flow of the gap under the filter's own drop, over the whole flow.",
			"gap flow by Baker, Sharples and Ward 1987: laminar slot with bends", fmt.Sprintf("%.1f %%", 100*o.LeakFraction), "leak = 100 × q / Q", "",
			take("q", "through the gap", gap), take("p", "under the filter's drop", o.Clean.FilterDrop), take("Q", "airflow", o.Clean.Airflow))}}
}

func (s *calculation) workLife(at string, o *OptionResult) Working {
	h := s.house
	dust := units.Mass(0)
	if n := len(o.LifeCurve); n > 0 {
		dust = o.LifeCurve[n-1].Dust
	}
	w := Working{Key: at + ".life", Name: "Filter life, " + o.Name}
	days := o.Life.In(units.Day)
	if dust <= 0 || days <= 0 || h.Site.DustRate <= 0 {
		w.Steps = []Step{equationStep("Over its limit when clean: "+o.LifeEnds+".", "engineering estimate", o.Life, "t = t_0", "", take("t_0", "", o.Life))}
		return w
	}
	perDay := h.Site.DustRate.SI() * float64(units.Day)
	caught := dust.SI() / (perDay * h.runShare() * days)
	w.Steps = []Step{
		equationStep("The time in which that dust gathers. The filter is followed in small steps, with bow, leak and operating point solved anew at each, till: "+o.LifeEnds+".",
			s.sourceOf("site.dust", "the job")+"; R(W) = R0 + r W^n, W dust per media area, engineering estimate", o.Life,
			"t = m / (g × s × c × 30.4375)", "",
			takeNumber("m", "dust then held", 1000*dust.SI(), "g"), takeNumber("g", "dust in the air while it moves", 1000*perDay, "g/day"),
			takeNumber("s", "share of the year running", h.runShare(), ""), takeNumber("c", "share caught", caught, "")),
	}
	return w
}

func (s *calculation) workCost(at string, o *OptionResult) Working {
	w := Working{Key: at + ".annual_cost", Name: "Cost a year, " + o.Name, Steps: s.energySteps(o)}
	if !o.AnnualKnown {
		w.Steps = append(w.Steps, newStep("Not known: a filter is over its change limit when clean, or nothing is left of the cooling.", "-", "arithmetic", "not known", "%s", o.LifeEnds))
		return w
	}
	var inputs []stepInput
	equation := ""
	for k, p := range o.Places {
		n, price := fmt.Sprintf("n%d", k+1), fmt.Sprintf("a%d", k+1)
		if k > 0 {
			equation += " + "
		}
		equation += n + " × " + price
		inputs = append(inputs, takeNumber(n, "changes a year", p.PerYear, ""), take(price, "price", p.Price))
	}
	if len(inputs) > 0 {
		w.Steps = append(w.Steps, equationStep("Changes a year of each place, times the price of its filters.", "the filters' lives", o.AnnualFilter, "F = "+equation, "", inputs...))
	}
	w.Steps = append(w.Steps, equationStep("Sum. Not counted: the life of coil and equipment, comfort, cleaner air.", "arithmetic", o.AnnualCost,
		"A = P + O + F", "", take("P", "blower", o.AnnualPower), take("O", "outdoor unit", o.AnnualOutdoor), take("F", "filters", o.AnnualFilter)))
	return w
}

// energySteps are the power of blower and outdoor unit in a year, and its price.
func (s *calculation) energySteps(o *OptionResult) []Step {
	h := s.house
	price := take("a", "price of power", h.Site.PowerPrice)
	hours := func(symbol, what string, t units.Duration) stepInput {
		return takeNumber(symbol, what, t.In(units.Hour), "h")
	}
	steps := []Step{}
	share, cools := s.CoolingTime(o)
	if cools {
		steps = append(steps, equationStep("Cooling hours for the same sensible cooling as today; heating hours do not change, as the output is fixed.",
			"heat balance; the blower's watts end as heat in the air it moves; an estimate", fmt.Sprintf("%.0f h", o.CoolingHours.In(units.Hour)),
			"h = h_today × N_today / N", "", hours("h_today", "today", h.Site.CoolingHours),
			takeNumber("N_today", "sensible capacity less blower, today", netSensible(s.Today()), "W"), takeNumber("N", "with this option", netSensible(s.Today())/share, "W")))
	}
	in, _ := h.annualInput(o, s.Today())
	steps = append(steps,
		equationStep("Mean watts of the blower by season, times hours.", "arithmetic", o.AnnualEnergy, "E = (Wc × hc + Wh × hh + Wf × hf) / 1000", "",
			take("Wc", "cooling", in.CoolingPower), hours("hc", "", in.Hours.Cooling), take("Wh", "heating", in.HeatingPower), hours("hh", "", in.Hours.Heating),
			take("Wf", "fan alone", in.FanPower), hours("hf", "", in.Hours.Fan)),
		equationStep("Times the price of power.", s.sourceOf("site.power_price", "the job"), o.AnnualPower, "P = E × a", "", take("E", "energy", o.AnnualEnergy), price))
	if cools && o.OutdoorEnergy > 0 {
		steps = append(steps, s.outdoorSteps(o, in.Hours.Cooling, price)...)
	}
	return steps
}

// outdoorSteps are the energy of the outdoor unit, the mean of clean and loaded.
func (s *calculation) outdoorSteps(o *OptionResult, cooling units.Duration, price stepInput) []Step {
	h := s.house
	fraction := func(c *Condition) float64 { return min(max(float64(c.Airflow)/float64(h.coil.Airflow), 0.5), 1.5) }
	const factors = " / R × (2.3104 - 0.1808 × (f1 + f2) + 0.0256 × (f1^2 + f2^2)) / 2"
	return []Step{
		equationStep("Watts of the outdoor unit, the mean of the clean and the dirty filter: capacity over EER, times a factor of the airflow.",
			"default curve of an open building-energy reference, from memory; EER: "+s.sourceOf("equipment.eer", "typed"), h.outdoorPower(o),
			"W = 12000 × C"+factors, "W = 3412.1416 × C"+factors,
			take("C", "capacity", h.Equipment.CoolingCapacity), takeNumber("R", "EER", h.Equipment.EER, "Btu/(W h)"),
			takeNumber("f1", "airflow over the rated one, clean", fraction(&o.Clean), ""), takeNumber("f2", "dirty", fraction(&o.Loaded), "")),
		equationStep("Times the cooling hours.", "arithmetic", o.OutdoorEnergy, "E = W × h / 1000", "",
			take("W", "outdoor unit", h.outdoorPower(o)), takeNumber("h", "cooling", cooling.In(units.Hour), "h")),
		equationStep("Times the price of power.", s.sourceOf("site.power_price", "the job"), o.AnnualOutdoor, "O = E × a", "", take("E", "energy", o.OutdoorEnergy), price),
	}
}

// moneyWorkings are the cost of ten years and the pay-back.
func (s *calculation) moneyWorkings(at string, o *OptionResult) []Working {
	h := s.house
	rate := h.Site.DiscountRate
	if !o.TenYearKnown {
		return nil
	}
	worth := equationStep("What a sum each year is worth today, over the years.", s.sourceOf("site.discount_rate", "the job"), fmt.Sprintf("%.4f", cost.PresentWorthFactor(rate, costYears)),
		"F = (1 - (1 + i)^(-n)) / i", "", takeNumber("i", "discount rate", rate, ""), takeNumber("n", "", costYears, "years"))
	if rate == 0 {
		worth = equationStep("With no interest a sum each year is worth as much as it is often paid.", "arithmetic", fmt.Sprintf("%.4f", float64(costYears)), "F = n", "", takeNumber("n", "", costYears, "years"))
	}
	out := []Working{{Key: at + ".ten_year_cost", Name: "Ten years' cost, " + o.Name, Steps: []Step{worth,
		equationStep("The work, and ten years of power and filters at today's worth.", "arithmetic", o.TenYearCost, "T = U + F × A", "",
			take("U", "the work", o.Upgrade), takeNumber("F", "", cost.PresentWorthFactor(rate, costYears), ""), take("A", "cost a year", o.AnnualCost))}}}
	if p := o.Payback; p.Known && p.Pays && p.Years > 0 {
		saved := s.Today().AnnualCost - o.AnnualCost
		equation := "n = -ln(1 - i × U / S) / ln(1 + i)"
		inputs := []stepInput{take("U", "the work", o.Upgrade), take("S", "saved a year", saved)}
		if rate == 0 {
			equation = "n = U / S"
		} else {
			inputs = append(inputs, takeNumber("i", "discount rate", rate, ""))
		}
		out = append(out, Working{Key: strings.Replace(at, "options", "payback", 1), Name: "Pay-back, " + o.Name, Steps: []Step{
			equationStep("What is saved a year over today.", "arithmetic", saved, "S = A_today - A", "", take("A_today", "today", s.Today().AnnualCost), take("A", "with this option", o.AnnualCost)),
			equationStep("The years till the savings, at today's worth, reach the price of the work.", "interest tables of any engineering economy textbook, from memory",
				fmt.Sprintf("%.1f years", p.Years.In(units.Year)), equation, "", inputs...)}})
	}
	return out
}

// ductWorkings tells for each branch how its duct sizes follow.
func (s *calculation) ductWorkings() []Working {
	var out []Working
	for i, d := range s.Ducts {
		for _, c := range []struct {
			key, name string
			choice    DuctChoice
		}{{"round", "Round duct", d.Round}, {"flex", "Flex", d.Flex}, {"rectangular", "Rectangular duct", d.Rect}} {
			if c.choice.Found() {
				out = append(out, Working{Key: fmt.Sprintf("ducts[%d].%s", i, c.key), Name: c.name + ", " + d.Branch, Steps: s.ductSteps(d, c.choice)})
			}
		}
	}
	return out
}

func (s *calculation) ductSteps(d DuctSize, c DuctChoice) []Step {
	h := s.house
	flow := take("Q", "airflow", d.Airflow)
	across, wide := take("D", "across", c.Diameter), take("w", "width", c.Width)
	limit := take("v_max", "limit", h.Limits.DuctVelocity)
	velocity := equationStep("Velocity in the smallest nominal size that keeps both limits.",
		s.sourceOf("limits.duct_velocity", "the job's limit"), c.Velocity, "v = 183.34649 × Q / D^2", "v = 1273.2395 × Q / D^2", flow, across, limit)
	round := c.Diameter
	if c.Diameter == 0 {
		velocity = equationStep(velocity.Text, velocity.Source, c.Velocity, "v = 144 × Q / (w × h)", "v = 1000 × Q / (w × h)", flow, wide, take("h", "height", c.Height), limit)
		round = units.Length(c.run.EquivalentDiameter())
	}
	steps := []Step{velocity}
	correction := 1.0
	if c.run.Shape == duct.Flex {
		factor, inside := c.run.CompressionCorrection()
		correction = factor
		note := ""
		if !inside {
			note = " Outside the equation's range."
		}
		steps = append(steps, equationStep("Flex that lies shorter than stretched takes more."+note, "ASHRAE Handbook Fundamentals 2021 ch. 21, eqs. 22 and 23", fmt.Sprintf("%.2f times", factor),
			"k = 1 + 0.58 × K × exp(-0.125984 × D)", "k = 1 + 0.58 × K × exp(-0.00496 × D)", takeNumber("K", "shorter than stretched", 100*c.Compression, "%"), across))
	}
	// The speed in the round duct of equal friction, by which f is told.
	area := math.Pi / 4 * float64(round) * float64(round)
	ve := units.Speed(float64(d.Airflow) / area)
	rho := h.air.Density
	f := c.Friction.SI() * float64(round) / (correction * rho.SI() * float64(ve) * float64(ve) / 2)
	perHundred := 0.3048 * 0.3048 / 3600 / 2 * float64(units.PoundPerCubicFoot) / 0.0254 / float64(units.InchWaterPer100Feet)
	steps = append(steps, equationStep("Friction of the straight duct; the limit that asks for the size is: "+c.Bound+".",
		s.sourceOf("limits.duct_friction", "the job's limit")+"; f by Colebrook and White, De by Huebscher", c.Friction,
		"r = "+factor(perHundred)+" × k × f × rho × v^2 / De", "r = 500 × k × f × rho × v^2 / De",
		takeNumber("k", "flex", correction, ""), takeNumber("f", "friction factor", f, ""), take("rho", "density", rho), take("v", "speed in the round duct of equal friction", ve), take("De", "its diameter", round), take("r_max", "limit", h.Limits.DuctFriction)))
	return append(steps, equationStep("Over the branch's straight length, and its fittings at this section.", "Darcy-Weisbach; loss coefficients of the fittings", c.Drop,
		"p = r × L / 100 + p_f", "p = r × L + p_f", take("r", "friction", c.Friction), takeIn("L", "straight duct", straight(c).In(units.Foot), straight(c).SI(), "ft", "m"), take("p_f", "fittings", c.FittingsDrop)))
}

// straight is the length that the duct's own friction speaks for.
func straight(c DuctChoice) units.Length {
	if c.Friction <= 0 {
		return 0
	}
	return units.Length((c.Drop - c.FittingsDrop).SI() / c.Friction.SI())
}

// leftOutSteps size what the pleat model does not count.
func (s *calculation) leftOutSteps(o *OptionResult, c *Condition) []Step {
	if o.pack == nil {
		return nil
	}
	out, err := o.pack.LeftOut(c.FaceVelocity, s.house.air)
	if err != nil {
		return nil
	}
	folds := units.Pressure(out.FoldShare) * out.MediaDrop
	low, high := c.FilterDrop*(1-filter.PleatTrust)+out.MouthsLow-folds, c.FilterDrop*(1+filter.PleatTrust)+out.MouthsHigh+folds
	trust := takeNumber("k", "agreement", filter.PleatTrust, "")
	return []Step{
		equationStep("Not counted: media in the folds, which passes air where they are open, and what glue or a crease closes; either way.",
			"geometry of the pack; an estimate", folds, "p_fold = e × p_media", "",
			takeNumber("e", "share of the media in the folds", out.FoldShare, ""), take("p_media", "the media's own drop", out.MediaDrop)).spread(),
		equationStep("Not counted: what the jets behind the pack give back as they mix. The low end.", "Borda-Carnot; K of a sharp edge by Idelchik, from memory; an estimate",
			low, "p_low = p × (1 - k) + m - p_fold", "",
			take("p", "drop", c.FilterDrop), trust, take("m", "mouths and jets", out.MouthsLow), take("p_fold", "folds", folds)).spread(),
		equationStep("Not counted: contraction before the mouths. The high end.", "Borda-Carnot; K of a sharp edge by Idelchik, from memory; an estimate",
			high, "p_high = p × (1 + k) + m + p_fold", "",
			take("p", "drop", c.FilterDrop), trust, take("m", "mouths and jets", out.MouthsHigh), take("p_fold", "folds", folds)).spread(),
	}
}

// RangeWorkings tell how the ranges of the options follow from their samples.
func (s *Study) RangeWorkings(ranges []OptionRange) []Working {
	var out []Working
	for i := range ranges {
		r := &ranges[i]
		n := float64(r.Samples)
		if r.Samples < 2 {
			continue
		}
		place := func(share float64) float64 { return 1 + math.Round(share*(n-1)) }
		add := func(key, what string, low, high units.Quantity) {
			if low.SI() == 0 && high.SI() == 0 {
				return
			}
			w := Working{Key: fmt.Sprintf("ranges[%d].%s", i, key), Name: what + ", " + r.Name + ", range"}
			for _, end := range []struct {
				word, symbol string
				share        float64
				value        units.Quantity
			}{{"lower", "low", (1 - RangeShare) / 2, low}, {"upper", "high", (1 + RangeShare) / 2, high}} {
				k := place(end.share)
				w.Steps = append(w.Steps,
					equationStep("Which of the samples, from the smallest up, is the "+end.word+" end: so that nine in ten lie between.", "order statistics; every input moved within how well it is known",
						fmt.Sprintf("%.0f", k), "k = 1 + s × (n - 1)", "", takeNumber("s", "share below", end.share, ""), takeNumber("n", "samples", n, "")),
					equationStep("That sample.", "the samples", end.value, end.symbol+" = x_k", "", take("x_k", fmt.Sprintf("number %.0f of %d", k, r.Samples), end.value)))
			}
			out = append(out, w)
		}
		add("airflow", "Airflow", r.Airflow.Low, r.Airflow.High)
		add("external_static", "External static", r.ExternalStatic.Low, r.ExternalStatic.High)
		add("blower_power", "Blower watts", r.BlowerPower.Low, r.BlowerPower.High)
		if r.Kind != KindNoFilter {
			add("life", "Filter life", r.Life.Low, r.Life.High)
			add("annual_cost", "Cost a year", r.AnnualCost.Low, r.AnnualCost.High)
			add("ten_year_cost", "Ten years' cost", r.TenYearCost.Low, r.TenYearCost.High)
		}
	}
	return out
}
