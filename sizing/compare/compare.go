package compare

import (
	"cmp"
	"math"
	"slices"

	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Sense is the direction in which a figure is better.
type Sense string

const (
	More    Sense = "more"
	Less    Sense = "less"
	Nearer  Sense = "nearer 0" // a static below the room's
	Neither Sense = ""         // it depends on the house: a temperature rise has a range
)

// Trend is the direction of a figure's change from the baseline.
type Trend string

const (
	Better        Trend = "better"
	Worse         Trend = "worse"
	Same          Trend = "same"
	TrendTooClose Trend = "too close to tell" // the samples do not agree on it
	ForAir        Trend = "for more air"      // more power, because more air moves
	Other         Trend = ""                  // changed, and neither better nor worse by itself; or not known
)

var trends = map[Trend]message.ID{Better: "better", Worse: "worse", Same: "same", TrendTooClose: "too close to tell", ForAir: "for more air"}

// Show names the trend; nothing where it is none.
func (t Trend) Show(l units.Locale) string { return message.Text(l, trends[t]) }

// Measure is a figure by which options are compared.
type Measure struct {
	Key   string
	Title message.ID
	Sense Sense

	fixed    bool        // by the option: no sample changes it
	kind     *units.Kind // nil: a plain number
	unit     message.ID  // of a plain number
	decimals int
	Value    func(*study.OptionResult) (v float64, known bool)
	words    func(*study.OptionResult) message.Message // instead of the number; nil or empty: the number
}

// Sampled reports whether the measure depends on uncertain inputs, so that it
// is called better or worse only where the samples agree.
func (m *Measure) Sampled() bool { return !m.fixed }

// fixedMeasure is a measure that no sample changes.
func fixedMeasure(m Measure) Measure {
	m.fixed = true
	return m
}

// quantity is a type that a measure may have.
type quantity interface {
	~float64
	units.Quantity
}

// conditionMeasure is a measure of the house running: with a clean filter, and at the
// change limit where that has a title.
func conditionMeasure[T quantity](key string, title, loadedTitle message.ID, sense Sense, of func(*study.Condition) T) []Measure {
	m := Measure{Key: key, Title: title, Sense: sense, kind: T(0).Kind()}
	m.Value = func(o *study.OptionResult) (float64, bool) { return known(float64(of(&o.Clean))) }
	if loadedTitle == "" {
		return []Measure{m}
	}
	loaded := m
	loaded.Key, loaded.Title = key+"_loaded", loadedTitle
	loaded.Value = func(o *study.OptionResult) (float64, bool) {
		v, ok := known(float64(of(&o.Loaded)))
		return v, ok && o.Kind != study.KindNoFilter
	}
	return []Measure{m, loaded}
}

// known takes zero for a figure that the house does not have.
func known(v float64) (float64, bool) { return v, v != 0 }

// filterMeasure is a measure without a value for the house with no filter.
func filterMeasure(key string, title message.ID, sense Sense, kind *units.Kind, of func(*study.OptionResult) (float64, bool)) Measure {
	return Measure{Key: key, Title: title, Sense: sense, kind: kind, Value: func(o *study.OptionResult) (float64, bool) {
		if o.Kind == study.KindNoFilter {
			return 0, false
		}
		return of(o)
	}}
}

func quantityMeasure[T quantity](key string, title message.ID, sense Sense, of func(*study.OptionResult) T) Measure {
	return filterMeasure(key, title, sense, T(0).Kind(), func(o *study.OptionResult) (float64, bool) { return known(float64(of(o))) })
}

func plainMeasure(key string, title message.ID, sense Sense, unit message.ID, decimals int, of func(*study.OptionResult) float64) Measure {
	m := filterMeasure(key, title, sense, nil, func(o *study.OptionResult) (float64, bool) { return of(o), true })
	m.unit, m.decimals = unit, decimals
	return m
}

// Measures are all measures, in the order in which they are explained: air,
// pressure, power, heat, what the filter holds back, time and money, verdict.
func Measures() []Measure {
	return slices.Concat(
		conditionMeasure("airflow", "Airflow, clean", "Airflow, loaded", More, func(c *study.Condition) units.Flow { return c.Airflow }),
		conditionMeasure("external_static", "External static, clean", "External static, loaded", Less, func(c *study.Condition) units.Pressure { return c.ExternalStatic }),
		conditionMeasure("filter_drop", "Filter drop, clean", "Filter drop, loaded", Less, func(c *study.Condition) units.Pressure { return c.FilterDrop }),
		conditionMeasure("return_static", "Return static, clean", "Return static, loaded", Nearer, func(c *study.Condition) units.Pressure { return c.ReturnStatic }),
		conditionMeasure("blower_power", "Blower power, clean", "Blower power, loaded", Less, func(c *study.Condition) units.Power { return c.BlowerPower }),
		conditionMeasure("temperature_rise", "Temperature rise", "", Neither, func(c *study.Condition) units.TemperatureDifference { return c.TemperatureRise }),
		conditionMeasure("coil_air_leaving", "Air leaving the coil", "", Neither, func(c *study.Condition) units.Temperature { return c.CoilAirLeaving }),
		conditionMeasure("face_velocity", "Face velocity", "", Less, func(c *study.Condition) units.Speed { return c.FaceVelocity }),
		conditionMeasure("media_velocity", "Media velocity", "", Less, func(c *study.Condition) units.Speed { return c.MediaVelocity }),
		[]Measure{
			fixedMeasure(quantityMeasure("media_area", "Media area", More, func(o *study.OptionResult) units.Area { return o.MediaArea })),
			fixedMeasure(plainMeasure("merv", "MERV", More, "", 0, func(o *study.OptionResult) float64 { return float64(o.Efficiency.MERV) })),
			plainMeasure("installed_merv", "MERV as installed", More, "", 0, func(o *study.OptionResult) float64 { return float64(o.Efficiency.InstalledMERV) }),
			plainMeasure("leak", "Air past the filter", Less, "%", 1, func(o *study.OptionResult) float64 { return 100 * o.LeakFraction }),
			quantityMeasure("life", "Time to the change limit", More, func(o *study.OptionResult) units.Duration { return o.Life }),
			plainMeasure("filters_per_year", "Filters a year", Less, "", 1, func(o *study.OptionResult) float64 { return o.FiltersPerYear }),
			quantityMeasure("annual_cost", "Power and filters a year, for today's cooling", Less, func(o *study.OptionResult) units.Money { return o.AnnualCost }),
			fixedMeasure(quantityMeasure("upgrade", "Price of the upgrade", Less, func(o *study.OptionResult) units.Money { return o.Upgrade })),
			quantityMeasure("ten_year_cost", "Ten years' cost, for today's cooling", Less, func(o *study.OptionResult) units.Money { return o.TenYearCost }),
			payback(),
			verdictMeasure(),
		})
}

func payback() Measure {
	m := plainMeasure("payback", "Pays back in", Less, "years", 1, nil)
	m.Value = func(o *study.OptionResult) (float64, bool) {
		if !o.Payback.Known {
			return 0, false
		}
		if !o.Payback.Pays {
			return math.Inf(1), true
		}
		return o.Payback.Years.In(units.Year), true
	}
	m.words = func(o *study.OptionResult) message.Message {
		p := o.Payback
		merv, today := p.MERV, p.TodayMERV
		switch {
		case p.Known && !p.Pays && merv > today:
			return message.New("never, with a finer filter: MERV {merv} as installed, {today} today", "merv", merv, "today", today)
		case p.Known && !p.Pays && merv < today:
			return message.New("never, with a coarser filter: MERV {merv} as installed, {today} today", "merv", merv, "today", today)
		case p.Known && !p.Pays:
			return message.New("never")
		case p.Known && merv != today:
			return p.Words()
		}
		return message.Message{}
	}
	return m
}

func verdictMeasure() Measure {
	m := plainMeasure("verdict", "Verdict", More, "", 0, func(o *study.OptionResult) float64 { return float64(-o.Verdict.Rank()) })
	m.words = func(o *study.OptionResult) message.Message { return message.New(o.Verdict.Word()) }
	return m
}

// Unit names the unit of the measure's numbers, empty where it has none.
func (m *Measure) Unit(sys units.Locale) string {
	if m.kind == nil {
		return message.Text(sys, m.unit)
	}
	return m.kind.Usual(sys).Label()
}

func (m *Measure) number(v float64, sys units.Locale) string {
	if m.kind == nil {
		return message.Fixed(v, m.decimals).Show(sys)
	}
	return m.kind.Number(v, sys)
}

// Compared is one figure of one option beside the baseline's.
type Compared struct {
	Known  bool
	Value  float64 // SI, or the plain number
	Change float64 // from the baseline; zero where either is not known
	Trend  Trend

	measure *Measure
	words   message.Message
	beside  bool // the baseline's figure is known too, and this is another
}

// Number writes the figure in the units of a reader, a dash where it is not
// known.
func (c *Compared) Number(sys units.Locale) string {
	switch {
	case !c.Known:
		return "–"
	case !c.words.Empty():
		return c.words.In(sys)
	}
	return c.measure.number(c.Value, sys)
}

// ChangeNumber writes the change with its sign, empty where there is none.
func (c *Compared) ChangeNumber(sys units.Locale) string {
	if !c.beside || !c.words.Empty() || c.Trend == Same || c.Change == 0 || math.IsInf(c.Change, 0) || math.IsNaN(c.Change) {
		return ""
	}
	m := *c.measure
	if m.kind != nil {
		m.kind = m.kind.Difference()
	}
	text := m.number(c.Change, sys)
	if c.Change > 0 {
		text = "+" + text
	}
	return text
}

// View is what a person chose to see of a comparison. It is no part of a job.
type View struct {
	Baseline   string   // name of an option; an unknown one: today
	Hidden     []string // names of options left out
	Without    []string // keys of measures left out
	By         string   // key of the measure that orders the options; empty: the job's order
	Descending bool
}

// Comparison is options side by side: the baseline first, the others in order.
type Comparison struct {
	Baseline *study.OptionResult
	Options  []*study.OptionResult
	Rows     []ComparedRow
	// Samples on which better and worse are based; zero where there are no
	// ranges, and then no sampled measure is called either.
	Samples int
}

// Basis is a sentence with the basis of better and worse, or with the reason
// why they are missing.
func (c *Comparison) Basis() message.Message {
	if c.Samples == 0 {
		return message.New("Without ranges, only figures that come with an option itself, such as its price, are called better or worse.")
	}
	return message.New("A figure is called better or worse where at least {share} % of {samples} samples agree, compared with the baseline; else it is too close to tell.", "share", message.Fixed(100*SureShare, 0), "samples", c.Samples)
}

// ComparedRow is one measure of every option of a Comparison.
type ComparedRow struct {
	Measure
	Cells []Compared
}

// Compare sets the options of a Study side by side. The baseline is never left
// out. ranges are those of the Study's job; nil where they are not known.
func Compare(s *study.Study, v View, ranges []OptionRange) Comparison {
	base := s.Option(v.Baseline)
	if base == nil {
		base = s.Today()
	}
	c := Comparison{Baseline: base, Options: []*study.OptionResult{base}}
	for i := range s.Options {
		if o := &s.Options[(i+1)%len(s.Options)]; o != base && !slices.Contains(v.Hidden, o.Name) {
			c.Options = append(c.Options, o) // the house with no filter last
		}
	}
	for _, m := range Measures() {
		if m.Key == v.By {
			m.order(c.Options[1:], v.Descending)
		}
	}
	before := RangeOf(ranges, base)
	if before != nil && before.Drawn != nil {
		c.Samples = before.Samples
	}
	for _, m := range Measures() {
		if slices.Contains(v.Without, m.Key) {
			continue
		}
		row := ComparedRow{Measure: m}
		for _, o := range c.Options {
			cell := m.compare(o, base)
			if o.Kind == study.KindNoFilter || base.Kind == study.KindNoFilter {
				cell.Trend = Other // no blower is run without a filter: it is there for comparison only
			}
			cell.Trend = m.agreed(cell.Trend, RangeOf(ranges, o), before)
			if m.movesMoreAir(o, base) && (cell.Trend == Worse || cell.Trend == Other && cell.Change > 0) {
				cell.Trend = ForAir
			}
			row.Cells = append(row.Cells, cell)
		}
		c.Rows = append(c.Rows, row)
	}
	return c
}

// movesMoreAir reports whether the measure is the power of an option that moves more
// air than the baseline: a blower with less restriction draws more watts, which is
// no fault of the option.
func (m *Measure) movesMoreAir(o, base *study.OptionResult) bool {
	switch m.Key {
	case "blower_power":
		return o.Kind != study.KindNoFilter && base.Kind != study.KindNoFilter && o.Clean.Airflow > base.Clean.Airflow
	case "blower_power_loaded":
		return o.Kind != study.KindNoFilter && base.Kind != study.KindNoFilter && o.Loaded.Airflow > base.Loaded.Airflow
	}
	return false
}

// order sorts options by the measure; those for which it is not known come last
// in either direction.
func (m *Measure) order(options []*study.OptionResult, descending bool) {
	slices.SortStableFunc(options, func(a, b *study.OptionResult) int {
		x, knownX := m.Value(a)
		y, knownY := m.Value(b)
		if !knownX || !knownY {
			return study.Order(knownY, knownX)
		}
		if descending {
			x, y = y, x
		}
		return cmp.Compare(x, y)
	})
}

// leastChange is the share of a figure below which a change counts as none: a
// thousandth, less than the uncertainty of any figure.
const leastChange = 1e-3

func (m *Measure) compare(o, base *study.OptionResult) Compared {
	c := Compared{measure: m}
	if c.Value, c.Known = m.Value(o); !c.Known {
		return c
	}
	if m.words != nil {
		c.words = m.words(o)
	}
	before, ok := m.Value(base)
	if !ok || o == base {
		return c
	}
	c.beside = true
	if c.Value == before {
		c.Trend = Same
		return c
	}
	c.Change = c.Value - before
	c.Trend = m.trend(before, c.Value)
	return c
}

// agreed is the trend of two numbers as far as their samples agree on it.
func (m *Measure) agreed(t Trend, option, base *OptionRange) Trend {
	if !m.Sampled() || t != Better && t != Worse {
		return t
	}
	a, known := m.Agreement(option, base)
	switch {
	case !known:
		return Other
	case t == Better && a.Better >= SureShare, t == Worse && a.Worse >= SureShare:
		return t
	}
	return TrendTooClose
}

func (m *Measure) trend(before, now float64) Trend {
	size := math.Max(math.Abs(before), math.Abs(now))
	if m.kind != nil && m.kind.Difference() != m.kind {
		size = 1 // a thousandth of a kelvin: its zero is far away
	}
	up, better := now > before, m.Sense == More
	if m.Sense == Nearer {
		up = math.Abs(now) > math.Abs(before)
	}
	switch {
	case math.Abs(now-before) < leastChange*size:
		return Same
	case m.Sense == Neither:
		return Other
	case up == better:
		return Better
	}
	return Worse
}
