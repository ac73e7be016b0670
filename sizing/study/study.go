package study

import (
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// First is the first element that fits a condition; any is false where none does.
func First[T any](list []T, is func(T) bool) (found T, any bool) {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i], true
	}
	return found, false
}

// Study is all that follows from a Job. It is read-only, and contains everything that
// charts, pages and files show. Two things are calculated later, from the same house:
// what Deferred gives when asked, and the ranges and rankings of sampling and
// recommend.WithRanges, which need many samples.
type Study struct {
	Name string `json:"name,omitzero"`

	Air                 Air                   `json:"air"`
	DesignAirflow       units.Flow            `json:"design_airflow"`        // m3/s, in cooling: typed, or by the capacity
	HeatingAirflow      units.Flow            `json:"heating_airflow"`       // m3/s, wanted in heating
	AirflowPerCapacity  units.FlowPerCapacity `json:"airflow_per_capacity"`  // m3/s per W of total cooling
	TargetFaceVelocity  units.Speed           `json:"target_face_velocity"`  // m/s, highest wanted on a filter's nominal face
	NeededFace          units.Area            `json:"needed_face"`           // design airflow / target face velocity
	RatedExternalStatic units.Pressure        `json:"rated_external_static"` // Pa, of the nameplate

	// Options are the house with no filter, as it is today, and with each
	// option of the job, in that order.
	Options          []OptionResult    `json:"options"`
	Blower           BlowerResult      `json:"blower"`
	Bands            Bands             `json:"bands"`
	Taps             []TapAdvice       `json:"taps"`
	SuggestedSizes   SuggestedSizes    `json:"answer"`
	Sizes            []Size            `json:"sizes"` // best first
	Ducts            []DuctSize        `json:"ducts"`
	Casing           stock.Casing      `json:"casing"` // what a slot or cabinet takes beyond its filters
	ReturnComponents []ReturnComponent `json:"pieces"` // of today's return side, the highest drop first

	// AsFound is the house at the moment of the gauge readings; nil where nothing
	// was read.
	AsFound              *AsFound              `json:"as_found,omitempty"`
	Readings             []ReadingResult       `json:"readings"`
	AfterWorkComparisons []AfterWorkComparison `json:"works,omitempty"` // a round each, read after the work
	Findings             []Finding             `json:"findings"`        // worst first
	// Recommendation is the option to take, or why there is none, and the next
	// thing to do.
	Recommendation Recommendation `json:"recommendation"`

	Assumptions []Assumption `json:"assumptions"`
	// AssumedShare is the share of today's external static from parts that were
	// neither typed nor measured, 0 to 1.
	AssumedShare float64 `json:"assumed_share"`
	// BlowerAssumed is true where a generic blower table is used in place of the
	// real one.
	BlowerAssumed bool `json:"blower_assumed"`
	// WattsAssumed is true where the blower's table gives no watts for a tap in use,
	// so that cost and pay-back rest on usual ones.
	WattsAssumed bool `json:"watts_assumed,omitzero"`

	// Deferred calculates what few readers of a Study need.
	Deferred Deferred `json:"-"`
}

// Air is the air that the house moves.
type Air struct {
	Altitude    units.Length      `json:"altitude"`    // m above sea level
	Pressure    units.Pressure    `json:"pressure"`    // Pa, of the atmosphere
	Temperature units.Temperature `json:"temperature"` // K, of the return air in cooling
	Density     units.Density     `json:"density"`     // kg/m3
	// DensityRatio is to 0.075 lb/ft3, the air of blower tables.
	DensityRatio float64 `json:"density_ratio"`
}

// OptionKind is the kind of house that an OptionResult is for.
type OptionKind string

const (
	KindNoFilter OptionKind = "no_filter" // every filter out, for comparison only
	KindToday    OptionKind = "today"
	KindOption   OptionKind = "option" // of the job
)

// OptionResult is the house with one filter arrangement.
type OptionResult struct {
	Name string     `json:"name"`
	Kind OptionKind `json:"kind"`
	// Place is where the filters are and their size, in words: "slot 20x20x1".
	Place  message.Message `json:"place,omitzero"`
	Places []FilterPlace   `json:"places,omitempty"`
	// Assembly is the casing at the equipment; nil: none stands there.
	Assembly *Assembly `json:"assembly,omitempty"`
	Tap      string    `json:"tap"` // of the blower, in cooling
	// SpeedRatio is the wheel's speed over the table's, where an option changes it.
	SpeedRatio float64 `json:"speed_ratio,omitzero"`
	// WattsAssumed is true where the blower's table gives no watts for a tap in use,
	// in any season: its power and its cost then rest on usual ones.
	WattsAssumed bool   `json:"watts_assumed,omitzero"`
	Filter       string `json:"filter,omitzero"`
	// LawSource is the basis of the drop: "rating", "make", "generic", "gauge".
	LawSource string `json:"law_source,omitzero"`

	Clean  Condition `json:"clean"`
	Loaded Condition `json:"loaded"` // at the change limit

	FaceArea        units.Area     `json:"face_area"`  // m2, nominal, of the filter at the unit, else of all at the returns
	MediaArea       units.Area     `json:"media_area"` // m2, of the pleats laid flat, of the same filters
	Pleats          int            `json:"pleats,omitzero"`
	Efficiency      Efficiency     `json:"efficiency"`
	LeakFraction    float64        `json:"leak_fraction"` // share of the air that bypasses the filter
	FramePush       units.Force    `json:"frame_push"`    // N, of the air on the frame with the most, filters clean
	FrameBow        units.Length   `json:"frame_bow"`     // m, of that frame, filters clean
	Life            units.Duration `json:"life"`          // calendar time to the first change of a place
	ReplacedBecause message.ID     `json:"life_ends,omitzero"`
	LifeCurve       []LifePoint    `json:"life_curve,omitempty"` // to that change
	// Costs are for today's sensible cooling. A cost that is not known, as of
	// work without a price, is left out.
	AnnualCost     units.Money `json:"annual_cost,omitzero"`
	AnnualPower    units.Money `json:"annual_power"`           // of the blower
	AnnualOutdoor  units.Money `json:"annual_outdoor"`         // power of the outdoor unit
	AnnualFilter   units.Money `json:"annual_filter,omitzero"` // of new filters
	AnnualKnown    bool        `json:"annual_known"`
	Upgrade        units.Money `json:"upgrade,omitzero"` // price of the option, installed
	UpgradeKnown   bool        `json:"upgrade_known"`
	TenYearCost    units.Money `json:"ten_year_cost,omitzero"`   // present value
	TenYearPower   units.Money `json:"ten_year_power"`           // present value, of the blower
	TenYearOutdoor units.Money `json:"ten_year_outdoor"`         // present value, of the outdoor unit
	TenYearFilter  units.Money `json:"ten_year_filter,omitzero"` // present value, of new filters
	TenYearKnown   bool        `json:"ten_year_known"`
	// TenYearTooClose: the samples leave open whether this is more or less than today's.
	TenYearTooClose bool           `json:"-"`
	AnnualEnergy    units.Energy   `json:"annual_energy"`    // of the blower
	OutdoorEnergy   units.Energy   `json:"outdoor_energy"`   // J a year, of the outdoor unit
	CoolingHours    units.Duration `json:"cooling_hours"`    // a year, for today's sensible cooling
	FiltersPerYear  float64        `json:"filters_per_year"` // of all places
	Payback         Payback        `json:"payback,omitzero"`

	Verdict  Severity          `json:"verdict"`
	Why      message.Sentences `json:"why"`                // the verdict in words
	Findings []Finding         `json:"findings,omitempty"` // of this option

	// Against is what the option does to each problem of today, and what it adds;
	// Counts and Versus sum it up.
	Against []ProblemChange `json:"against,omitempty"`
	Counts  Counts          `json:"counts"`
	Versus  Finding         `json:"versus,omitzero"`

	// SystemClean and SystemLoaded are external static against airflow.
	SystemClean  []CurvePoint `json:"system_clean"`
	SystemLoaded []CurvePoint `json:"system_loaded"`
	// FilterCurve is the clean filter's drop against face velocity.
	FilterCurve []FaceDrop `json:"filter_curve,omitempty"`

	Held        []HeldLimit    `json:"-"` // every limit, in each state of the filter
	FilterDepth units.Length   `json:"-"` // m, nominal, of the first filter place
	DesignDrop  units.Pressure `json:"-"` // of the clean filter at the design airflow
	Returns     []job.Return   `json:"-"` // as it runs
	Breaches    []Breach       `json:"-"` // of what the house allows
	Pack        *filter.Pack   `json:"-"` // where the filter is known by its make
}

// Payback is the time in which an option saves its price, or that it never
// does. Where a price is missing it is not known.
type Payback struct {
	Known bool           `json:"known"`
	Pays  bool           `json:"pays"`
	Years units.Duration `json:"years,omitzero"` // s, until the saving has paid the price
	// MERV as installed with the option and today: filters of unequal fineness do
	// not pay back alike.
	MERV      int `json:"merv,omitzero"`
	TodayMERV int `json:"today_merv,omitzero"`
}

// Unlike is the message that the filters differ in MERV; empty where they do
// not.
func (p Payback) Unlike() message.Message {
	switch {
	case p.MERV > p.TodayMERV:
		return message.New("with a finer filter: MERV {merv} as installed, {today} today", "merv", p.MERV, "today", p.TodayMERV)
	case p.MERV < p.TodayMERV:
		return message.New("with a coarser filter: MERV {merv} as installed, {today} today", "merv", p.MERV, "today", p.TodayMERV)
	}
	return message.Message{}
}

// String is In in English.
func (p Payback) String() string { return p.In(units.IP) }

// In writes for a reader whether it pays for itself, with a note where the
// filters differ.
func (p Payback) In(l units.Locale) string { return p.Words().In(l) }

// Words is the message that In writes.
func (p Payback) Words() message.Message {
	var text, finer, coarser message.ID
	switch {
	case !p.Known:
		return message.New("not known")
	case p.Pays:
		text = "in {years} years"
		finer = "in {years} years, with a finer filter: MERV {merv} as installed, {today} today"
		coarser = "in {years} years, with a coarser filter: MERV {merv} as installed, {today} today"
	default:
		text = "does not pay back"
		finer = "does not pay back, with a finer filter: MERV {merv} as installed, {today} today"
		coarser = "does not pay back, with a coarser filter: MERV {merv} as installed, {today} today"
	}
	switch {
	case p.MERV > p.TodayMERV:
		text = finer
	case p.MERV < p.TodayMERV:
		text = coarser
	}
	return message.New(text, "years", message.Fixed(p.Years.In(units.Year), 1), "merv", p.MERV, "today", p.TodayMERV)
}

// Efficiency of a filter as ASHRAE 52.2 reports it, shares of 0 to 1.
type Efficiency struct {
	E1            float64     `json:"e1"` // 0.3 to 1 micrometer
	E2            float64     `json:"e2"` // 1 to 3
	E3            float64     `json:"e3"` // 3 to 10
	MERV          int         `json:"merv"`
	InstalledMERV int         `json:"installed_merv"` // with the air that bypasses it
	BySize        [12]float64 `json:"by_size"`        // of the filter, by the 12 size ranges
	Installed     [12]float64 `json:"installed"`      // the same, with the air that bypasses it
	Assumed       bool        `json:"assumed"`
}

// Condition is the house running with one state of the filter, in cooling
// unless a field names another season.
type Condition struct {
	Airflow            units.Flow            `json:"airflow"`               // m3/s, through the blower
	AirflowPerCapacity units.FlowPerCapacity `json:"airflow_per_capacity"`  // m3/s per W of rated cooling
	ExternalStatic     units.Pressure        `json:"external_static"`       // Pa, of all parts outside the equipment
	FilterDrop         units.Pressure        `json:"filter_drop"`           // Pa, of all filter places together
	ReturnStatic       units.Pressure        `json:"return_static"`         // at the blower inlet, negative
	BlowerPower        units.Power           `json:"blower_power"`          // W, electric
	FanEfficacy        units.FanEfficacy     `json:"fan_efficacy"`          // W per m3/s
	BlowerSpeed        units.Rotation        `json:"blower_speed,omitzero"` // of the wheel
	FaceVelocity       units.Speed           `json:"face_velocity"`         // m/s, on the nominal face of the filter at the unit, else the mean at the returns
	MediaVelocity      units.Speed           `json:"media_velocity"`        // m/s, through the media of the same filters

	LeakFraction float64      `json:"leak_fraction"`      // share of the air that bypasses the filters, 0 to 1
	FramePush    units.Force  `json:"frame_push"`         // N, of the air on the frame with the most
	FrameBow     units.Length `json:"frame_bow"`          // m, of that frame
	LeftSeat     bool         `json:"left_seat,omitzero"` // a frame has buckled out of its seat

	// FanPower is the blower's power with neither cooling nor heating.
	FanPower units.Power `json:"fan_power"`

	HeatingAirflow  units.Flow                  `json:"heating_airflow"`  // m3/s, on the heating tap, the coil dry
	HeatingStatic   units.Pressure              `json:"heating_static"`   // Pa, external static in heating
	HeatingPower    units.Power                 `json:"heating_power"`    // W, of the blower in heating
	TemperatureRise units.TemperatureDifference `json:"temperature_rise"` // K, of the air in heating, blower's heat included

	TotalCapacity    units.Capacity    `json:"total_capacity"`      // W, of the coil, without the blower's heat
	SensibleCapacity units.Capacity    `json:"sensible_capacity"`   // W, the part that cools and does not dry
	CoilAirLeaving   units.Temperature `json:"coil_air_leaving"`    // K
	SupplyAir        units.Temperature `json:"supply_air,omitzero"` // in cooling, with the blower's heat
	ApparatusDewPt   units.Temperature `json:"apparatus_dew_point"` // K, the coil surface's mean
	Frost            bool              `json:"frost"`               // cold enough that the coil will frost

	Parts    []PartDrop   `json:"parts"` // from grille to supply; they add up to the external static
	Ports    []Port       `json:"ports"`
	Branches []BranchFlow `json:"branches"`

	WithinBlowerTable bool    `json:"inside_table"` // the point lies inside the blower table
	Residual          float64 `json:"residual"`     // (blower - system) / static
}

// PartDrop is the drop of one part of the external static.
type PartDrop struct {
	Name  airpath.PartName `json:"name"`
	Drop  units.Pressure   `json:"drop"`  // Pa
	Share float64          `json:"share"` // of the rated external static; over 1 where the part alone drops more
	// Budget is the usual share of the rated static for such a part, zero where
	// there is none; Over is true where its drop is higher.
	Budget units.Pressure `json:"budget,omitzero"`
	Over   bool           `json:"over"`
	// Basis is "typed", "gauge", "geometry" or "assumed".
	Basis message.ID `json:"basis"`
	// Internal parts are inside the rated static and do not count as external.
	Internal bool `json:"internal,omitzero"`
}

// Port is a test port and the static a gauge would show there.
type Port struct {
	Name   message.ID     `json:"name"`
	Static units.Pressure `json:"static"` // Pa against the room, negative before the blower
}

// BranchFlow is one return branch at the solved point.
type BranchFlow struct {
	Name         job.ReturnName `json:"name"`
	Airflow      units.Flow     `json:"airflow"`       // m3/s
	Drop         units.Pressure `json:"drop"`          // room to return plenum
	GrilleDrop   units.Pressure `json:"grille_drop"`   // Pa, of the grille alone
	FilterDrop   units.Pressure `json:"filter_drop"`   // Pa, of the filter behind the grille
	DuctDrop     units.Pressure `json:"duct_drop"`     // Pa, of runs and fittings
	FaceVelocity units.Speed    `json:"face_velocity"` // at the grille
	DuctVelocity units.Speed    `json:"duct_velocity"` // fastest run
}

// LifePoint is one step of the filter's life.
type LifePoint struct {
	Time    units.Duration `json:"time"`    // s of the calendar, since the filters were new
	Dust    units.Mass     `json:"dust"`    // kg, on all filters
	Airflow units.Flow     `json:"airflow"` // m3/s, in cooling
	Drop    units.Pressure `json:"drop"`    // Pa, of all filter places together
	Power   units.Power    `json:"power"`   // W, of the blower in cooling
	// Blower power in heating and alone, and the sensible capacity of the coil.
	HeatingPower     units.Power    `json:"heating_power,omitzero"`
	FanPower         units.Power    `json:"fan_power,omitzero"`
	SensibleCapacity units.Capacity `json:"sensible_capacity,omitzero"`
}

// CurvePoint is a point of a fan or system curve.
type CurvePoint struct {
	Airflow units.Flow     `json:"airflow"`        // m3/s
	Static  units.Pressure `json:"static"`         // Pa, external static
	Power   units.Power    `json:"power,omitzero"` // W, of the blower; zero: not known
}

// FaceDrop is a point of a filter's drop against face velocity.
type FaceDrop struct {
	FaceVelocity units.Speed    `json:"face_velocity"` // m/s, on the nominal face
	Drop         units.Pressure `json:"drop"`          // Pa
}

// BlowerResult is the blower as solved, at the house's density.
type BlowerResult struct {
	Motor      blower.Motor `json:"motor"`
	Source     message.ID   `json:"source"`
	Taps       []TapResult  `json:"taps"`
	CoolingTap string       `json:"cooling_tap"`
	HeatingTap string       `json:"heating_tap"`
}

// TapName names a tap in a sentence: as a person did, or as a generic table does.
func (b *BlowerResult) TapName(name string) message.Message {
	if b.Source == blower.GenericSource {
		return blower.GenericTap(name)
	}
	return job.TapName(name)
}

// TapAtSpeed names a tap, and how much faster than its table its wheel turns; a
// ratio of 0 or 1: as the table.
func (b *BlowerResult) TapAtSpeed(name string, ratio float64) message.Message {
	if ratio == 0 || ratio == 1 {
		return b.TapName(name)
	}
	return message.New("{tap} at {factor} times the speed", "tap", b.TapName(name), "factor", message.Fixed(ratio, 2))
}

// TapResult is one tap's curve.
type TapResult struct {
	Name string `json:"name"`
	// SpeedRatio is the wheel's speed over the table's, where an option changes it.
	SpeedRatio float64      `json:"speed_ratio,omitzero"`
	Curve      []CurvePoint `json:"curve"`
}

// IsOf reports whether an option runs on it in cooling.
func (t *TapResult) IsOf(o *OptionResult) bool {
	ratio := o.SpeedRatio
	if ratio == 1 {
		ratio = 0
	}
	return t.Name == o.Tap && t.SpeedRatio == ratio
}

// TapAdvice is today's house, filter clean, on one tap of the blower.
type TapAdvice struct {
	Tap                string                      `json:"tap"`
	Airflow            units.Flow                  `json:"airflow"`              // m3/s, in cooling
	AirflowPerCapacity units.FlowPerCapacity       `json:"airflow_per_capacity"` // m3/s per W of rated cooling
	ExternalStatic     units.Pressure              `json:"external_static"`      // Pa, in cooling
	BlowerPower        units.Power                 `json:"blower_power"`         // W, in cooling
	HeatingAirflow     units.Flow                  `json:"heating_airflow"`      // the coil dry
	TemperatureRise    units.TemperatureDifference `json:"temperature_rise"`     // K, in heating

	WithinBlowerTable bool `json:"inside_table"`
	ReachesFlow       bool `json:"reaches_design_airflow"`
	WithinStatic      bool `json:"within_rated_static"`
	WithinRise        bool `json:"within_rise"`
	// ForCooling and ForHeating mark the tap to take: the one nearest to the
	// season's design airflow among those that reach it.
	ForCooling bool `json:"for_cooling"`
	ForHeating bool `json:"for_heating"`
}

// Size is one candidate solved in the real airpath.
type Size struct {
	Place  job.PlaceKind `json:"place"`
	Count  int           `json:"count"`  // grilles, or filters in one casing
	Width  units.Length  `json:"width"`  // nominal, of one filter
	Height units.Length  `json:"height"` // m, nominal, of one filter
	Depth  units.Length  `json:"depth"`  // m, nominal, along the air
	// Stacked filters stand one above the other in their casing.
	Stacked  bool      `json:"stacked,omitzero"`
	Assembly *Assembly `json:"assembly,omitempty"` // outside of the casing; nil for grilles
	Label    string    `json:"label"`              // "2 x 20x25x1"
	// Stocked is true where only the job's own supplier has it.
	Stocked bool   `json:"stocked,omitzero"`
	Filter  string `json:"filter"`
	MERV    int    `json:"merv"`

	FaceArea           units.Area     `json:"face_area"`            // of all openings
	MediaArea          units.Area     `json:"media_area"`           // m2, of the pleats laid flat, of the filters put there
	DesignFaceVelocity units.Speed    `json:"design_face_velocity"` // at the design airflow
	Airflow            units.Flow     `json:"airflow"`              // m3/s, at the operating point, filter clean
	FaceVelocity       units.Speed    `json:"face_velocity"`        // at the operating point
	FilterDrop         units.Pressure `json:"filter_drop"`          // Pa, clean, at the operating point
	ExternalStatic     units.Pressure `json:"external_static"`      // Pa, at the operating point
	BlowerPower        units.Power    `json:"blower_power"`         // W, at the operating point

	// MeetsAll is true where it keeps the limits on a size: face velocity, room,
	// opening, MERV, clean drop. Study.With judges the house with it.
	MeetsAll bool      `json:"meets"`
	Misses   []Finding `json:"misses,omitempty"` // each limit missed, by how much
	// ParetoOptimal marks a choice that no other beats in openings, area and drop at once.
	ParetoOptimal bool `json:"front"`
}

// ReadingResult compares one round of readings with the prediction for the
// option that was in place.
type ReadingResult struct {
	Label          string         `json:"label"`
	Date           string         `json:"date,omitzero"`
	Option         string         `json:"option"`
	Mode           job.Mode       `json:"mode"`
	AfterWork      bool           `json:"after_work,omitzero"`
	Airflow        units.Flow     `json:"airflow"`         // m3/s, of the round, by its basis
	AirflowBasis   message.ID     `json:"airflow_basis"`   // "measured", "blower table" or "temperature rise"
	ExternalStatic units.Pressure `json:"external_static"` // Pa, as read; zero: not read
	// PredictedAirflow is what the Study expects with that filter and tap.
	PredictedAirflow units.Flow   `json:"predicted_airflow"`
	Rows             []ReadingRow `json:"rows"`  // static at each port read, and the external static
	Parts            []ReadingRow `json:"parts"` // drop of each part at the airflow of the round
	// OtherQuantities are the temperatures and the watts read, and the airflow calculated
	// from a temperature rise.
	OtherQuantities []ReadingMatch `json:"others,omitempty"`
	// CalibratesStudy is true where the study was calibrated by this round: its agreement
	// then proves nothing.
	CalibratesStudy bool `json:"sets,omitzero"`
	// Findings are the contradictions of the round, or that it agrees; the
	// Study's own contain them too.
	Findings []Finding `json:"-"`
	// Suspect is the part that explains most of a difference; empty where all agree.
	Suspect airpath.PartName `json:"suspect,omitzero"`
	Verdict Severity         `json:"verdict"`

	Predicted Condition `json:"-"`
}

// ReadingRow is one measured number beside the predicted one.
type ReadingRow struct {
	Name      message.ID     `json:"name"`
	Measured  units.Pressure `json:"measured"`  // Pa
	Predicted units.Pressure `json:"predicted"` // Pa, for the option that was in place
	Agrees    bool           `json:"agrees"`    // within the stated tolerance
	// WorkedOut is true where it was not read but follows from other readings.
	WorkedOut bool `json:"worked_out,omitzero"`
}

// ReadingMatch is a measured quantity, other than a pressure, beside the predicted
// one.
type ReadingMatch struct {
	Name      message.ID     `json:"name"`
	Measured  units.Quantity `json:"measured"`
	Predicted units.Quantity `json:"predicted"` // for the option that was in place
	Agrees    bool           `json:"agrees"`
}

// UsualWatts is the source of watts that a blower table does not give.
const UsualWatts message.ID = "usual watts of the motor kind, invented to be plausible, no source"

// Assumption is a value that was neither typed nor measured.
type Assumption struct {
	Path   string          `json:"path"` // field of the job that would replace it
	Text   message.Message `json:"text"`
	Source message.ID      `json:"source"`
	// Value is the assumed value of the field; nil where it is a word, a share
	// or more than one number.
	Value units.Quantity `json:"value,omitempty"`
}

// In writes the sentence for a reader.
func (a Assumption) In(sys units.Locale) string { return a.Text.In(sys) }

// Assumed reports whether the field at path is assumed.
func (s *Study) Assumed(path string) bool {
	return slices.ContainsFunc(s.Assumptions, func(a Assumption) bool { return a.Path == path })
}

// Heats reports whether the equipment heats the house.
func (s *Study) Heats() bool { return s.HeatingAirflow > 0 }

// Option finds an option result by name.
func (s *Study) Option(name string) *OptionResult {
	for i := range s.Options {
		if s.Options[i].Name == name {
			return &s.Options[i]
		}
	}
	return nil
}

// Today is the house as it is.
func (s *Study) Today() *OptionResult { return &s.Options[1] }

// NoFilter is the house with every filter taken out, to show what the filter
// costs; a blower is never run so.
func (s *Study) NoFilter() *OptionResult { return &s.Options[0] }

// LawSources are the bases of a filter's law, in words.
var LawSources = map[string]message.ID{"rating": LawByRating, "make": LawByMake, "generic": LawGeneric, "gauge": LawByGauge}

// The bases of a filter's law.
const (
	LawByRating message.ID = "the filter's printed rating, fitted by non-negative least squares"
	LawByMake   message.ID = "two-channel pleat model with inertia, solved numerically"
	LawGeneric  message.ID = "generic invented estimate by MERV and depth"
	LawByGauge  message.ID = "the gauge's reading of today's filter"
)
