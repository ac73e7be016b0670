package calculations

import (
	"fmt"
	"math"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/money"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// calculation is a Study beside the house it was solved from.
type calculation struct {
	*study.Study
	house *house.House
	typed bool // the design airflow
}

func All(st *study.Study, h *house.House, typed bool) []study.Working {
	s := &calculation{Study: st, house: h, typed: typed}
	out := []study.Working{s.workDesign(), s.workFace(), s.workAir()}
	for i := range s.Options {
		out = append(out, s.optionWorkings(i)...)
	}
	return append(out, s.ductWorkings()...)
}

func (s *calculation) workDesign() study.Working {
	w := study.Working{Key: "design_airflow", Name: "Design airflow"}
	if s.typed {
		w.Steps = []study.Step{study.NewStep("The airflow as it was typed.", "Q", "the job", s.DesignAirflow, "%v of cooling: %v", s.house.Equipment.CoolingCapacity, s.AirflowPerCapacity)}
		return w
	}
	w.Steps = []study.Step{study.NewStep("Airflow per cooling capacity times the capacity.", "Q = (Q/capacity) x capacity", s.sourceOf("airflow_per_capacity", "the job"),
		s.DesignAirflow, "%v x %v", s.AirflowPerCapacity, s.house.Equipment.CoolingCapacity)}
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

func (s *calculation) workFace() study.Working {
	return study.Working{Key: "needed_face", Name: "Face area wanted", Steps: []study.Step{
		study.NewStep("The face through which the design airflow passes at the target face velocity.", "A = Q / v",
			s.sourceOf("target_face_velocity", "the job's target"), s.NeededFace, "%v / %v", s.DesignAirflow, s.TargetFaceVelocity),
	}}
}

func (s *calculation) workAir() study.Working {
	a := s.Air
	return study.Working{Key: "air.density", Name: "Air density", Steps: []study.Step{
		study.NewStep("Pressure at the altitude.", "p = 101325 (1 - 2.25577e-5 z)^5.25588 Pa, z in m", "ISO 2533", a.Pressure,
			"z = %v", a.Altitude),
		study.NewStep("Density of the moist return air.", "rho = (1 + W) / v(T, W, p)", "ASHRAE Handbook Fundamentals ch. 1", a.Density,
			"T = %v, p = %v, %.4f of the standard air of blower tables", a.Temperature, a.Pressure, a.DensityRatio),
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
	return append(out, s.workEfficiency(at, o), s.workLeak(at, o), s.workLife(at, o), s.workCost(at, o))
}

func (s *calculation) conditionWorkings(at string, o *study.OptionResult, c *study.Condition) []study.Working {
	h := s.house
	name := func(what string) string { return what + ", " + o.Name }
	out := []study.Working{
		{Key: at + ".airflow", Name: name("Airflow"), Steps: append(s.speedStep(o, c), s.pointSteps(o, c)...)},
		{Key: at + ".external_static", Name: name("External static"), Steps: s.sumSteps(c)},
		{Key: at + ".return_static", Name: name("Static at the blower inlet"), Steps: []study.Step{
			study.NewStep("Return and filter drops, as suction.", "p = -(return + filter)", "continuity of pressure", c.ReturnStatic, "filter %v", c.FilterDrop)}},
		{Key: at + ".blower_power", Name: name("Blower watts"), Steps: []study.Step{
			study.NewStep("The tap's watts at the external static.", "W = table(external static) x density ratio", s.Blower.Source+"; fan laws, P in proportion to density", c.BlowerPower,
				"table at %v, density ratio %.3f", c.ExternalStatic, s.Air.DensityRatio)}},
	}
	if !h.Equipment.NoHeating {
		out = append(out,
			study.Working{Key: at + ".heating_airflow", Name: name("Airflow in heating"), Steps: s.heatingSteps(c)},
			study.Working{Key: at + ".temperature_rise", Name: name("Temperature rise in heating"), Steps: []study.Step{
				study.NewStep("Heating output at the site.", "output (1 - share z / 1000 ft)", s.sourceOf("equipment.altitude_derate", "the job"), h.Delivered(),
					"%v (1 - %.3f x %.2f)", h.Equipment.HeatingOutput, h.Equipment.AltitudeDerate, h.Site.Altitude.In(1000*units.Foot)),
				study.NewStep("Sensible heat into the heating airflow; the blower's watts end as heat in it.", "rise = (output + watts) / (rho cp Q)", "sensible heat balance", c.TemperatureRise,
					"%v and %v into %v", h.Delivered(), c.HeatingPower, c.HeatingAirflow)}})
	}
	if h.Equipment.Kind != job.Furnace {
		out = append(out, study.Working{Key: at + ".coil_air_leaving", Name: name("Air leaving the coil"), Steps: []study.Step{
			study.NewStep("Total capacity at this airflow.", "Q = rated (0.8 + 0.2 f), f = airflow / rated airflow", "default direct-expansion coil of an open building-energy reference, from memory", c.TotalCapacity,
				"f at %v", c.Airflow),
			study.NewStep("Leaving air between entering air and the apparatus dew point.", "t = t_adp + BF (t_in - t_adp)", "apparatus dew point and bypass factor, textbook", c.CoilAirLeaving,
				"apparatus dew point %v", c.ApparatusDewPt),
		}}, study.Working{Key: at + ".supply_air", Name: name("Supply air in cooling"), Steps: []study.Step{
			study.NewStep("The blower's watts warm the air that it moves.", "t = t_coil + watts / (rho cp Q)", "sensible heat balance", c.SupplyAir,
				"%v, %v in %v", c.CoilAirLeaving, c.BlowerPower, c.Airflow)}})
	}
	if o.Kind != study.KindNoFilter && o.FaceArea > 0 {
		out = append(out,
			study.Working{Key: at + ".face_velocity", Name: name("Face velocity"), Steps: []study.Step{
				study.NewStep("Airflow over the nominal face.", "v = Q / A", "continuity", c.FaceVelocity, "%v / %v", c.Airflow, o.FaceArea)}},
			study.Working{Key: at + ".filter_drop", Name: name("Filter drop"), Steps: s.dropSteps(o, c)})
		if o.MediaArea > 0 {
			out = append(out, study.Working{Key: at + ".media_velocity", Name: name("Media velocity"), Steps: []study.Step{
				study.NewStep("Airflow over the media.", "v = Q / media area", "continuity", c.MediaVelocity, "%v / %v", c.Airflow, o.MediaArea)}})
		}
	}
	return out
}

func (s *calculation) pointSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	curve := s.house.Curves[o.Tap]
	return []study.Step{
		study.NewStep("The system's drop at the blower's airflow.", "external static = sum of the drops", "continuity of pressure", c.ExternalStatic, "at %v", c.Airflow),
		study.NewStep("The airflow at which the blower gives just that static: a bracketed root on the tap's curve.",
			"table(external static) = Q", s.Blower.Source+", monotone cubic between its rows, static in proportion to density", c.Airflow,
			"the two differ by %s of the static, density ratio %.3f", closeness(c.Residual), s.Air.DensityRatio),
		study.NewSpread("The same static read in straight lines between the rows, as a printed table is read by hand; the ranges hold both readings.",
			"q = q1 + (q2 - q1) (p - p1) / (p2 - p1)", s.Blower.Source, curve.LinearAirflow(c.ExternalStatic), "%v apart at %v", curve.ReadingSpread(c.ExternalStatic), c.ExternalStatic),
	}
}

// heatingSteps find the airflow that the furnace heats.
func (s *calculation) heatingSteps(c *study.Condition) []study.Step {
	h := s.house
	var steps []study.Step
	if h.HasCoil() {
		steps = append(steps, study.NewStep("In heating the coil is dry.", "dp = dry share x dp wet", s.sourceOf("equipment.coil_dry_share", "the job"),
			fmt.Sprintf("%.2f of its drop wet", h.Equipment.CoilDryShare), "%v wet at %v", h.Coil.Drop, h.Coil.Airflow))
	}
	return append(steps, study.NewStep("The point at which the heating tap gives the static that the house then asks.", "table(external static) = Q",
		s.Blower.Source, c.HeatingAirflow, "external static %v", c.HeatingStatic))
}

// partStep tells the law of a part known by its drop at one airflow.
func (s *calculation) partStep(p study.PartDrop, c *study.Condition) (study.Step, bool) {
	known := map[string]job.Part{"coil": s.house.Coil, "supply": s.house.Supply, "return": s.house.ReturnPart}
	part := known[p.Name]
	if part.Drop == 0 || p.Name == "return" && len(c.Branches) > 0 {
		return study.Step{}, false
	}
	return study.NewStep("Drop of: "+p.Name+".", "dp = dp0 (Q/Q0)^n", p.Basis+"; n "+exponentSource(p.Name), p.Drop,
		"%v x (%v / %v)^%.2f, %.0f %% of the rated static", part.Drop, c.Airflow, part.Airflow, part.Exponent, 100*p.Share), true
}

func exponentSource(part string) string {
	if part == "coil" {
		return "of a wet coil, common practice, no source, or typed"
	}
	return "2 of the reference system of the federal test of blowers, static = k Q^2, from memory, or typed"
}

func (s *calculation) sumSteps(c *study.Condition) []study.Step {
	var steps []study.Step
	for _, p := range c.Parts {
		if step, ok := s.partStep(p, c); ok {
			steps = append(steps, step)
			continue
		}
		steps = append(steps, study.NewStep("Drop of: "+p.Name+".", "part's law at the airflow", p.Basis, p.Drop, "at %v, %.0f %% of the rated static", c.Airflow, 100*p.Share))
	}
	return append(steps, study.NewStep("Their sum.", "external static = sum of the drops", "continuity of pressure", c.ExternalStatic, "%d parts", len(c.Parts)))
}

func (s *calculation) dropSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	text := "The clean filter's law at the face velocity."
	if c == &o.Loaded {
		text = "The filter's law with its dust, at the face velocity."
	}
	var steps []study.Step
	if o.Pleats > 0 {
		steps = append(steps, study.NewStep("Pleats in the width of the face.", "count x pitch = width", "the filter's make", fmt.Sprint(o.Pleats), "media area %v", o.MediaArea))
	}
	steps = append(steps, study.NewStep(text, "dp = law(v)", study.LawSources[o.LawSource], c.FilterDrop, "v = %v", c.FaceVelocity))
	if o.LawSource == filter.FromMake {
		spread := units.Pressure(filter.PleatTrust) * c.FilterDrop
		steps = append(steps, study.NewSpread("The pleat model agrees with resolved flow to 5 %; a real pack's media, folds and spacers differ by more.",
			"dp (1 - 0.05) to dp (1 + 0.05)", "two-dimensional computations of five packs, see the tests", c.FilterDrop-spread, "to %v", c.FilterDrop+spread))
		steps = append(steps, s.leftOutSteps(o, c)...)
	}
	return steps
}

func (s *calculation) workMedia(at string, o *study.OptionResult) study.Working {
	return study.Working{Key: at + ".media_area", Name: "Media area, " + o.Name, Steps: []study.Step{
		study.NewStep("Two walls a pleat.", "area = 2 x pleats x slant x pleat length", "geometry of the pack, or as printed", o.MediaArea,
			"%d pleats, face %v", o.Pleats, o.FaceArea)}}
}

func (s *calculation) workEfficiency(at string, o *study.OptionResult) study.Working {
	e := o.Efficiency
	source := "the filter's own curve"
	if e.Assumed {
		source = "typical curve of the rating, invented"
	}
	return study.Working{Key: at + ".efficiency.merv", Name: "MERV, " + o.Name, Steps: []study.Step{
		study.NewStep("Mean efficiency of each range of four sizes.", "E1 0.3-1, E2 1-3, E3 3-10 micrometres", source,
			fmt.Sprintf("E1 %.0f %%, E2 %.0f %%, E3 %.0f %%", 100*e.E1, 100*e.E2, 100*e.E3), "twelve sizes"),
		study.NewStep("The highest row whose least efficiencies are all met.", "table 12-1", "ASHRAE 52.2-2017, from secondary text", fmt.Sprintf("MERV %d", e.MERV),
			"installed with the leak: MERV %d", e.InstalledMERV),
	}}
}

func (s *calculation) workLeak(at string, o *study.OptionResult) study.Working {
	return study.Working{Key: at + ".leak_fraction", Name: "Air that slips past, " + o.Name, Steps: []study.Step{
		study.NewStep("Flow of the gap under the filter's own drop, over the whole flow.",
			"dp = 12 mu z Q/(W d^3) + rho (1.5 + n) Q^2/(2 d^2 W^2)", "Baker, Sharples and Ward 1987", fmt.Sprintf("%.1f %%", 100*o.LeakFraction),
			"at %v", o.Clean.FilterDrop)}}
}

func (s *calculation) workLife(at string, o *study.OptionResult) study.Working {
	h := s.house
	n := len(o.LifeCurve)
	dust := units.Mass(0)
	if n > 0 {
		dust = o.LifeCurve[n-1].Dust
	}
	return study.Working{Key: at + ".life", Name: "Filter life, " + o.Name, Steps: []study.Step{
		study.NewStep("Dust that the filter holds by then.", "rate x share of the year running x share caught x time", s.sourceOf("site.dust", "the job"), dust,
			"%v for %.0f %% of the year", h.Site.DustRate, 100*h.RunShare()),
		study.NewStep("Marched with bow, leak and operating point solved anew at every step: "+o.LifeEnds+".", "R(W) = R0 + r W^n, W dust per media area", "engineering estimate", o.Life,
			"drop then %v, airflow %v", o.Loaded.FilterDrop, o.Loaded.Airflow),
	}}
}

func (s *calculation) workCost(at string, o *study.OptionResult) study.Working {
	h := s.house
	steps := []study.Step{
		study.NewStep("Mean watts of the blower by season, times hours, times the price of power.", "sum(W x h) x price", s.sourceOf("site.power_price", "the job"), o.AnnualPower,
			"%v a year at %v", o.AnnualEnergy, h.Site.PowerPrice),
	}
	if share, known := money.CoolingTime(s.Study, o); known {
		hours := h.Site.CoolingHours.In(units.Hour)
		steps = append(steps,
			study.NewStep("Cooling hours for the same sensible cooling as today; heating hours do not change, as the output is fixed.",
				"h = h today x (sensible capacity - blower watts) today / the same with the option", "heat balance; the blower's watts end as heat in the air it moves; an estimate",
				fmt.Sprintf("%.0f h", share*hours), "%.0f h x %.3f", hours, share),
			study.NewStep("Energy of the outdoor unit in those hours, times the price of power.", "capacity / EER x (1.1552 - 0.1808 f + 0.0256 f^2), f = air / rated air, by mass",
				"default curve of an open building-energy reference, from memory; EER: "+s.sourceOf("equipment.eer", "typed"), o.AnnualOutdoor, "%v a year, EER %.1f", o.OutdoorEnergy, h.Equipment.EER))
	}
	filters := study.NewStep("Filters a year, each place's own, times their price.", "filters/year x price", "the filters' lives", o.AnnualFilter, "%.1f filters a year", o.FiltersPerYear)
	if !o.AnnualKnown {
		return study.Working{Key: at + ".annual_cost", Name: "Cost a year, " + o.Name, Steps: append(steps, filters,
			study.NewStep("Not known: a filter is over its change limit when clean, or nothing is left of the cooling.", "-", "arithmetic", "not known", "%s", o.LifeEnds))}
	}
	steps = append(steps, filters,
		study.NewStep("Sum. Not counted: the life of coil and equipment, comfort, cleaner air.", "blower + outdoor unit + filters", "arithmetic",
			o.AnnualCost, "%v + %v + %v", o.AnnualPower, o.AnnualOutdoor, o.AnnualFilter))
	return study.Working{Key: at + ".annual_cost", Name: "Cost a year, " + o.Name, Steps: steps}
}

// closeness says how small a residual is; the last digits of a converged one
// differ from processor to processor and mean nothing.
func closeness(residual float64) string {
	if r := math.Abs(residual); r >= 1e-9 {
		return fmt.Sprintf("%.1e", r)
	}
	return "less than 1e-9"
}

// ductWorkings tells for each branch how its duct sizes follow.
func (s *calculation) ductWorkings() []study.Working {
	var out []study.Working
	for i, d := range s.Ducts {
		for _, c := range []struct {
			key, name string
			choice    study.DuctChoice
		}{{"round", "Round duct", d.Round}, {"flex", "Flex", d.Flex}, {"rectangular", "Rectangular duct", d.Rect}} {
			if c.choice.Found() {
				out = append(out, study.Working{Key: fmt.Sprintf("ducts[%d].%s", i, c.key), Name: c.name + ", " + d.Branch, Steps: s.ductSteps(d, c.choice)})
			}
		}
	}
	return out
}

func (s *calculation) ductSteps(d study.DuctSize, c study.DuctChoice) []study.Step {
	h := s.house
	size, format := []any{c.Diameter}, "%v across"
	if c.Diameter == 0 {
		size, format = []any{c.Width, c.Height}, "%v by %v"
	}
	steps := []study.Step{
		study.NewStep("Velocity in the smallest nominal size that keeps both limits.", "v = Q / A", s.sourceOf("limits.duct_velocity", "the job's limit"), c.Velocity,
			"%v in "+format+", limit %v", append(append([]any{d.Airflow}, size...), h.Limits.DuctVelocity)...),
		study.NewStep("Friction of the straight duct; the limit that asks for the size is: "+c.Bound+".", "dp/L = f/De rho Ve^2/2, f by Colebrook-White, De by Huebscher",
			s.sourceOf("limits.duct_friction", "the job's limit"), c.Friction, "limit %v", h.Limits.DuctFriction),
	}
	if c.Run.Shape == duct.Flex {
		factor, inside := c.Run.CompressionCorrection()
		note := ""
		if !inside {
			note = ", outside the equation's range"
		}
		steps = append(steps, study.NewStep("Flex that lies shorter than stretched takes more; the friction above holds it.", "1 + 0.58 K exp(-0.00496 D), D in mm",
			"ASHRAE Handbook Fundamentals 2021 ch. 21, eqs. 22 and 23", fmt.Sprintf("%.2f times", factor), "%.0f %% shorter"+note, 100*c.Compression))
	}
	return append(steps, study.NewStep("Over the branch's straight length, and its fittings at this section.", "dp = dp/L x L + sum(zeta) rho v^2/2",
		"Darcy-Weisbach; loss coefficients of the fittings", c.Drop, "%v of straight duct, today %v", d.Length, d.NowDrop))
}

// leftOutSteps size what the pleat model does not count.
func (s *calculation) leftOutSteps(o *study.OptionResult, c *study.Condition) []study.Step {
	if o.Pack == nil {
		return nil
	}
	out, err := o.Pack.LeftOut(c.FaceVelocity, s.house.Air)
	if err != nil {
		return nil
	}
	folds := units.Pressure(out.FoldShare) * out.MediaDrop
	return []study.Step{
		study.NewSpread("Not counted: contraction before the mouths, less what the jets behind the pack give back as they mix.",
			"rho V^2/2 (1/s^2 - 1 + K/s^2) - rho V^2 (beta/s - 1)", "Borda-Carnot; K of a sharp edge by Idelchik, from memory; an estimate", out.MouthsLow, "to %v", out.MouthsHigh),
		study.NewSpread("Not counted: media in the folds, which passes air where they are open, and what glue or a crease closes.",
			"+- (e + t)/slant of the media's own drop", "geometry of the pack; an estimate", folds, "%.0f %% of %v, either way", 100*out.FoldShare, out.MediaDrop),
		study.NewSpread("So the drop lies between, all taken together at their worst.", "sum of the low ends to sum of the high ends", "the steps above",
			c.FilterDrop*(1-filter.PleatTrust)+out.MouthsLow-folds, "to %v", c.FilterDrop*(1+filter.PleatTrust)+out.MouthsHigh+folds),
	}
}
