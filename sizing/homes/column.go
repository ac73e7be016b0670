package homes

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Column is one column that a list of homes may have.
type Column struct {
	Name string
	Kind message.Message // what its cells hold: "airflow", "text", "one of low, ordinary"
	Text message.ID      // what it means, and what an empty cell is taken for
}

// Columns are all the columns that a list of homes may have, in the order of
// the air.
func Columns() []Column {
	out := make([]Column, len(columns))
	for i, c := range columns {
		out[i] = c.Column
	}
	return out
}

// column knows how to put its cell into a home.
type column struct {
	Column
	// path is the field of the job, so that a fault of the job finds its column.
	path string
	kind *units.Kind // of a quantity, else nil
	set  func(h *home, cell, unit string) error
}

// optionSets is how many upgrades a row may compare.
const optionSets = 4

var columns = slices.Concat(
	siteColumns(), equipmentColumns(), airflowColumns(), filterColumns(), partColumns(), returnColumns(),
	readingColumns(), limitColumns(), optionColumns())

var errOpen = errors.New("zero counts as left open; leave the cell empty to let it be assumed")

// quantity is a column in which zero is refused, since a job takes zero for
// left open.
func quantity[Q interface {
	~float64
	units.Quantity
}](name, path string, text message.ID, field func(*home) *Q) column {
	c := fromZero(name, path, text, field)
	set := c.set
	c.set = func(h *home, cell, unit string) error {
		if err := set(h, cell, unit); err != nil {
			return err
		}
		if *field(h) == 0 {
			return errOpen
		}
		return nil
	}
	return c
}

// fromZero is a quantity of which zero is a value.
func fromZero[Q interface {
	~float64
	units.Quantity
}](name, path string, text message.ID, field func(*home) *Q) column {
	kind := Q(0).Kind()
	return column{Column{name, message.New(message.KindName(kind)), text}, path, kind, func(h *home, cell, unit string) error {
		v, err := kind.Parse(cell, unit)
		if err != nil {
			return err
		}
		*field(h) = Q(v)
		return nil
	}}
}

func words(name, path string, text message.ID, field func(*home) *string) column {
	return column{Column{name, message.New("text"), text}, path, nil, func(h *home, cell, _ string) error {
		*field(h) = cell
		return nil
	}}
}

// whole is a column of whole numbers from 1, or from 0 where zero is a value.
func whole(name, path string, text message.ID, least int, field func(*home) *int) column {
	return column{Column{name, message.New("whole number"), text}, path, nil, func(h *home, cell, _ string) error {
		v, err := strconv.Atoi(cell)
		if err != nil || v < least {
			return fmt.Errorf("%q: want a whole number from %d", cell, least)
		}
		*field(h) = v
		return nil
	}}
}

func number(name, path string, text message.ID, field func(*home) *float64) column {
	return column{Column{name, message.New("number"), text}, path, nil, func(h *home, cell, _ string) error {
		v, err := strconv.ParseFloat(cell, 64)
		if err != nil || !(v > 0 && v < 1e9) {
			return fmt.Errorf("%q: want a number over 0", cell)
		}
		*field(h) = v
		return nil
	}}
}

// word is a text type that lists its values.
type word interface {
	~string
	Values() []string
}

// oneOf is a column of set words, read without regard to case, blanks and
// hyphens.
func oneOf[T word](name, path string, text message.ID, field func(*home) *T) column {
	all := T("").Values()
	kind := fieldpath.OneOf(all)
	return column{Column{name, kind, text}, path, nil, func(h *home, cell, _ string) error {
		word := snake(cell)
		if slices.Contains(all, word) {
			*field(h) = T(word)
			return nil
		}
		if near := fieldpath.Nearest(word, all); near != "" {
			return fmt.Errorf("%q: want %q; it may be %s", cell, near, kind)
		}
		return fmt.Errorf("%q: want %s", cell, kind)
	}}
}

func yesNo(name, path string, text message.ID, field func(*home) *bool) column {
	return column{Column{name, message.New("yes or no"), text}, path, nil, func(h *home, cell, _ string) error {
		switch snake(cell) {
		case "yes", "true", "y", "1":
			*field(h) = true
		case "no", "false", "n", "0":
			*field(h) = false
		default:
			return fmt.Errorf("%q: want yes or no", cell)
		}
		return nil
	}}
}

func siteColumns() []column {
	return []column{
		words("name", "name", "the home; any text", func(h *home) *string { return &h.Name }),
		words("notes", "notes", "any text; nothing is read from it", func(h *home) *string { return &h.Notes }),
		fromZero("altitude", "site.altitude", "above the sea; empty: sea level", func(h *home) *units.Length { return &h.Site.Altitude }),
		quantity("indoor_dry_bulb", "site.indoor_dry_bulb", "return air in cooling; empty: 75 F", func(h *home) *units.Temperature { return &h.Site.IndoorDryBulb }),
		quantity("indoor_wet_bulb", "site.indoor_wet_bulb", "return air in cooling; empty: 63 F, or 12 F under the dry bulb", func(h *home) *units.Temperature { return &h.Site.IndoorWetBulb }),
		quantity("heating_indoor", "site.heating_indoor", "return air in heating; empty: 68 F", func(h *home) *units.Temperature { return &h.Site.HeatingIndoor }),
		quantity("power_price", "site.power_price", "empty: 0.17 $/kWh", func(h *home) *units.EnergyPrice { return &h.Site.PowerPrice }),
		quantity("cooling_hours", "site.cooling_hours", "blower hours a year in cooling; empty: 1000 h where no hours are given", func(h *home) *units.Duration { return &h.Site.CoolingHours }),
		quantity("heating_hours", "site.heating_hours", "blower hours a year in heating; empty: 1000 h where no hours are given", func(h *home) *units.Duration { return &h.Site.HeatingHours }),
		quantity("fan_hours", "site.fan_hours", "hours a year with the blower alone; empty: none", func(h *home) *units.Duration { return &h.Site.FanHours }),
		number("discount_rate", "site.discount_rate", "of money a year later; empty: 0.03", func(h *home) *float64 { return &h.Site.DiscountRate }),
		oneOf("dust", "site.dust", "the household; empty: ordinary", func(h *home) *sizing.DustPreset { return &h.Site.Dust }),
		quantity("dust_rate", "site.dust_rate", "dust in a day of running; empty: that of dust", func(h *home) *units.MassRate { return &h.Site.DustRate }),
	}
}

func equipmentColumns() []column {
	return []column{
		oneOf("equipment_kind", "equipment.kind", "empty: furnace_with_coil", func(h *home) *sizing.EquipmentKind { return &h.Equipment.Kind }),
		quantity("cooling_capacity", "equipment.cooling_capacity", "empty: from the design airflow", func(h *home) *units.Capacity { return &h.Equipment.CoolingCapacity }),
		number("sensible_heat_ratio", "equipment.sensible_heat_ratio", "of the coil as rated; empty: a usual one", func(h *home) *float64 { return &h.Equipment.SensibleHeatRatio }),
		quantity("heating_output", "equipment.heating_output", "empty: 20000 Btu/h a ton of cooling, 12000 for an air handler", func(h *home) *units.HeatRate { return &h.Equipment.HeatingOutput }),
		quantity("rise_low", "equipment.rise_low", "nameplate temperature rise, low end; empty: 30 F, 15 F for an air handler", func(h *home) *units.TemperatureDifference { return &h.Equipment.RiseLow }),
		quantity("rise_high", "equipment.rise_high", "nameplate temperature rise, high end; empty: 60 F, 45 F for an air handler", func(h *home) *units.TemperatureDifference { return &h.Equipment.RiseHigh }),
		quantity("rated_external_static", "equipment.rated_external_static", "empty: 0.5 in. w.c.", func(h *home) *units.Pressure { return &h.Equipment.RatedExternalStatic }),
		points("blower_points", blowerPath+".points", "the blower's table, of one tap, as airflow @ external static @ power, parted by semicolons: \"1400 @ 0.1 @ 450; 1150 @ 0.5 @ 410\"; bare numbers are in cfm, in. w.c. and W, others have their unit; power may be left out of all; empty: a generic table"),
		oneOf("motor", "equipment.blower.motor", "of the blower; empty: psc", func(h *home) *blower.Motor { return &h.Equipment.Blower.Motor }),
	}
}

func airflowColumns() []column {
	return []column{
		quantity("design_airflow", "design_airflow", "in cooling; empty: from the cooling capacity", func(h *home) *units.Flow { return &h.DesignAirflow }),
		quantity("airflow_per_capacity", "airflow_per_capacity", "where no design airflow is given; empty: 400 cfm/ton", func(h *home) *units.FlowPerCapacity { return &h.AirflowPerCapacity }),
		quantity("heating_airflow", "heating_airflow", "empty: by output and temperature rise", func(h *home) *units.Flow { return &h.HeatingAirflow }),
		quantity("target_face_velocity", "target_face_velocity", "empty: 300 fpm", func(h *home) *units.Speed { return &h.TargetFaceVelocity }),
	}
}

func filterColumns() []column {
	slot := func(h *home) *sizing.Slot { return &h.Slot }
	return []column{
		size("slot", "slot", "the central filter's nominal size, \"16x25x1\"; empty: a usual one for the airflow, 1 in deep", slot),
		quantity("slot_width", "slot.width", "in place of slot", func(h *home) *units.Length { return &h.Slot.Width }),
		quantity("slot_height", "slot.height", "in place of slot", func(h *home) *units.Length { return &h.Slot.Height }),
		quantity("slot_depth", "slot.depth", "in place of slot; empty: the filter's depth, or 1 in", func(h *home) *units.Length { return &h.Slot.Depth }),
		fromZero("slot_gap", "slot.gap", "round the filter's frame; empty: sealed", func(h *home) *units.Length { return &h.Slot.Gap }),
		whole("slot_gap_bends", "slot.gap_bends", "turns of the air in the gap; empty: none", 0, func(h *home) *int { return &h.Slot.GapBends }),
		quantity("slot_edge_cover", "slot.edge_cover", "of the slot over the frame; empty: 0.5 in", func(h *home) *units.Length { return &h.Slot.EdgeCover }),
		whole("filter_merv", todayFilter+".merv", "1 to 16; empty: 8", 1, func(h *home) *int { return &h.filter.MERV }),
		quantity("filter_width", todayFilter+".width", "nominal size that its figures are for; empty: the slot's", func(h *home) *units.Length { return &h.filter.Width }),
		quantity("filter_height", todayFilter+".height", "empty: the slot's", func(h *home) *units.Length { return &h.filter.Height }),
		quantity("filter_depth", todayFilter+".depth", "empty: the slot's", func(h *home) *units.Length { return &h.filter.Depth }),
		quantity("filter_rated_drop", todayFilter+".rating[0].drop", "clean drop printed on it, with an airflow or a face velocity; empty: estimated from MERV and depth", func(h *home) *units.Pressure { return &h.rating.Drop }),
		quantity("filter_rated_airflow", todayFilter+".rating[0].airflow", "airflow of filter_rated_drop", func(h *home) *units.Flow { return &h.rating.Airflow }),
		quantity("filter_rated_face_velocity", todayFilter+".rating[0].face_velocity", "face velocity of filter_rated_drop", func(h *home) *units.Speed { return &h.rating.FaceVelocity }),
		number("filter_exponent", todayFilter+".exponent", "of its drop in the airflow, 1 to 2; empty: a usual one", func(h *home) *float64 { return &h.filter.Exponent }),
		whole("filter_pleats", todayFilter+".pleats", "in its width; with the media's resistance or permeability the drop follows from the make", 2, func(h *home) *int { return &h.filter.Pleats }),
		quantity("filter_pleat_depth", todayFilter+".pleat_depth", "empty: the filter's depth less 1/4 in", func(h *home) *units.Length { return &h.filter.PleatDepth }),
		quantity("filter_media_thickness", todayFilter+".media_thickness", "empty: a usual one", func(h *home) *units.Length { return &h.filter.MediaThickness }),
		quantity("filter_fold_gap", todayFilter+".fold_gap", "empty: a usual one", func(h *home) *units.Length { return &h.filter.FoldGap }),
		quantity("filter_media_resistance", todayFilter+".media_resistance", "drop per velocity through the media", func(h *home) *units.MediaResistance { return &h.filter.MediaResistance }),
		quantity("filter_media_permeability", todayFilter+".media_permeability", "air permeability at 125 Pa, in place of the resistance", func(h *home) *units.Permeability { return &h.filter.MediaPermeability }),
		quantity("filter_media_area", todayFilter+".media_area", "as printed; empty: from the pleats", func(h *home) *units.Area { return &h.filter.MediaArea }),
		oneOf("filter_bracing", todayFilter+".bracing", "empty: none", func(h *home) *filter.Bracing { return &h.filter.Bracing }),
		quantity("filter_final_drop", todayFilter+".final_drop", "as printed; empty: a usual one", func(h *home) *units.Pressure { return &h.filter.FinalDrop }),
		quantity("filter_dust_capacity", todayFilter+".dust_capacity", "empty: a usual one for depth and MERV", func(h *home) *units.Mass { return &h.filter.DustCapacity }),
		quantity("filter_price", todayFilter+".price", "empty: 9 $ an inch of depth", func(h *home) *units.Money { return &h.filter.Price }),
	}
}

func partColumns() []column {
	return []column{
		quantity("return_drop", returnPath+".drop", "return grille and ducts together; empty: 20 % of the rated external static", func(h *home) *units.Pressure { return &h.returns.Drop }),
		quantity("return_airflow", returnPath+".airflow", "airflow of return_drop; empty: the design airflow", func(h *home) *units.Flow { return &h.returns.Airflow }),
		quantity("coil_drop", "coil.drop", "wet cooling coil; empty: 40 % of the rated external static, none for an air handler", func(h *home) *units.Pressure { return &h.Coil.Drop }),
		quantity("coil_airflow", "coil.airflow", "airflow of coil_drop; empty: the design airflow", func(h *home) *units.Flow { return &h.Coil.Airflow }),
		quantity("supply_drop", "supply.drop", "supply ducts and registers; empty: 20 % of the rated external static", func(h *home) *units.Pressure { return &h.Supply.Drop }),
		quantity("supply_airflow", "supply.airflow", "airflow of supply_drop; empty: the design airflow", func(h *home) *units.Flow { return &h.Supply.Airflow }),
	}
}

// readingColumns are one round with the gauge. What is read replaces what is
// assumed or typed of the part.
func readingColumns() []column {
	r := func(h *home) *sizing.Reading { return &h.reading }
	return []column{
		quantity("return_plenum", readingPath+".return_plenum", "static read before the filter, either sign", func(h *home) *units.Pressure { return &r(h).ReturnPlenum }),
		quantity("blower_inlet", readingPath+".blower_inlet", "static read between filter and blower", func(h *home) *units.Pressure { return &r(h).BlowerInlet }),
		quantity("blower_outlet", readingPath+".blower_outlet", "static read between blower and coil", func(h *home) *units.Pressure { return &r(h).BlowerOutlet }),
		quantity("supply_plenum", readingPath+".supply_plenum", "static read after the coil", func(h *home) *units.Pressure { return &r(h).SupplyPlenum }),
		quantity("filter_drop", readingPath+".filter_drop", "read across the filter", func(h *home) *units.Pressure { return &r(h).FilterDrop }),
		quantity("measured_airflow", readingPath+".airflow", "where it was measured; empty: from the blower table at the external static that was read", func(h *home) *units.Flow { return &r(h).Airflow }),
		quantity("measured_power", readingPath+".blower_power", "of the blower, where it was measured", func(h *home) *units.Power { return &r(h).BlowerPower }),
		yesNo("filter_is_clean", readingPath+".filter_is_clean", "a new filter was in place when it was read; empty: no", func(h *home) *bool { return &r(h).FilterIsClean }),
		oneOf("reading_mode", readingPath+".mode", "empty: cooling", func(h *home) *sizing.Mode { return &r(h).Mode }),
	}
}

func limitColumns() []column {
	l := func(h *home) *sizing.Limits { return &h.Limits }
	return []column{
		quantity("wall_width", "limits.wall_width", "opening that a grille may take; empty: any", func(h *home) *units.Length { return &l(h).WallWidth }),
		quantity("wall_height", "limits.wall_height", "opening that a grille may take; empty: any", func(h *home) *units.Length { return &l(h).WallHeight }),
		quantity("stud_bay", "limits.stud_bay", "clear width between studs; empty: any", func(h *home) *units.Length { return &l(h).StudBay }),
		quantity("cabinet_width", "limits.cabinet_width", "room at the equipment; empty: any", func(h *home) *units.Length { return &l(h).CabinetWidth }),
		quantity("cabinet_height", "limits.cabinet_height", "room at the equipment; empty: any", func(h *home) *units.Length { return &l(h).CabinetHeight }),
		quantity("cabinet_depth", "limits.cabinet_depth", "room along the airflow; empty: any", func(h *home) *units.Length { return &l(h).CabinetDepth }),
		whole("max_openings", "limits.max_openings", "filter grilles; empty: 3", 1, func(h *home) *int { return &l(h).MaxOpenings }),
		quantity("max_filter_drop", "limits.max_filter_drop", "clean; empty: 20 % of the rated external static", func(h *home) *units.Pressure { return &l(h).MaxFilterDrop }),
		whole("min_merv", "limits.min_merv", "of the sizes looked for; empty: today's", 1, func(h *home) *int { return &l(h).MinMERV }),
		quantity("duct_velocity", "limits.duct_velocity", "highest in return ducts; empty: 700 fpm", func(h *home) *units.Speed { return &l(h).DuctVelocity }),
		quantity("budget", "limits.budget", "empty: none", func(h *home) *units.Money { return &l(h).Budget }),
		oneOf("nominal_sizes", "limits.nominal_sizes", "series that sizes are picked from; empty: inch", func(h *home) *sizing.SizeSeries { return &l(h).NominalSizes }),
		quantity("change_drop", "limits.change_drop", "drop at which the filter is changed; empty: the filter's own limit", func(h *home) *units.Pressure { return &l(h).ChangeDrop }),
		number("change_airflow_loss", "limits.change_airflow_loss", "share of the clean airflow at which the filter is changed; empty: 0.1", func(h *home) *float64 { return &l(h).ChangeAirflowLoss }),
		quantity("change_months", "limits.change_months", "longest time between changes; empty: 12 month", func(h *home) *units.Duration { return &l(h).ChangeMonths }),
		checks(),
	}
}

// checks is a column of sets of published limits.
func checks() column {
	const text message.ID = "sets of published limits to hold the home against, never a permit; empty: none"
	one := oneOf("checks", "limits.checks", text, func(h *home) *sizing.CheckSet { return &h.check })
	c := one
	c.Kind = message.New("any of {words}, with blanks between", "words", strings.Join(sizing.CheckSet("").Values(), ", "))
	c.set = func(h *home, cell, unit string) error {
		for word := range strings.FieldsSeq(cell) {
			if err := one.set(h, word, unit); err != nil {
				return err
			}
			h.Limits.Checks = append(h.Limits.Checks, h.check)
		}
		return nil
	}
	return c
}

// optionColumns are the upgrades a row may compare: option_slot, option_merv
// and so on, then option_2_slot and so on.
func optionColumns() []column {
	var out []column
	for n := range optionSets {
		name, path, file := optionPrefix(n), optionPath(n), optionFilterPath(n)
		o := func(h *home) *option { return &h.options[n] }
		out = append(out,
			words(name+"name", path+".name", "of an upgrade to compare; empty: its size and MERV", func(h *home) *string { return &o(h).Name }),
			size(name+"slot", path+".slot", "nominal size of the upgrade's filter, \"20x25x4\"; empty: today's slot", func(h *home) *sizing.Slot { return &o(h).Slot }),
			whole(name+"merv", file+".merv", "of the upgrade's filter; empty: as today's", 1, func(h *home) *int { return &o(h).filter.MERV }),
			quantity(name+"rated_drop", file+".rating[0].drop", "clean drop printed on the upgrade's filter; empty: estimated from MERV and depth", func(h *home) *units.Pressure { return &o(h).rating.Drop }),
			quantity(name+"rated_airflow", file+".rating[0].airflow", "airflow of the rated drop", func(h *home) *units.Flow { return &o(h).rating.Airflow }),
			quantity(name+"rated_face_velocity", file+".rating[0].face_velocity", "face velocity of the rated drop", func(h *home) *units.Speed { return &o(h).rating.FaceVelocity }),
			quantity(name+"filter_price", file+".price", "empty: 9 $ an inch of depth", func(h *home) *units.Money { return &o(h).filter.Price }),
			fromZero(name+"price", path+".price", "of the upgrade, installed; empty: nothing", func(h *home) *units.Money { return &o(h).Price }),
		)
	}
	return out
}

func optionPrefix(n int) string {
	if n == 0 {
		return "option_"
	}
	return fmt.Sprintf("option_%d_", n+1)
}
