package calculations

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/compare"
	"returnbench/sizing/cost"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/money"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// calculation is a Study beside the house it was solved from.
type calculation struct {
	*study.Study
	house *house.House
	typed bool // the design airflow
}

// All lists the workings of a Study: those of the house, of each option, of the
// ducts. typed is true where the person typed the design airflow.
func All(st *study.Study, h *house.House, typed bool) []study.Working {
	s := &calculation{Study: st, house: h, typed: typed}
	out := []study.Working{s.workDesign(), s.workFace(), s.workAir()}
	for i := range s.Options {
		out = append(out, s.optionWorkings(i)...)
	}
	return append(out, s.ductWorkings()...)
}

func (s *calculation) workDesign() study.Working {
	w := study.Working{Key: "design_airflow", Name: message.New("Design airflow")}
	if s.AirflowPerCapacity <= 0 || s.house.Equipment.CoolingCapacity <= 0 {
		w.Steps = []study.Step{study.EquationStep("The airflow as it was typed.", "the job", s.DesignAirflow, "Q = Q_typed", "", study.Input("Q_typed", "", s.DesignAirflow))}
		return w
	}
	text, source := message.ID("Airflow per cooling capacity times the capacity."), s.sourceOf("airflow_per_capacity", "the job")
	if s.typed {
		text, source = "The airflow as it was typed, and what it is per cooling capacity.", message.New("the job")
	}
	w.Steps = []study.Step{step(text, source, s.DesignAirflow, "Q = r × C", "",
		study.Input("r", "airflow per capacity", s.AirflowPerCapacity), study.Input("C", "capacity", s.house.Equipment.CoolingCapacity))}
	return w
}

// sourceOf is the source of a field: typed, or that of the value assumed for it.
func (s *calculation) sourceOf(path string, typed message.ID) message.Message {
	return s.sourceIn(path, typed, "assumed: {source}")
}

// sourceIn is sourceOf within longer words.
func (s *calculation) sourceIn(path string, typed, assumed message.ID) message.Message {
	for _, a := range s.Assumptions {
		if a.Path == path {
			return message.New(assumed, "source", a.Source)
		}
	}
	return message.New(typed)
}

// step is an equation whose source has arguments.
func step(text message.ID, source message.Message, result any, ip, si string, inputs ...study.StepInput) study.Step {
	return study.EquationStep(text, "", result, ip, si, inputs...).From(source.ID, source.Args...)
}

// of names a number of an option.
func of(name message.ID, o *study.OptionResult) message.Message {
	return message.New(name, "option", study.OptionName(o.Name))
}

func percent(share float64, decimals int) message.Message {
	return message.New("{percent} %", "percent", message.Fixed(100*share, decimals))
}

func (s *calculation) workFace() study.Working {
	return study.Working{Key: "needed_face", Name: message.New("Face area wanted"), Steps: []study.Step{
		step("The face through which the design airflow passes at the target face velocity.",
			s.sourceOf("target_face_velocity", "the job's target"), s.NeededFace, "A = 144 × Q / v", "A = 10 × Q / v",
			study.Input("Q", "design airflow", s.DesignAirflow), study.Input("v", "target face velocity", s.TargetFaceVelocity)),
	}}
}

func (s *calculation) workAir() study.Working {
	a, state := s.Air, s.house.CoolingAir
	const (
		lapse, power = 2.25577e-5, "5.25588" // ISO 2533
		gas          = 287.042               // J/(kg K), of dry air
	)
	seaLevel := func(u units.Pressure) string { return study.Factor(101325 / float64(u)) }
	perInch := study.Factor(float64(units.InchWater) * 1.8 / gas / float64(units.PoundPerCubicFoot))
	return study.Working{Key: "air.density", Name: message.New("Air density"), Steps: []study.Step{
		study.EquationStep("Pressure at the altitude.", "ISO 2533", a.Pressure,
			"p = "+seaLevel(units.InchWater)+" × (1 - "+study.Factor(lapse*0.3048)+" × z)^"+power, "p = 101325 × (1 - "+study.Factor(lapse)+" × z)^"+power,
			study.InputIn("z", "altitude", a.Altitude.In(units.Foot), a.Altitude.SI(), "ft", "m")),
		study.EquationStep("Density of the moist return air.", "ASHRAE Handbook Fundamentals ch. 1", a.Density,
			"rho = "+perInch+" × p × (1 + W) / ((T + 459.67) × (1 + 1.607858 × W))",
			"rho = p × (1 + W) / (287.042 × (T + 273.15) × (1 + 1.607858 × W))",
			study.Input("p", "pressure", a.Pressure), study.Input("T", "temperature", a.Temperature), study.InputNumber("W", "humidity ratio", state.HumidityRatio, "")),
	}}
}

func (s *calculation) optionWorkings(i int) []study.Working {
	o := &s.Options[i]
	at := fmt.Sprintf("options[%d]", i)
	clean := s.conditionWorkings(at+".clean", o, &o.Clean)
	if o.Kind == study.KindNoFilter {
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

func (s *calculation) conditionWorkings(at string, o *study.OptionResult, c *study.Condition) []study.Working {
	h := s.house
	out := []study.Working{
		{Key: at + ".airflow", Name: of("Airflow, {option}", o), Steps: append(s.speedStep(o, c), s.pointSteps(o, c)...)},
		{Key: at + ".external_static", Name: of("External static, {option}", o), Steps: s.sumSteps(c)},
		{Key: at + ".return_static", Name: of("Static at the blower inlet, {option}", o), Steps: []study.Step{
			study.EquationStep("Return and filter drops, as suction.", "continuity of pressure", c.ReturnStatic, "p = -(p_return + p_filter)", "",
				study.Input("p_return", "return side", -c.ReturnStatic-c.FilterDrop), study.Input("p_filter", "filter", c.FilterDrop))}},
		{Key: at + ".blower_power", Name: of("Blower watts, {option}", o), Steps: []study.Step{
			step("The tap's watts at the external static, in the air of the house.", message.New("{table}; fan laws, P in proportion to density", "table", s.wattsSource(o)), c.BlowerPower,
				"W = W_table × d", "",
				study.Input("W_table", "in the table", c.BlowerPower/units.Power(s.Air.DensityRatio)), study.Input("p", "at an external static", c.ExternalStatic), study.InputNumber("d", "density ratio", s.Air.DensityRatio, ""))}},
	}
	if !h.Equipment.NoHeating {
		out = append(out,
			study.Working{Key: at + ".heating_airflow", Name: of("Airflow in heating, {option}", o), Steps: s.heatingSteps(o, c)},
			study.Working{Key: at + ".temperature_rise", Name: of("Temperature rise in heating, {option}", o), Steps: s.riseSteps(c)})
	}
	if h.Equipment.Kind != job.Furnace {
		out = append(out, study.Working{Key: at + ".coil_air_leaving", Name: of("Air leaving the coil, {option}", o), Steps: s.coilSteps(c)},
			study.Working{Key: at + ".supply_air", Name: of("Supply air in cooling, {option}", o), Steps: []study.Step{
				study.EquationStep("The blower's watts warm the air that it moves.", "sensible heat balance", c.SupplyAir,
					"t = t_coil + 3.4121416 × W / (60 × rho × cp × Q)", "t = t_coil + W / (rho × cp × Q)",
					append([]study.StepInput{study.Input("t_coil", "air leaving the coil", c.CoilAirLeaving), study.Input("W", "blower", c.BlowerPower), study.Input("Q", "airflow", c.Airflow)}, heatOf(h.CoolingAir)...)...)}})
	}
	if o.Kind != study.KindNoFilter && o.FaceArea > 0 {
		out = append(out,
			study.Working{Key: at + ".face_velocity", Name: of("Face velocity, {option}", o), Steps: []study.Step{velocityStep("Airflow over the nominal face.", c.FaceVelocity, study.Input("Q", "airflow", c.Airflow), study.Input("A", "face", o.FaceArea))}},
			study.Working{Key: at + ".filter_drop", Name: of("Filter drop, {option}", o), Steps: s.dropSteps(o, c)})
		if o.MediaArea > 0 {
			out = append(out, study.Working{Key: at + ".media_velocity", Name: of("Media velocity, {option}", o), Steps: []study.Step{
				velocityStep("Airflow over the media.", c.MediaVelocity, study.Input("Q", "airflow", c.Airflow), study.Input("A", "media area", o.MediaArea))}})
		}
	}
	return out
}

func velocityStep(text message.ID, v units.Speed, flow, area study.StepInput) study.Step {
	return study.EquationStep(text, "continuity", v, "v = 144 × Q / A", "v = 10 × Q / A", flow, area)
}

// heatOf are the properties of the air in a heat balance.
func heatOf(state air.State) []study.StepInput {
	const btuPerPound = 4186.8 // J/(kg K) in a Btu/(lb F)
	return []study.StepInput{study.Input("rho", "density", state.Density()),
		study.InputIn("cp", "specific heat", state.SpecificHeat()/btuPerPound, state.SpecificHeat()/1000, "Btu/(lb F)", "kJ/(kg K)")}
}

// riseSteps are the heat balance of the heater.
func (s *calculation) riseSteps(c *study.Condition) []study.Step {
	h := s.house
	z := h.Site.Altitude
	return []study.Step{
		step("Heating output at the site.", s.sourceOf("equipment.altitude_derate", "the job"), h.Delivered(),
			"H = H_plate × (1 - s × z / 1000)", "H = H_plate × (1 - s × z / 304.8)",
			study.Input("H_plate", "output on the nameplate", h.Equipment.HeatingOutput), study.InputNumber("s", "share lost, by altitude", h.Equipment.AltitudeDerate, ""),
			study.InputIn("z", "altitude", z.In(units.Foot), z.SI(), "ft", "m")),
		study.EquationStep("Sensible heat into the heating airflow; the blower's watts end as heat in it.", "sensible heat balance", c.TemperatureRise,
			"rise = (H + 3.4121416 × W) / (60 × rho × cp × Q)", "rise = (1000 × H + W) / (rho × cp × Q)",
			append([]study.StepInput{study.Input("H", "output", h.Delivered()), study.Input("W", "blower", c.HeatingPower), study.Input("Q", "heating airflow", c.HeatingAirflow)}, heatOf(h.HeatingAir)...)...),
	}
}

// coilSteps are the capacity of the coil and the air that leaves it.
func (s *calculation) coilSteps(c *study.Condition) []study.Step {
	h := s.house
	f := float64(c.Airflow) / h.CoolingAir.SpecificVolume() / (float64(h.CoolingCoil.Airflow) / h.CoolingCoil.Entering.SpecificVolume())
	f = min(max(f, thermal.LeastFlowFraction), thermal.MostFlowFraction)
	humid := c.TotalCapacity.SI() / (h.CoolingCoil.Capacity.SI() * (0.8 + 0.2*f))
	in := h.CoolingAir.Temperature
	bypass := 1.0
	if span := float64(in - c.ApparatusDewPt); span != 0 {
		bypass = float64(c.CoilAirLeaving-c.ApparatusDewPt) / span
	}
	return []study.Step{
		study.EquationStep("Total capacity at this airflow.", "default direct-expansion coil of an open building-energy reference, from memory", c.TotalCapacity,
			"C = C_rated × (0.8 + 0.2 × f) × k", "",
			study.Input("C_rated", "rated capacity", h.CoolingCoil.Capacity), study.InputNumber("f", "mass flow over the rated one", f, ""), study.InputNumber("k", "factor of the humidity of the air", humid, "")),
		study.EquationStep("Leaving air between entering air and the apparatus dew point.", "apparatus dew point and bypass factor, textbook", c.CoilAirLeaving,
			"t = t_adp + BF × (t_in - t_adp)", "",
			study.Input("t_adp", "apparatus dew point", c.ApparatusDewPt), study.InputNumber("BF", "share of the sensible heat that passes by", bypass, ""), study.Input("t_in", "return air", in)),
	}
}

// tableSteps read an airflow off a tap's table: along a straight line between two
// rows, as by hand, and then by the difference of the curve through all rows from
// it.
func tableSteps(curve blower.Curve, source message.ID, p units.Pressure, q units.Flow, ratio float64) []study.Step {
	line := curve.LinearAirflow(p)
	bend := step("The curve through all rows lies beside that line; here the blower gives just the static that the house asks.",
		message.New("{table}, monotone cubic between its rows, static in proportion to density", "table", source), q, "Q = q + d", "",
		study.Input("q", "straight line", line), study.Input("d", "curve beside it", q-line))
	a, b, ok := curve.Rows(p)
	if !ok {
		return []study.Step{bend}
	}
	return []study.Step{
		study.EquationStep("", source, line, "q = q1 + (q2 - q1) × (p - p1) / (p2 - p1)", "",
			study.Input("p", "static", p), study.Input("p1", "row", a.ExternalStatic), study.Input("q1", "", a.Airflow), study.Input("p2", "row", b.ExternalStatic), study.Input("q2", "", b.Airflow)).
			Describing("The airflow in the table at that static, in straight lines between its rows as a printed table is read by hand. The rows' statics are times the density ratio, {ratio}.", "ratio", message.Fixed(ratio, 4)),
		bend,
	}
}

func (s *calculation) pointSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	steps := append([]study.Step{s.sumStep("The drops at the blower's airflow.", c)},
		tableSteps(s.house.TapCurve(o.Tap, o.SpeedRatio), s.Blower.Source, c.ExternalStatic, c.Airflow, s.Air.DensityRatio)...)
	return steps
}

// heatingSteps are the steps to the airflow in heating.
func (s *calculation) heatingSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	h := s.house
	var steps []study.Step
	if h.HasCoil() {
		steps = append(steps, step("In heating the coil is dry.", s.sourceOf("equipment.coil_dry_share", "the job"),
			units.Pressure(h.Equipment.CoilDryShare)*h.Coil.Drop, "p_dry = k × p_wet", "",
			study.InputNumber("k", "dry over wet", h.Equipment.CoilDryShare, ""), study.Input("p_wet", "wet", h.Coil.Drop), study.Input("Q0", "at", h.Coil.Airflow)))
	}
	return append(steps, tableSteps(h.TapCurve(h.Equipment.Blower.HeatingTap, o.SpeedRatio), s.Blower.Source, c.HeatingStatic, c.HeatingAirflow, s.Air.DensityRatio)...)
}

// partStep is the law of a part: by its drop at one airflow, or, where it
// consists of many pieces, by their total drop at the design airflow.
func (s *calculation) partStep(p study.PartDrop, c *study.Condition) study.Step {
	known := map[airpath.PartName]job.Part{airpath.PartCoil: s.house.Coil, airpath.PartSupply: s.house.Supply, airpath.PartReturn: s.house.ReturnPart}
	part, from := known[p.Name], exponentSource(p.Name)
	if part.Drop == 0 || part.Airflow == 0 || p.Name == airpath.PartReturn && len(c.Branches) > 0 {
		share := float64(c.Airflow) / float64(s.DesignAirflow)
		part = job.Part{Drop: p.Drop / units.Pressure(share*share), Airflow: s.DesignAirflow, Exponent: 2}
		from = "{basis}; its pieces solved at this airflow, told as a drop at the design airflow"
	}
	return study.EquationStep("", "", p.Drop, "p = p0 × (Q / Q0)^n", "",
		study.Input("p0", "drop", part.Drop), study.Input("Q0", "at", part.Airflow), study.Input("Q", "airflow", c.Airflow), study.InputNumber("n", "", part.Exponent, "")).
		Describing("Drop of: {part}.", "part", p.Name).From(from, "basis", p.Basis)
}

// exponentSource is the source of a part that is known by its drop at one airflow.
func exponentSource(part airpath.PartName) message.ID {
	if part == airpath.PartCoil {
		return "{basis}; n of a wet coil, common practice, no source, or typed"
	}
	return "{basis}; n 2 of the reference system of the federal test of blowers, static = k Q^2, from memory, or typed"
}

func (s *calculation) sumSteps(c *study.Condition) []study.Step {
	var steps []study.Step
	for _, p := range c.Parts {
		steps = append(steps, s.partStep(p, c))
	}
	return append(steps, s.sumStep("Their sum.", c))
}

// sumStep adds up the drops of the parts to the external static.
func (s *calculation) sumStep(text message.ID, c *study.Condition) study.Step {
	equation := "p = "
	var inputs []study.StepInput
	for _, p := range c.Parts {
		if p.Internal {
			continue
		}
		symbol := fmt.Sprintf("p%d", len(inputs)+1)
		if len(inputs) > 0 {
			equation += " + "
		}
		equation += symbol
		inputs = append(inputs, study.Input(symbol, "", p.Drop).Named(p.Name))
	}
	return study.EquationStep(text, "continuity of pressure", c.ExternalStatic, equation, "", inputs...)
}

func (s *calculation) dropSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	var steps []study.Step
	clean, v := c.FilterDrop, c.FaceVelocity
	curve := o.FilterCurve
	at := slices.IndexFunc(curve, func(p study.FaceDrop) bool { return p.FaceVelocity >= v })
	source := cmp.Or(study.LawSources[o.LawSource], "the laws of its filters")
	if at > 0 {
		a, b := curve[at-1], curve[at]
		line := a.Drop + (b.Drop-a.Drop)*units.Pressure((v-a.FaceVelocity)/(b.FaceVelocity-a.FaceVelocity))
		steps = append(steps, study.EquationStep("The clean filter's curve in straight lines between two of its points.", source, line,
			"p = p1 + (p2 - p1) × (v - v1) / (v2 - v1)", "",
			study.Input("v", "face velocity", v), study.Input("v1", "point", a.FaceVelocity), study.Input("p1", "", a.Drop), study.Input("v2", "point", b.FaceVelocity), study.Input("p2", "", b.Drop)))
		clean = line
	}
	rest := message.ID("the curve beside the line")
	if c == &o.Loaded {
		rest = "its dust, and the curve beside the line"
	}
	steps = append(steps, study.EquationStep("The filter's drop at its face velocity.", source, c.FilterDrop, "p = p_line + p_rest", "",
		study.Input("p_line", "straight line", clean), study.Input("p_rest", rest, c.FilterDrop-clean)))
	if o.LawSource == filter.FromMake {
		k, steep := s.pleatTrust(o, c)
		steps = append(steps, steep...)
		steps = append(steps, study.EquationStep("How far the pleat model may lie from resolved flow; a real pack's media, folds and spacers differ by more. The low end; the high end is as far above.",
			"two-dimensional computations of six packs, see the tests", c.FilterDrop*units.Pressure(1-k), "p_low = p × (1 - k)", "",
			study.Input("p", "drop", c.FilterDrop), study.InputNumber("k", "agreement", k, "")).AsSpread())
		steps = append(steps, s.leftOutSteps(o, c)...)
	}
	return steps
}

func (s *calculation) workMedia(at string, o *study.OptionResult) study.Working {
	ratio := float64(o.MediaArea) / float64(o.FaceArea)
	return study.Working{Key: at + ".media_area", Name: of("Media area, {option}", o), Steps: []study.Step{
		study.EquationStep("Media for each unit of face, over the face.", "geometry of the pack, or as printed", o.MediaArea, "A = k × A_face", "",
			study.InputNumber("k", "media over face", ratio, ""), study.Input("A_face", "face", o.FaceArea))}}
}

func (s *calculation) workEfficiency(at string, o *study.OptionResult) study.Working {
	e := o.Efficiency
	source := message.ID("the filter's own curve")
	if e.Assumed {
		source = "typical curve of the rating, invented"
	}
	var steps []study.Step
	texts := []message.ID{"Mean efficiency of four sizes, 0.3 to 1 micrometres.", "Mean efficiency of four sizes, 1 to 3 micrometres.",
		"Mean efficiency of four sizes, 3 to 10 micrometres."}
	for k, mean := range []float64{e.E1, e.E2, e.E3} {
		var inputs []study.StepInput
		for i := range 4 {
			inputs = append(inputs, study.InputNumber(fmt.Sprintf("e%d", 4*k+i+1), "", 100*e.BySize[4*k+i], "%"))
		}
		symbols := []any{k + 1, inputs[0].Symbol, inputs[1].Symbol, inputs[2].Symbol, inputs[3].Symbol}
		steps = append(steps, study.EquationStep(texts[k], source, percent(mean, 0),
			fmt.Sprintf("E%d = (%s + %s + %s + %s) / 4", symbols...), "", inputs...))
	}
	steps = append(steps, study.NewStep("The highest row of the table whose least efficiencies are all met.", "table 12-1", "ASHRAE 52.2-2017, from secondary text", message.New("MERV {merv}", "merv", e.MERV),
		"E1 {e_one} %, E2 {e_two} %, E3 {e_three} %; installed with the leak: MERV {installed}", "e_one", message.Fixed(100*e.E1, 0), "e_two", message.Fixed(100*e.E2, 0), "e_three", message.Fixed(100*e.E3, 0), "installed", e.InstalledMERV))
	return study.Working{Key: at + ".efficiency.merv", Name: of("MERV, {option}", o), Steps: steps}
}

func (s *calculation) workLeak(at string, o *study.OptionResult) study.Working {
	gap := units.Flow(o.LeakFraction) * o.Clean.Airflow
	return study.Working{Key: at + ".leak_fraction", Name: of("Air that slips past, {option}", o), Steps: []study.Step{
		study.EquationStep("Flow of the gap under the filter's own drop, over the whole flow.",
			"gap flow by Baker, Sharples and Ward 1987: laminar slot with bends", percent(o.LeakFraction, 1), "leak = 100 × q / Q", "",
			study.Input("q", "through the gap", gap), study.Input("p", "under the filter's drop", o.Clean.FilterDrop), study.Input("Q", "airflow", o.Clean.Airflow))}}
}

func (s *calculation) workLife(at string, o *study.OptionResult) study.Working {
	h := s.house
	dust := units.Mass(0)
	if n := len(o.LifeCurve); n > 0 {
		dust = o.LifeCurve[n-1].Dust
	}
	w := study.Working{Key: at + ".life", Name: of("Filter life, {option}", o)}
	days := o.Life.In(units.Day)
	if dust <= 0 || days <= 0 || h.Site.DustRate <= 0 {
		w.Steps = []study.Step{study.EquationStep("", "engineering estimate", o.Life, "t = t_0", "", study.Input("t_0", "", o.Life)).
			Describing("Over its limit when clean: {end}.", "end", o.ReplacedBecause)}
		return w
	}
	perDay := h.Site.DustRate.SI() * float64(units.Day)
	caught := dust.SI() / (perDay * h.RunShare() * days)
	w.Steps = []study.Step{
		step("", s.sourceIn("site.dust", "the job; R(W) = R0 + r W^n, W dust per media area, engineering estimate",
			"assumed: {source}; R(W) = R0 + r W^n, W dust per media area, engineering estimate"), o.Life,
			"t = m / (g × s × c × 30.4375)", "",
			study.InputNumber("m", "dust then held", 1000*dust.SI(), "g"), study.InputNumber("g", "dust in the air while it moves", 1000*perDay, "g/day"),
			study.InputNumber("s", "share of the year running", h.RunShare(), ""), study.InputNumber("c", "share caught", caught, "")).
			Describing("The time in which that dust gathers. The filter is followed in small steps, with bow, leak and operating point solved anew at each, till: {end}.", "end", o.ReplacedBecause),
	}
	return w
}

func (s *calculation) workCost(at string, o *study.OptionResult) study.Working {
	w := study.Working{Key: at + ".annual_cost", Name: of("Cost a year, {option}", o), Steps: s.energySteps(o)}
	if !o.AnnualKnown {
		w.Steps = append(w.Steps, study.NewStep("Not known: a filter is over its change limit when clean, or nothing is left of the cooling.", "-", "arithmetic", message.ID("not known"), o.ReplacedBecause))
		return w
	}
	var inputs []study.StepInput
	equation := ""
	for k, p := range o.Places {
		n, price := fmt.Sprintf("n%d", k+1), fmt.Sprintf("a%d", k+1)
		if k > 0 {
			equation += " + "
		}
		equation += n + " × " + price
		inputs = append(inputs, study.InputNumber(n, "changes a year", p.PerYear, ""), study.Input(price, "price", p.Price))
	}
	if len(inputs) > 0 {
		w.Steps = append(w.Steps, study.EquationStep("Changes a year of each place, times the price of its filters.", "the filters' lives", o.AnnualFilter, "F = "+equation, "", inputs...))
	}
	w.Steps = append(w.Steps, study.EquationStep("Sum. Not counted: the life of coil and equipment, comfort, cleaner air.", "arithmetic", o.AnnualCost,
		"A = P + O + F", "", study.Input("P", "blower", o.AnnualPower), study.Input("O", "outdoor unit", o.AnnualOutdoor), study.Input("F", "filters", o.AnnualFilter)))
	return w
}

// wattsSource is where the watts of an option come from.
func (s *calculation) wattsSource(o *study.OptionResult) message.ID {
	if o.WattsAssumed {
		return study.UsualWatts
	}
	return s.Blower.Source
}

// energySteps are the power of blower and outdoor unit in a year, and its price.
func (s *calculation) energySteps(o *study.OptionResult) []study.Step {
	h := s.house
	price := study.Input("a", "price of power", h.Site.PowerPrice)
	hours := func(symbol string, what message.ID, t units.Duration) study.StepInput {
		return study.InputNumber(symbol, what, t.In(units.Hour), "h")
	}
	steps := []study.Step{}
	share, cools := money.CoolingTime(s.Study, o)
	if cools {
		steps = append(steps, study.EquationStep("Cooling hours for the same sensible cooling as today; heating hours do not change, as the output is fixed.",
			"heat balance; the blower's watts end as heat in the air it moves; an estimate", message.New("{hours} h", "hours", message.Fixed(o.CoolingHours.In(units.Hour), 0)),
			"h = h_today × N_today / N", "", hours("h_today", "today", h.Site.CoolingHours),
			study.InputNumber("N_today", "sensible capacity less blower, today", money.NetSensible(s.Today()), "W"), study.InputNumber("N", "with this option", money.NetSensible(s.Today())/share, "W")))
	}
	in, _ := money.AnnualInput(h, o, s.Today())
	steps = append(steps,
		study.EquationStep("Mean watts of the blower by season, times hours.", "arithmetic", o.AnnualEnergy, "E = (Wc × hc + Wh × hh + Wf × hf) / 1000", "",
			study.Input("Wc", "cooling", in.CoolingPower), hours("hc", "", in.Hours.Cooling), study.Input("Wh", "heating", in.HeatingPower), hours("hh", "", in.Hours.Heating),
			study.Input("Wf", "fan alone", in.FanPower), hours("hf", "", in.Hours.Fan)),
		step("Times the price of power.", s.sourceOf("site.power_price", "the job"), o.AnnualPower, "P = E × a", "", study.Input("E", "energy", o.AnnualEnergy), price))
	if cools && o.OutdoorEnergy > 0 {
		steps = append(steps, s.outdoorSteps(o, in.Hours.Cooling, price)...)
	}
	return steps
}

// outdoorSteps are the energy of the outdoor unit.
func (s *calculation) outdoorSteps(o *study.OptionResult, cooling units.Duration, price study.StepInput) []study.Step {
	h := s.house
	watts := money.OutdoorPower(h, o)
	mean := float64(watts) * h.Equipment.EER / h.Equipment.CoolingCapacity.In(units.Ton) / 12000
	return []study.Step{
		step("Watts of the outdoor unit: capacity over EER, times a factor of the airflow, its mean over the filter's life.",
			s.sourceIn("equipment.eer", "default curve of an open building-energy reference, from memory; EER: typed",
				"default curve of an open building-energy reference, from memory; EER: assumed: {source}"), watts,
			"W = 12000 × C / R × e", "W = 3412.1416 × C / R × e",
			study.Input("C", "capacity", h.Equipment.CoolingCapacity), study.InputNumber("R", "EER", h.Equipment.EER, "Btu/(W h)"),
			study.InputNumber("e", "mean of 1.1552 - 0.1808 f + 0.0256 f^2, f the airflow over the rated one by mass", mean, "")),
		study.EquationStep("Times the cooling hours.", "arithmetic", o.OutdoorEnergy, "E = W × h / 1000", "",
			study.Input("W", "outdoor unit", money.OutdoorPower(h, o)), study.InputNumber("h", "cooling", cooling.In(units.Hour), "h")),
		step("Times the price of power.", s.sourceOf("site.power_price", "the job"), o.AnnualOutdoor, "O = E × a", "", study.Input("E", "energy", o.OutdoorEnergy), price),
	}
}

// moneyWorkings are the cost of ten years and the pay-back.
func (s *calculation) moneyWorkings(at string, o *study.OptionResult) []study.Working {
	h := s.house
	rate := h.Site.DiscountRate
	if !o.TenYearKnown {
		return nil
	}
	worth := step("What a sum each year is worth today, over the years.", s.sourceOf("site.discount_rate", "the job"), message.Fixed(cost.PresentWorthFactor(rate, money.CostYears), 4),
		"F = (1 - (1 + i)^(-n)) / i", "", study.InputNumber("i", "discount rate", rate, ""), study.InputNumber("n", "", money.CostYears, "").InUnit("years"))
	if rate == 0 {
		worth = study.EquationStep("With no interest a sum each year is worth as much as it is often paid.", "arithmetic", message.Fixed(money.CostYears, 4), "F = n", "", study.InputNumber("n", "", money.CostYears, "").InUnit("years"))
	}
	out := []study.Working{{Key: at + ".ten_year_cost", Name: of("Ten years' cost, {option}", o), Steps: []study.Step{worth,
		study.EquationStep("The work, and ten years of power and filters at today's worth.", "arithmetic", o.TenYearCost, "T = U + F × A", "",
			study.Input("U", "the work", o.Upgrade), study.InputNumber("F", "", cost.PresentWorthFactor(rate, money.CostYears), ""), study.Input("A", "cost a year", o.AnnualCost))}}}
	if p := o.Payback; p.Known && p.Pays && p.Years > 0 {
		saved := s.Today().AnnualCost - o.AnnualCost
		equation := "n = -ln(1 - i × U / S) / ln(1 + i)"
		inputs := []study.StepInput{study.Input("U", "the work", o.Upgrade), study.Input("S", "saved a year", saved)}
		if rate == 0 {
			equation = "n = U / S"
		} else {
			inputs = append(inputs, study.InputNumber("i", "discount rate", rate, ""))
		}
		out = append(out, study.Working{Key: strings.Replace(at, "options", "payback", 1), Name: of("Pay-back, {option}", o), Steps: []study.Step{
			study.EquationStep("What is saved a year over today.", "arithmetic", saved, "S = A_today - A", "", study.Input("A_today", "today", s.Today().AnnualCost), study.Input("A", "with this option", o.AnnualCost)),
			study.EquationStep("The years till the savings, at today's worth, reach the price of the work.", "interest tables of any engineering economy textbook, from memory",
				message.New("{years} years", "years", message.Fixed(p.Years.In(units.Year), 1)), equation, "", inputs...)}})
	}
	return out
}

// ductWorkings are the steps to the duct sizes of each branch.
func (s *calculation) ductWorkings() []study.Working {
	var out []study.Working
	for i, d := range s.Ducts {
		for _, c := range []struct {
			key    string
			name   message.ID
			choice study.DuctChoice
		}{{"round", "Round duct, {branch}", d.Round}, {"flex", "Flex, {branch}", d.Flex}, {"rectangular", "Rectangular duct, {branch}", d.Rect}} {
			if c.choice.Found() {
				out = append(out, study.Working{Key: fmt.Sprintf("ducts[%d].%s", i, c.key), Name: message.New(c.name, "branch", d.Branch), Steps: s.ductSteps(d, c.choice)})
			}
		}
	}
	return out
}

// limits name the limit that decides the size of a duct.
var limits = map[string]message.ID{study.ByVelocity: "velocity", study.ByFriction: "friction"}

func (s *calculation) ductSteps(d study.DuctSize, c study.DuctChoice) []study.Step {
	h := s.house
	flow := study.Input("Q", "airflow", d.Airflow)
	across, wide := study.Input("D", "across", c.Diameter), study.Input("w", "width", c.Width)
	limit := study.Input("v_max", "limit", h.Limits.DuctVelocity)
	formula, formulaSI, inputs := "v = 183.34649 × Q / D^2", "v = 1273.2395 × Q / D^2", []study.StepInput{flow, across, limit}
	round := c.Diameter
	if c.Diameter == 0 {
		formula, formulaSI, inputs = "v = 144 × Q / (w × h)", "v = 1000 × Q / (w × h)", []study.StepInput{flow, wide, study.Input("h", "height", c.Height), limit}
		round = units.Length(c.Run.EquivalentDiameter())
	}
	velocity := step("Velocity in the smallest nominal size that keeps both limits.",
		s.sourceOf("limits.duct_velocity", "the job's limit"), c.Velocity, formula, formulaSI, inputs...)
	steps := []study.Step{velocity}
	correction := 1.0
	if c.Run.Shape == duct.Flex {
		factor, inside := c.Run.CompressionCorrection()
		correction = factor
		text := message.ID("Flex that is not fully stretched drops more.")
		if !inside {
			text = "Flex that is not fully stretched drops more. Outside the equation's range."
		}
		steps = append(steps, study.EquationStep(text, "ASHRAE Handbook Fundamentals 2021 ch. 21, eqs. 22 and 23", message.New("{factor} times", "factor", message.Fixed(factor, 2)),
			"k = 1 + 0.58 × K × exp(-0.125984 × D)", "k = 1 + 0.58 × K × exp(-0.00496 × D)", study.InputNumber("K", "shorter than stretched", 100*c.Compression, "%"), across))
	}
	// The velocity in the round duct of equal friction, for which f is given.
	area := math.Pi / 4 * float64(round) * float64(round)
	ve := units.Speed(float64(d.Airflow) / area)
	rho := h.Air.Density
	f := c.Friction.SI() * float64(round) / (correction * rho.SI() * float64(ve) * float64(ve) / 2)
	perHundred := 0.3048 * 0.3048 / 3600 / 2 * float64(units.PoundPerCubicFoot) / 0.0254 / float64(units.InchWaterPer100Feet)
	steps = append(steps, step("", s.sourceIn("limits.duct_friction", "the job's limit; f by Colebrook and White, De by Huebscher",
		"assumed: {source}; f by Colebrook and White, De by Huebscher"), c.Friction,
		"r = "+study.Factor(perHundred)+" × k × f × rho × v^2 / De", "r = 500 × k × f × rho × v^2 / De",
		study.InputNumber("k", "flex", correction, ""), study.InputNumber("f", "friction factor", f, ""), study.Input("rho", "density", rho), study.Input("v", "speed in the round duct of equal friction", ve), study.Input("De", "its diameter", round), study.Input("r_max", "limit", h.Limits.DuctFriction)).
		Describing("Friction of the straight duct; the limit that asks for the size is: {limit}.", "limit", limits[c.GoverningLimit]))
	return append(steps, study.EquationStep("Over the branch's straight length, and its fittings at this section.", "Darcy-Weisbach; loss coefficients of the fittings", c.Drop,
		"p = r × L / 100 + p_f", "p = r × L + p_f", study.Input("r", "friction", c.Friction), study.InputIn("L", "straight duct", straight(c).In(units.Foot), straight(c).SI(), "ft", "m"), study.Input("p_f", "fittings", c.FittingsDrop)))
}

// straight is the length of duct whose friction is calculated.
func straight(c study.DuctChoice) units.Length {
	if c.Friction <= 0 {
		return 0
	}
	return units.Length((c.Drop - c.FittingsDrop).SI() / c.Friction.SI())
}

// pleatTrust is how far the pleat model may be off, and a step for it where fast air in
// open pleats makes it more than usual.
func (s *calculation) pleatTrust(o *study.OptionResult, c *study.Condition) (k float64, steps []study.Step) {
	var pack filter.Pack
	if o.Pack != nil {
		pack = *o.Pack
	}
	k, head := pack.PleatTrust(c.FaceVelocity, c.FilterDrop, s.house.Air)
	if k == filter.LeastPleatTrust {
		return k, nil
	}
	return k, []study.Step{study.EquationStep("The pleat model is less sure of fast air in open pleats.", "two-dimensional computations of six packs, see the tests; an estimate",
		message.Fixed(k, 3), "k = 0.45 × q / p", "", study.Input("q", "velocity pressure in the mouths of the pleats", head), study.Input("p", "drop", c.FilterDrop)).AsSpread()}
}

// leftOutSteps estimate what the pleat model leaves out.
func (s *calculation) leftOutSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	if o.Pack == nil {
		return nil
	}
	out, err := o.Pack.LeftOut(c.FaceVelocity, s.house.Air)
	if err != nil {
		return nil
	}
	folds := units.Pressure(out.FoldShare) * out.MediaDrop
	k, _ := o.Pack.PleatTrust(c.FaceVelocity, c.FilterDrop, s.house.Air)
	low, high := c.FilterDrop*units.Pressure(1-k)+out.MouthsLow-folds, c.FilterDrop*units.Pressure(1+k)+out.MouthsHigh+folds
	trust := study.InputNumber("k", "agreement", k, "")
	return []study.Step{
		study.EquationStep("Not counted: media in the folds, which passes air where they are open, and what glue or a crease closes; either way.",
			"geometry of the pack; an estimate", folds, "p_fold = e × p_media", "",
			study.InputNumber("e", "share of the media in the folds", out.FoldShare, ""), study.Input("p_media", "the media's own drop", out.MediaDrop)).AsSpread(),
		study.EquationStep("Not counted: what the jets behind the pack give back as they mix. The low end.", "Borda-Carnot; K of a sharp edge by Idelchik, from memory; an estimate",
			low, "p_low = p × (1 - k) + m - p_fold", "",
			study.Input("p", "drop", c.FilterDrop), trust, study.Input("m", "mouths and jets", out.MouthsLow), study.Input("p_fold", "folds", folds)).AsSpread(),
		study.EquationStep("Not counted: contraction before the mouths. The high end.", "Borda-Carnot; K of a sharp edge by Idelchik, from memory; an estimate",
			high, "p_high = p × (1 + k) + m + p_fold", "",
			study.Input("p", "drop", c.FilterDrop), trust, study.Input("m", "mouths and jets", out.MouthsHigh), study.Input("p_fold", "folds", folds)).AsSpread(),
	}
}

// RangeWorkings are the steps from the samples of the options to their ranges.
func RangeWorkings(s *study.Study, ranges []compare.OptionRange) []study.Working {
	var out []study.Working
	for i := range ranges {
		r := &ranges[i]
		n := float64(r.Samples)
		if r.Samples < 2 {
			continue
		}
		place := func(share float64) float64 { return 1 + math.Round(share*(n-1)) }
		add := func(key string, name message.ID, low, high units.Quantity) {
			if low.SI() == 0 && high.SI() == 0 {
				return
			}
			w := study.Working{Key: fmt.Sprintf("ranges[%d].%s", i, key), Name: message.New(name, "option", study.OptionName(r.Name))}
			for _, end := range []struct {
				text   message.ID
				symbol string
				share  float64
				value  units.Quantity
			}{{"Which of the samples, from the smallest up, is the lower end: so that nine in ten lie between.", "low", (1 - compare.RangeShare) / 2, low},
				{"Which of the samples, from the smallest up, is the upper end: so that nine in ten lie between.", "high", (1 + compare.RangeShare) / 2, high}} {
				k := place(end.share)
				w.Steps = append(w.Steps,
					study.EquationStep(end.text, "order statistics; every input moved within how well it is known",
						message.Fixed(k, 0), "k = 1 + s × (n - 1)", "", study.InputNumber("s", "share below", end.share, ""), study.InputNumber("n", "samples", n, "")),
					study.EquationStep("That sample.", "the samples", end.value, end.symbol+" = x_k", "", study.Input("x_k", "", end.value).Named(message.New("number {number} of {samples}", "number", message.Fixed(k, 0), "samples", r.Samples))))
			}
			out = append(out, w)
		}
		add("airflow", "Airflow, {option}, range", r.Airflow.Low, r.Airflow.High)
		add("external_static", "External static, {option}, range", r.ExternalStatic.Low, r.ExternalStatic.High)
		add("blower_power", "Blower watts, {option}, range", r.BlowerPower.Low, r.BlowerPower.High)
		if r.Kind != study.KindNoFilter {
			add("life", "Filter life, {option}, range", r.Life.Low, r.Life.High)
			add("annual_cost", "Cost a year, {option}, range", r.AnnualCost.Low, r.AnnualCost.High)
			add("ten_year_cost", "Ten years' cost, {option}, range", r.TenYearCost.Low, r.TenYearCost.High)
		}
	}
	return out
}
