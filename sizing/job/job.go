package job

import (
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// The names of the first two options of every Study.
const (
	NoFilterName = "no filter"
	TodayName    = "today"
)

// Schema is the version of the job file that this engine reads and writes.
const Schema = 1

// Job is what a person entered about one house. A quantity of zero is left
// open: the engine assumes a usual value and lists it in the Study.
type Job struct {
	Schema int    `json:"schema"`
	Name   string `json:"name,omitzero"`
	Notes  string `json:"notes,omitzero"`

	Site      Site      `json:"site,omitzero"`
	Equipment Equipment `json:"equipment,omitzero"`

	DesignAirflow      units.Flow            `json:"design_airflow,omitzero"`       // cooling
	AirflowPerCapacity units.FlowPerCapacity `json:"airflow_per_capacity,omitzero"` // where the airflow is not given
	HeatingAirflow     units.Flow            `json:"heating_airflow,omitzero"`      // wanted in heating
	TargetFaceVelocity units.Speed           `json:"target_face_velocity,omitzero"` // highest wanted on a filter's nominal face

	Filters []filter.Filter `json:"filters,omitempty"` // the makes that slots and options name
	Returns []Return        `json:"returns,omitempty"` // in parallel
	Slot    Slot            `json:"slot,omitzero"`     // the central filter
	Coil    Part            `json:"coil,omitzero"`
	Supply  Part            `json:"supply,omitzero"`

	Readings []Reading `json:"readings,omitempty"`
	Options  []Option  `json:"options,omitempty"` // changes to compare with today
	Limits   Limits    `json:"limits,omitzero"`

	// StockSizes are sizes that a supplier has beyond the listed ones; the size search
	// tries them too.
	StockSizes []StockSize `json:"stock_sizes,omitempty"`

	Prices WorkPrices `json:"work_prices,omitzero"`

	Customer quote.Customer `json:"customer,omitzero"`
	Quote    quote.Quote    `json:"quote,omitzero"`
	Work     quote.Work     `json:"work,omitzero"`
	Photos   []quote.Photo  `json:"photos,omitempty"`

	Uncertainty Uncertainty `json:"uncertainty,omitzero"`
}

// Site is where the house stands and what running it costs.
type Site struct {
	Altitude      units.Length      `json:"altitude,omitzero" field:"zero"` // zero is sea level
	IndoorDryBulb units.Temperature `json:"indoor_dry_bulb,omitzero"`       // return air in the cooling season
	IndoorWetBulb units.Temperature `json:"indoor_wet_bulb,omitzero"`       // return air in the cooling season
	HeatingIndoor units.Temperature `json:"heating_indoor,omitzero"`        // return air in the heating season

	PowerPrice   units.EnergyPrice `json:"power_price,omitzero"`                 // of electricity
	CoolingHours units.Duration    `json:"cooling_hours,omitzero"`               // blower hours a year in cooling
	HeatingHours units.Duration    `json:"heating_hours,omitzero"`               // blower hours a year in heating
	FanHours     units.Duration    `json:"fan_hours,omitzero"`                   // blower alone
	DiscountRate float64           `json:"discount_rate,omitzero" field:"share"` // real, a year, as a share: interest less inflation

	Dust     DustPreset     `json:"dust,omitzero"`
	DustRate units.MassRate `json:"dust_rate,omitzero"` // replaces the preset
}

// DustPreset is an invented rate of dust for a kind of household.
type DustPreset string

const (
	DustLow      DustPreset = "low"
	DustOrdinary DustPreset = "ordinary"
	DustPets     DustPreset = "pets"
	DustWorks    DustPreset = "works"
)

// Values are the words that a file may hold.
func (DustPreset) Values() []string {
	return []string{string(DustLow), string(DustOrdinary), string(DustPets), string(DustWorks)}
}

// EquipmentKind decides which parts are external to the rated static.
type EquipmentKind string

const (
	// FurnaceWithCoil is a furnace with a cooling coil set on it: filter, coil
	// and ducts are external.
	FurnaceWithCoil EquipmentKind = "furnace_with_coil"
	// Furnace is a furnace alone.
	Furnace EquipmentKind = "furnace"
	// AirHandler holds its coil: the coil is inside the rated static.
	AirHandler EquipmentKind = "air_handler"
)

// Values are the words that a file may hold.
func (EquipmentKind) Values() []string {
	return []string{string(FurnaceWithCoil), string(Furnace), string(AirHandler)}
}

// Equipment is what the plate and the maker's table say.
type Equipment struct {
	Kind              EquipmentKind  `json:"kind,omitzero"`
	CoolingCapacity   units.Capacity `json:"cooling_capacity,omitzero"`                  // total, rated
	SensibleHeatRatio float64        `json:"sensible_heat_ratio,omitzero" field:"share"` // rated sensible over total capacity
	// EER is the outdoor unit's rated cooling over its watts, Btu/(W h).
	EER           float64        `json:"eer,omitzero"`
	HeatingOutput units.HeatRate `json:"heating_output,omitzero"` // to the air, not the fuel's input
	// HeatingOutputAt is the altitude for which the heating output was printed;
	// left open: sea level.
	HeatingOutputAt OutputPlace `json:"heating_output_at,omitzero"`
	// AltitudeDerate is the share of a furnace's output at sea level that is lost
	// for each 1000 ft of altitude.
	AltitudeDerate float64 `json:"altitude_derate,omitzero"`
	// NoHeating is true where this equipment does not heat: the house has
	// another heater. Its other heating fields are then ignored.
	NoHeating           bool                        `json:"no_heating,omitzero"`
	RiseLow             units.TemperatureDifference `json:"rise_low,omitzero"`              // nameplate range of temperature rise
	RiseHigh            units.TemperatureDifference `json:"rise_high,omitzero"`             // upper end of the nameplate range
	RatedExternalStatic units.Pressure              `json:"rated_external_static,omitzero"` // rated static of the nameplate
	// CoilDryShare is the coil's drop when dry, as in heating, over its drop
	// when wet.
	CoilDryShare float64      `json:"coil_dry_share,omitzero" field:"share"`
	Blower       blower.Table `json:"blower,omitzero"`
}

// OutputPlace is the altitude that a heating output was printed for.
type OutputPlace string

const (
	OutputAtSeaLevel OutputPlace = "sea_level"
	// OutputAtSite is an output for the altitude of the house.
	OutputAtSite OutputPlace = "site"
)

// Values are the words that a file may hold.
func (OutputPlace) Values() []string {
	return []string{string(OutputAtSeaLevel), string(OutputAtSite)}
}

// DuctEnds is what a described duct begins and ends with.
type DuctEnds string

const (
	// UsualEnds are a box behind the grille and a discharge into the plenum,
	// where no fitting of the branch is one.
	UsualEnds DuctEnds = "usual"
	// NoEnds are none but those among the fittings.
	NoEnds DuctEnds = "none"
)

// Values are the words that a file may hold.
func (DuctEnds) Values() []string {
	return []string{string(UsualEnds), string(NoEnds)}
}

// Return is one branch of the return side, from a room to the return plenum.
type Return struct {
	Name     string         `json:"name,omitzero"`
	Grille   duct.Grille    `json:"grille,omitzero"` // left open: a duct without a grille
	Filter   string         `json:"filter,omitzero"` // name of the filter behind the grille
	Runs     []duct.Run     `json:"runs,omitempty"`
	Fittings []duct.Fitting `json:"fittings,omitempty"`
	Ends     DuctEnds       `json:"ends,omitzero"` // left open: usual
	// Wall opening in which a new grille of this return must fit.
	OpeningWidth  units.Length `json:"opening_width,omitzero"`
	OpeningHeight units.Length `json:"opening_height,omitzero"`
}

// LacksDuct reports whether nothing is entered of the duct of a return that has one:
// its drop is then missing. NoEnds says that there is none.
func (r *Return) LacksDuct() bool {
	return len(r.Runs) == 0 && len(r.Fittings) == 0 && r.Ends != NoEnds
}

// Slot is the central filter place before the blower; sizes are nominal.
type Slot struct {
	None   bool         `json:"none,omitzero"` // there is no central filter
	Width  units.Length `json:"width,omitzero"`
	Height units.Length `json:"height,omitzero"`
	Depth  units.Length `json:"depth,omitzero"` // along the air
	// Count is how many filters of this size stand in the one casing; left open: 1.
	Count int `json:"count,omitzero"`
	// Stacked filters stand one above the other; left open: side by side.
	Stacked bool   `json:"stacked,omitzero"`
	Filter  string `json:"filter,omitzero"`
	// AtGrilles is true where the filters sit behind return grilles in the wall,
	// each behind its own, and the returns are not described.
	AtGrilles bool `json:"at_grilles,omitzero"`
	// Loss coefficient of the place's own entry and turn, on the face velocity.
	EntryCoefficient float64 `json:"entry_coefficient,omitzero" field:"zero"`
	// Gap round the frame; zero is a sealed frame.
	Gap       units.Length `json:"gap,omitzero" field:"zero"`
	GapBends  int          `json:"gap_bends,omitzero" field:"zero"`
	EdgeCover units.Length `json:"edge_cover,omitzero"` // how far the slot's edge overlaps the frame
}

// Part is a component known by its drop at one airflow.
type Part struct {
	Drop     units.Pressure `json:"drop,omitzero"`     // at the airflow of the part
	Airflow  units.Flow     `json:"airflow,omitzero"`  // left open: the design airflow
	Exponent float64        `json:"exponent,omitzero"` // of the drop in the airflow; left open: usual for the part
}

// Mode is the season in which the blower ran: cooling or heating.
type Mode string

const (
	Cooling Mode = "cooling"
	Heating Mode = "heating"
)

// Values are the words that a file may hold.
func (Mode) Values() []string {
	return []string{string(Cooling), string(Heating)}
}

// Reading is one round of readings with the gauge. A static may be typed with
// either sign.
type Reading struct {
	Label string `json:"label,omitzero"`
	Date  string `json:"date,omitzero"` // as the person writes it
	Mode  Mode   `json:"mode,omitzero"` // left open: cooling
	Tap   string `json:"tap,omitzero"`  // left open: the mode's tap
	// Option names the option that was in place; left open: today.
	Option string `json:"option,omitzero"`
	// AfterWork is true where the round was read after the work: Option must
	// then be named.
	AfterWork bool `json:"after_work,omitzero"`

	ReturnPlenum  units.Pressure `json:"return_plenum,omitzero"`   // before the filter
	BlowerInlet   units.Pressure `json:"blower_inlet,omitzero"`    // between filter and blower
	BlowerOutlet  units.Pressure `json:"blower_outlet,omitzero"`   // after the blower, before the coil
	SupplyPlenum  units.Pressure `json:"supply_plenum,omitzero"`   // after the coil
	FilterDrop    units.Pressure `json:"filter_drop,omitzero"`     // across the filter
	Airflow       units.Flow     `json:"airflow,omitzero"`         // where it was measured
	BlowerPower   units.Power    `json:"blower_power,omitzero"`    // where it was measured
	FilterIsClean bool           `json:"filter_is_clean,omitzero"` // a new filter was in place

	ReturnTemperature units.Temperature `json:"return_temperature,omitzero"` // of the air before the equipment
	SupplyTemperature units.Temperature `json:"supply_temperature,omitzero"` // of the air after the equipment
}

// Option is a change to compare with today. Fields left open stay as today.
type Option struct {
	Name    string   `json:"name"`
	Filter  string   `json:"filter,omitzero"`   // goes into every filter place
	Slot    Slot     `json:"slot,omitzero"`     // replaces the slot
	Returns []Return `json:"returns,omitempty"` // replaces the return side
	Tap     string   `json:"tap,omitzero"`      // cooling tap
	// SpeedRatio is the wheel's new speed over that of the blower table, on every
	// tap: of a belt drive the new motor pulley's diameter over the old one's.
	SpeedRatio float64     `json:"speed_ratio,omitzero"`
	Price      units.Money `json:"price,omitzero" field:"zero"` // installed
}

// Limits are what the house and its owner allow.
type Limits struct {
	WallWidth     units.Length   `json:"wall_width,omitzero"`     // opening in which a grille must fit
	WallHeight    units.Length   `json:"wall_height,omitzero"`    // opening in which a grille must fit
	StudBay       units.Length   `json:"stud_bay,omitzero"`       // clear width between studs
	CabinetWidth  units.Length   `json:"cabinet_width,omitzero"`  // room at the equipment, across the air
	CabinetHeight units.Length   `json:"cabinet_height,omitzero"` // room at the equipment, across the air
	CabinetDepth  units.Length   `json:"cabinet_depth,omitzero"`  // room along the airflow
	CasingFace    units.Length   `json:"casing_face,omitzero"`    // how much larger a casing is than its filters' nominal faces, in width and in height
	CasingDepth   units.Length   `json:"casing_depth,omitzero"`   // the same along the airflow, with collars
	MaxOpenings   int            `json:"max_openings,omitzero"`
	MaxFilterDrop units.Pressure `json:"max_filter_drop,omitzero"` // clean, at the operating point
	MinMERV       int            `json:"min_merv,omitzero"`
	DuctVelocity  units.Speed    `json:"duct_velocity,omitzero"` // highest in return ducts
	// DuctFriction is the highest drop per length of straight return duct.
	DuctFriction units.FrictionRate `json:"duct_friction,omitzero"`
	// FlexCompression is how much shorter a new flex lies than fully stretched, as a
	// share of the stretched length.
	FlexCompression float64     `json:"flex_compression,omitzero" field:"share"`
	Budget          units.Money `json:"budget,omitzero"` // highest price of an option, installed
	// NominalSizes is the series that sizes are picked from; left open: inch.
	NominalSizes SizeSeries `json:"nominal_sizes,omitzero"`

	// When a filter is changed: whichever comes first.
	ChangeDrop        units.Pressure `json:"change_drop,omitzero"`
	ChangeAirflowLoss float64        `json:"change_airflow_loss,omitzero" field:"share"` // share of the clean airflow
	ChangeMonths      units.Duration `json:"change_months,omitzero"`                     // longest calendar time between changes

	// Checks names the sets of published limits with which the house is
	// compared.
	Checks []CheckSet `json:"checks,omitempty"`
}

// Units are the units in which the job is shown where the person chose none: SI
// where its nominal sizes are metric.
func (j *Job) Units() units.Locale {
	if j.Limits.NominalSizes == MetricSizes {
		return units.SI
	}
	return units.IP
}

// SizeSeries is a series of nominal sizes.
type SizeSeries string

const (
	InchSizes   SizeSeries = "inch"
	MetricSizes SizeSeries = "metric"
)

// Values are the words that a file may hold.
func (SizeSeries) Values() []string {
	return []string{string(InchSizes), string(MetricSizes)}
}

// CheckSet names a set of published limits after its standard.
type CheckSet string

const (
	// Title24 is California's energy code for residential air systems.
	Title24 CheckSet = "title_24_part_6"
	// ASHRAE622 is the standard for ventilation and air quality in dwellings.
	ASHRAE622 CheckSet = "ashrae_62_2"
	// IFGC is the model fuel gas code's rule for the return of a furnace.
	IFGC CheckSet = "ifgc"
)

// Values are the words that a file may hold.
func (CheckSet) Values() []string {
	out := make([]string, len(CheckSets()))
	for i, s := range CheckSets() {
		out[i] = string(s)
	}
	return out
}

// CheckSets lists all sets.
func CheckSets() []CheckSet { return []CheckSet{Title24, ASHRAE622, IFGC} }
