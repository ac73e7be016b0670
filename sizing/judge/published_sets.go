package judge

import (
	"cmp"
	"math"
	"slices"

	"returnbench/sizing/duct"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Clauses of the sets of published limits. The figures of the energy code are
// from secondary text and from memory except the fan efficacy; each finding
// asks to check the official text.
const (
	title24           message.ID = "California Energy Code, Title 24 part 6, 150.0(m), from secondary text; check the official text"
	Title24Tables     message.ID = "California Energy Code, Title 24 part 6, tables 150.0-B and C, an alternative to measured airflow and watts, from secondary text; check the official text"
	title24Conditions message.ID = "California Energy Code, Title 24 part 6, conditions of tables 150.0-B and C, from memory; check the official text"
	title24Efficacy   message.ID = "California Energy Code 2019, Residential Compliance Manual 4.1.2"
	ashrae622         message.ID = "ASHRAE 62.2 (about 2016), from secondary text; check the official text"
	ifgc618           message.ID = "International Fuel Gas Code 618, from memory (Chicago code alike); check the official text"
)

const (
	title24LowAir    = 300 * units.CFMPerTon
	Title24Thin      = 150 * units.FPM  // face area of a 1 in filter at least airflow / 150
	Title24Deep      = 1.9 * units.Inch // nominal 2 in and deeper is sized by the designer
	title24CleanDrop = 0.1 * units.InchWater
	title24MERV      = 13
	efficacyFurnace  = 0.45 * units.WattPerCFM
	efficacyOther    = 0.58 * units.WattPerCFM
	ashrae622MERV    = 6
	returnPerHeat    = 2.0 // in2 per 1000 Btu/h of output
	returnPerPump    = 6.0 // the same for a heat pump
)

// publishedSets checks one option against the sets that the job names. They are never a
// permit.
type publishedSets struct {
	h      *house.House
	o      *study.OptionResult
	misses bool // the findings are what a size of the search misses
	out    []study.Finding
}

// checkTexts are the messages of a check: passed and failed are sentences, and missed
// is failed in a list of misses, empty where the check is not for sizes of the
// search.
type checkTexts struct{ passed, failed, missed message.ID }

// check adds the finding that a check passed or failed.
func (l *publishedSets) check(ok bool, code string, source message.ID, t checkTexts, args ...any) {
	f := study.NewFinding(study.Good, code, source, t.passed, args...)
	switch {
	case !ok && l.misses:
		f = study.NewFinding(study.Caution, code, source, t.missed, args...)
	case !ok:
		f = study.NewFinding(study.Caution, code, source, t.failed, args...)
	}
	f.BothWays = true
	l.out = append(l.out, f)
}

func checkSets(h *house.House, o *study.OptionResult) []study.Finding {
	l := &publishedSets{h: h, o: o}
	for _, set := range h.Limits.Checks {
		switch set {
		case job.Title24:
			l.title24()
		case job.ASHRAE622:
			l.ashrae622(filterFacts(o))
		case job.IFGC:
			l.ifgc(o.Returns)
		}
	}
	return l.out
}

// FilterFacts are the figures of filters that the sets limit.
type FilterFacts struct {
	Merv   int
	Depth  units.Length   // zero: there is none
	Face   units.Area     // of all places
	Drop   units.Pressure // clean, at the design airflow
	AtWall bool           // behind return grilles
}

func filterFacts(o *study.OptionResult) FilterFacts {
	return FilterFacts{Merv: o.Efficiency.MERV, Depth: o.FilterDepth, Face: o.FaceArea, Drop: o.DesignDrop,
		AtWall: slices.ContainsFunc(o.Places, func(p study.FilterPlace) bool { return p.Where == job.InGrille })}
}

// FilterSets compares the filters of a size of the search with what the chosen
// sets require of filters, and grilles without duct behind them with what the
// fuel gas code requires of a return.
func FilterSets(h *house.House, f FilterFacts, returns []job.Return) []study.Finding {
	l := &publishedSets{h: h, misses: true}
	for _, set := range h.Limits.Checks {
		switch set {
		case job.Title24:
			l.title24Filter(f)
		case job.ASHRAE622:
			l.ashrae622(f)
		case job.IFGC:
			if slices.ContainsFunc(returns, func(r job.Return) bool { return len(r.Runs) == 0 }) {
				l.ifgc(returns)
			}
		}
	}
	return slices.DeleteFunc(l.out, func(f study.Finding) bool { return f.Severity == study.Good })
}

// LeastMERV is the lowest MERV that the job's limit and the chosen sets allow.
func LeastMERV(h *house.House) int {
	least := h.Limits.MinMERV
	for _, set := range h.Limits.Checks {
		switch set {
		case job.Title24:
			least = max(least, title24MERV)
		case job.ASHRAE622:
			least = max(least, ashrae622MERV)
		}
	}
	return least
}

var finerThan = checkTexts{
	"MERV {merv} meets the minimum of MERV {least}.",
	"MERV {merv} is under the minimum of MERV {least}. Choose a finer filter.",
	"MERV {merv} is under the minimum of MERV {least}. Choose a finer filter",
}

func (l *publishedSets) ashrae622(f FilterFacts) {
	l.check(f.Merv >= ashrae622MERV, "ashrae622_merv", ashrae622,
		finerThan, "merv", f.Merv, "least", ashrae622MERV)
}

// title24Filter checks the energy code's requirements for filters.
func (l *publishedSets) title24Filter(f FilterFacts) {
	l.title24MERV(f)
	l.title24Thin(f)
	l.title24Grilles(f)
}

func (l *publishedSets) title24MERV(f FilterFacts) {
	l.check(f.Merv >= title24MERV, "title24_merv", title24,
		finerThan, "merv", f.Merv, "least", title24MERV)
}

func (l *publishedSets) title24() {
	f := filterFacts(l.o)
	l.title24MERV(f)
	l.title24Thin(f)
	l.title24Airflow(f)
}

// title24Airflow checks the two ways to show that the return is large enough:
// airflow and watts, and the tables of returns. One of them is enough.
func (l *publishedSets) title24Airflow(f FilterFacts) {
	measured := l.findingsOf(l.title24Measured)
	var tables []study.Finding
	if l.h.Equipment.Kind != job.Furnace {
		tables = l.findingsOf(func() { l.title24Grilles(f); l.title24Ducts() })
	}
	bad := func(f study.Finding) bool { return f.Severity != study.Good }
	kept := func(list []study.Finding, codes ...string) bool {
		return !slices.ContainsFunc(list, bad) && !slices.ContainsFunc(codes, func(code string) bool {
			return !slices.ContainsFunc(list, func(f study.Finding) bool { return f.Code == code })
		})
	}
	switch {
	case kept(measured, "title24_efficacy", "title24_airflow") && slices.ContainsFunc(tables, bad):
		tables = append(slices.DeleteFunc(tables, bad), study.NewFinding(study.Good, "title24_measured", title24,
			"Airflow and watts are within their limits, so the tables of returns need not be met. Have both measured."))
	case kept(tables, "title24_grilles", "title24_ducts") && slices.ContainsFunc(measured, bad):
		measured = append(slices.DeleteFunc(measured, bad), study.NewFinding(study.Good, "title24_tables", Title24Tables,
			"The tables of returns are met, so airflow and watts need not be measured."))
	}
	l.out = slices.Concat(l.out, measured, tables)
}

// findingsOf gives the findings of a check without adding them.
func (l *publishedSets) findingsOf(check func()) []study.Finding {
	before := l.out
	l.out = nil
	check()
	found := l.out
	l.out = before
	return found
}

// title24Measured compares airflow and watts with their limits. An invented blower
// table passes neither.
func (l *publishedSets) title24Measured() {
	h, o := l.h, l.o
	limit := efficacyOther
	if h.IsFurnace() {
		limit = efficacyFurnace
	}
	if h.Assumes("equipment.blower.taps") {
		l.out = append(l.out, study.NewFinding(study.Caution, "title24_unmeasured", title24Efficacy,
			"Airflow and fan efficacy are not known, since the blower's table is a generic one. Type the blower's own table, or measure both; at most {limit} is allowed.", "limit", limit))
		return
	}
	switch {
	case o.WattsAssumed:
		l.out = append(l.out, study.NewFinding(study.Caution, "title24_unmeasured", title24Efficacy,
			"Fan efficacy is not known, since the blower's table gives no watts. Measure them; at most {limit} is allowed.", "limit", limit))
	case o.Clean.BlowerPower > 0:
		l.check(o.Clean.FanEfficacy <= limit, "title24_efficacy", title24Efficacy,
			checkTexts{passed: "Fan efficacy {efficacy} is within the limit of {limit}.",
				failed: "Fan efficacy {efficacy} is over the limit of {limit}."}, "efficacy", o.Clean.FanEfficacy, "limit", limit)
	}
	if h.Equipment.Kind != job.Furnace {
		l.check(o.Clean.AirflowPerCapacity >= title24LowAir, "title24_airflow", title24,
			checkTexts{passed: "Airflow of {airflow} meets the minimum for alterations, {least}.",
				failed: "Airflow of {airflow} is under the minimum for alterations, {least}. Raise the airflow."}, "airflow", o.Clean.AirflowPerCapacity, "least", title24LowAir)
	}
}

// title24Thin is the rule for a filter 1 in deep: enough face, and a low clean
// drop at the design airflow. A filter 2 in deep or more is sized by the designer.
func (l *publishedSets) title24Thin(f FilterFacts) {
	if f.Face == 0 || f.Depth == 0 || f.Depth >= Title24Deep {
		return
	}
	need := units.Area(float64(l.h.DesignAirflow) / float64(Title24Thin))
	l.check(!study.Under(f.Face, need), "title24_face", title24,
		checkTexts{passed: "The face of {face} meets the {least} asked of a filter 1 in (25 mm) deep.",
			failed: "The face of {face} is under the {least} asked of a filter 1 in (25 mm) deep.",
			missed: "the face of {face} is under the {least} asked of a filter 1 in (25 mm) deep"}, "face", f.Face, "least", need)
	l.check(f.Drop <= title24CleanDrop, "title24_drop", title24,
		checkTexts{passed: "The clean drop at the design airflow, {drop}, is within the limit of {limit}.",
			failed: "The clean drop at the design airflow, {drop}, is over the limit of {limit}.",
			missed: "the clean drop at the design airflow, {drop}, is over the limit of {limit}"}, "drop", f.Drop, "limit", title24CleanDrop)
}

// ReturnTable is the code's alternative to a measurement, by tons of cooling
// (tables 150.0-B and C of California's energy code, from secondary text): the
// diameter, in, of a single return duct (zero: the table has none so large) or
// of two, and the total gross area of the filter grilles, in2.
var ReturnTable = []struct {
	Tons, one float64
	two       [2]float64
	Gross     float64
}{
	{1.5, 16, [2]float64{12, 10}, 500},
	{2, 18, [2]float64{14, 12}, 600},
	{2.5, 20, [2]float64{14, 14}, 800},
	{3, 0, [2]float64{16, 14}, 900},
	{3.5, 0, [2]float64{16, 16}, 1000},
	{4, 0, [2]float64{18, 18}, 1200},
	{5, 0, [2]float64{20, 20}, 1500},
}

// Conditions for the use of the table, from memory.
const (
	tableRun   = 30 * units.Foot
	tableBends = 180.0 // degrees, together
	tableDrop  = 12.5 * units.Pascal
)

// tableRow is the row for a cooling capacity, -1 above the table's end;
// capacities between its rows take the next larger row.
func tableRow(c units.Capacity) int {
	for i, row := range ReturnTable {
		if c.In(units.Ton) <= row.Tons+1e-9 {
			return i
		}
	}
	return -1
}

// TableGross is the gross filter-grille area that ReturnTable requires for a
// cooling capacity; capacities between rows take the next larger row, and above
// its end the result is false.
func TableGross(c units.Capacity) (units.Area, bool) {
	i := tableRow(c)
	if i < 0 {
		return 0, false
	}
	return units.Area(ReturnTable[i].Gross) * units.SquareInch, true
}

// title24Ducts compares one or two described return ducts with the diameters of the
// table; a rectangular duct counts as the round one of equal friction. The table
// has no row for three returns or more, or for branches without duct.
func (l *publishedSets) title24Ducts() {
	row := tableRow(l.h.Equipment.CoolingCapacity)
	returns := l.o.Returns
	if row < 0 || len(returns) == 0 || len(returns) > 2 {
		return
	}
	var have []units.Length
	for _, r := range returns {
		if len(r.Runs) == 0 {
			return
		}
		tightest := r.Runs[0].EquivalentDiameter()
		for _, run := range r.Runs {
			tightest = min(tightest, run.EquivalentDiameter())
		}
		have = append(have, tightest)
	}
	slices.SortFunc(have, func(a, b units.Length) int { return cmp.Compare(b, a) })
	required := ReturnTable[row]
	first, second := units.Length(required.two[0])*units.Inch, units.Length(required.two[1])*units.Inch
	const near = 1.001
	switch {
	case len(have) == 2:
		l.check(have[0]*near >= first && have[1]*near >= second, "title24_ducts", Title24Tables,
			checkTexts{passed: "Return ducts of {a} and {b} meet the {first} and {second} of the table.",
				failed: "Return ducts of {a} and {b} are under the {first} and {second} of the table."}, "a", have[0], "b", have[1], "first", first, "second", second)
	case required.one == 0:
		l.check(false, "title24_ducts", Title24Tables, checkTexts{failed: "One return duct of {diameter}: for {capacity} the table asks for two, of {first} and {second}."},
			"diameter", have[0], "capacity", l.h.Equipment.CoolingCapacity, "first", first, "second", second)
	default:
		one := units.Length(required.one) * units.Inch
		l.check(have[0]*near >= one, "title24_ducts", Title24Tables,
			checkTexts{passed: "The return duct of {diameter} meets the {least} of the table.",
				failed: "The return duct of {diameter} is under the {least} of the table."}, "diameter", have[0], "least", one)
	}
	l.title24Conditions(returns)
}

// title24Conditions checks the conditions for the use of the table: short runs,
// few bends, a filter of low drop.
func (l *publishedSets) title24Conditions(returns []job.Return) {
	longest, bends := units.Length(0), 0.0
	for _, r := range returns {
		length := units.Length(0)
		for _, run := range r.Runs {
			length += run.Length
		}
		longest, bends = max(longest, length), math.Max(bends, turned(r.Fittings))
	}
	l.check(!study.Exceeds(longest, tableRun), "title24_run", title24Conditions,
		checkTexts{passed: "The longest return run, {length}, is within the {limit} the table allows.",
			failed: "The longest return run, {length}, is over the {limit} the table allows."}, "length", longest, "limit", tableRun)
	l.check(bends <= tableBends, "title24_bends", title24Conditions,
		checkTexts{passed: "Bends of {angle} degrees together are within the {limit} the table allows.",
			failed: "Bends of {angle} degrees together are over the {limit} the table allows."}, "angle", message.Fixed(bends, 0), "limit", message.Fixed(tableBends, 0))
	if l.o.FaceArea == 0 {
		return
	}
	if drop := l.o.DesignDrop; drop > 0 {
		l.check(drop <= tableDrop, "title24_table_drop", title24Conditions,
			checkTexts{passed: "The clean drop at the design airflow, {drop}, is within the {limit} the table allows.",
				failed: "The clean drop at the design airflow, {drop}, is over the {limit} the table allows."}, "drop", drop, "limit", tableDrop)
	}
}

// turned is how far the elbows of a branch turn the air, in degrees.
func turned(fittings []duct.Fitting) float64 {
	sum := 0.0
	for _, f := range fittings {
		if f.Group() == duct.Elbows {
			angle := f.Angle
			if angle == 0 {
				angle = 90
			}
			sum += angle * float64(f.Number())
		}
	}
	return sum
}

func (l *publishedSets) title24Grilles(f FilterFacts) {
	need, ok := TableGross(l.h.Equipment.CoolingCapacity)
	if !ok || !f.AtWall {
		return
	}
	l.check(!study.Under(f.Face, need), "title24_grilles", Title24Tables,
		checkTexts{passed: "Filter grilles of {face} meet the {least} of the table.",
			failed: "Filter grilles of {face} are under the {least} of the table.",
			missed: "filter grilles of {face} are under the {least} of the table"}, "face", f.Face, "least", need)
}

// ifgc requires a return area in proportion to the heating output, where the
// house's branches are described.
func (l *publishedSets) ifgc(returns []job.Return) {
	h := l.h
	have := units.Area(0)
	for _, r := range returns {
		have += narrowest(r)
	}
	if have == 0 || h.Equipment.NoHeating {
		return
	}
	per := returnPerHeat
	if h.Equipment.Kind == job.AirHandler {
		per = returnPerPump
	}
	need := units.Area(per*h.Equipment.HeatingOutput.In(1000*units.BtuPerHour)) * units.SquareInch
	l.check(have >= need, "ifgc_return_area", ifgc618,
		checkTexts{passed: "Return ducts of {area} meet the {least} asked for the heating output.",
			failed: "Return ducts of {area} are under the {least} asked for the heating output.",
			missed: "return ducts of {area} are under the {least} asked for the heating output"}, "area", have, "least", need)
}

// narrowest is the smallest duct section of a branch, or its grille's free area.
func narrowest(r job.Return) units.Area {
	a := units.Area(math.Inf(1))
	for _, run := range r.Runs {
		a = min(a, run.Area())
	}
	if len(r.Runs) == 0 && r.Grille.Width > 0 {
		a = r.Grille.NetFreeArea()
	}
	if math.IsInf(float64(a), 1) {
		return 0
	}
	return a
}

// DropAt reads a filter curve at a face velocity, in straight lines between its
// points and from zero to the first; known is false above the last point.
func DropAt(curve []study.FaceDrop, v units.Speed) (drop units.Pressure, known bool) {
	before := study.FaceDrop{}
	for _, p := range curve {
		if p.FaceVelocity >= v {
			t := float64(v-before.FaceVelocity) / float64(p.FaceVelocity-before.FaceVelocity)
			return before.Drop + units.Pressure(t)*(p.Drop-before.Drop), true
		}
		before = p
	}
	return 0, false
}
