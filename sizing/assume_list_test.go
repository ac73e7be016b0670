package sizing

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// What is assumed of four houses, each with its reason: a fifth, two fifths and a fifth
// of 0.50 in. w.c.; 60000 Btu/h are 20000 a ton, 36000 of a heat pump 12000; 60000 at
// 5000 ft are less 20 %; 1234 cfm warm by 45 F by 1.08, in air of this moisture 1229. At
// 5000 ft, in 0.836 of the air, 36000 Btu/h warm 1329 cfm by 30 F and 48000 warm 1519 by
// 35. Common practice, no source, unless it is said.
func TestWhatIsAssumed_Identity(t *testing.T) {
	type note struct{ path, text, source string }
	hold := func(name string, j Job, want []note) {
		t.Helper()
		var got []note
		for _, a := range solved(t, j).Assumptions {
			got = append(got, note{a.Path, a.Text.String(), string(a.Source)})
		}
		assert.Equal(t, want, got, name)
	}
	usual := []note{
		{"site.indoor_dry_bulb", "return air dry bulb in cooling: 75.0 °F", "common practice, no source"},
		{"site.indoor_wet_bulb", "return air wet bulb in cooling: 63.0 °F", "common practice, no source"},
		{"site.heating_indoor", "return air in heating: 68.0 °F", "common practice, no source"},
		{"site.power_price", "price of power: 0.170 $/kWh", "common practice, no source"},
		{"site.cooling_hours", "the blower runs 1000 h a year in cooling and 1000 h in heating", "common practice, no source"},
		{"site.discount_rate", "money a year later counts 3 % less", "common practice, no source"},
		{"site.dust", "an ordinary household's dust: 1.20 g/day of running", "invented preset"},
		{"target_face_velocity", "target face velocity: 300 fpm", "common practice, no source"},
		{"equipment.kind", "a furnace with a cooling coil on it: filter, coil and ducts are external", "common practice, no source"},
		{"equipment.heating_output", "heating output: 60000 Btu/h", "common practice, no source"},
		{"equipment.rise_low", "minimum temperature rise of the nameplate: 30.0 °F", "common practice, no source"},
		{"equipment.rise_high", "maximum temperature rise of the nameplate: 60.0 °F", "common practice, no source"},
		{"equipment.eer", "the outdoor unit's EER: 11 Btu/(W h)", "common practice, no source"},
		{"equipment.rated_external_static", "rated external static: 0.500 in. w.c.", "common practice, no source"},
		{"equipment.blower.motor", "a PSC motor", "common practice, no source"},
		{"equipment.blower.taps", "a generic blower table that gives 1200 cfm at 0.500 in. w.c.", "generic blower, invented for this program: plausible for its motor kind, no maker's data"},
		{"equipment.blower.cooling_tap", "cooling runs at tap high of the generic table", "generic blower, invented for this program: plausible for its motor kind, no maker's data"},
		{"equipment.blower.heating_tap", "heating runs at tap medium of the generic table", "generic blower, invented for this program: plausible for its motor kind, no maker's data"},
		{"heating_airflow", "heating airflow: 1229 cfm, which warms by 45.0 °F, the middle of the range, at an output of 60000 Btu/h", "output and temperature rise range of the nameplate; the middle of the range is common practice, no source"},
		{"slot.width", "a filter slot of 16.00 in by 25.00 in", "common practice, no source"},
		{"slot.depth", "the slot takes a filter 1.00 in deep", "common practice, no source"},
		{"slot.filter", "a pleated MERV 8 filter", "invented generic filter"},
		{"supply", "supply ducts drop 0.100 in. w.c. at the design airflow", "common practice, no source"},
		{"coil", "cooling coil drop 0.200 in. w.c. at the design airflow", "common practice, no source"},
		{"equipment.coil_dry_share", "the coil drops 20 % less dry, in heating, than wet", "common practice, no source"},
		{"returns", "return ducts and grille drop 0.100 in. w.c. at the design airflow", "common practice, no source"},
		{"limits.duct_velocity", "highest velocity in return ducts: 700 fpm", "common practice, no source"},
		{"limits.duct_friction", "highest friction in return ducts: 0.080 in. w.c./100 ft", "common practice, no source"},
		{"limits.flex_compression", "a new flex has 4 % slack", "common practice, no source"},
		{"limits.change_months", "a filter is changed after 12 months at the latest", "common practice, no source"},
		{"limits.change_airflow_loss", "a filter is changed when the airflow has fallen by 10 %", "common practice, no source"},
		{"slot.gap", "the filter is sealed in its frame: no air slips past", "this program's default, on the favorable side: a frame without a gap"},
		{"slot.edge_cover", "the edge of the slot covers the filter for 0.50 in", "common practice, no source"},
		{"slot.entry_coefficient", "the air enters the slot and turns into it without loss", "this program's default, on the favorable side: no loss"},
		{"readings", "today's filter is clean", "this program's default, on the favorable side: no reading over the filter says how dirty it is"},
		{"site.altitude", "the house is at sea level", "this program's default, on the favorable side: air is densest there"},
		{"slot.filter", "generic MERV 8: media 2.3 times the face, by its depth", "invented ratio by depth"},
		{"slot.filter", "generic MERV 8: it holds 32 g of dust per square metre of media", "invented estimate"},
		{"slot.filter", "generic MERV 8: a price of $9.00 by its depth", "common practice, no source"},
	}
	hold("least", least(), usual)
	// of gives notes of the least house again, by their paths.
	of := func(paths ...string) (out []note) {
		for _, path := range paths {
			i := slices.IndexFunc(usual, func(n note) bool { return n.path == path })
			out = append(out, usual[i])
		}
		return out
	}
	j := twoReturns()
	j.Returns[0].Ends, j.Returns[0].Grille.FreeArea = NoEnds, 0.6
	j.Returns = append(j.Returns, Return{Runs: []duct.Run{{Shape: duct.Rectangular, Width: 10 * units.Inch, Height: 8 * units.Inch, Length: 1}, {Shape: duct.Flex, Diameter: 9 * units.Inch, Length: 1}}})
	j.Site.FanHours, j.Site.Altitude, j.Coil.Drop, j.Limits.CabinetDepth = 100*units.Hour, 5000*units.Foot, 10, 10*units.Inch
	j.Options = []Option{{Name: "o", Returns: []Return{{Runs: []duct.Run{{Shape: duct.Flex, Diameter: 12 * units.Inch, Length: 1}}}}, Slot: Slot{Width: 20 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "f"}}}
	j.Filters = append(j.Filters, filter.Filter{Name: "f", MERV: 11}, filter.Filter{Name: "unused"})
	hold("heat pump", j, slices.Concat(
		of("site.indoor_dry_bulb", "site.indoor_wet_bulb", "site.heating_indoor", "site.power_price", "site.discount_rate", "site.dust", "target_face_velocity"),
		[]note{
			{"equipment.heating_output", "heating output: 36000 Btu/h", "common practice, no source"},
			{"equipment.rise_low", "minimum temperature rise of the nameplate: 15.0 °F", "common practice, no source"},
			{"equipment.rise_high", "maximum temperature rise of the nameplate: 45.0 °F", "common practice, no source"},
		},
		of("equipment.eer", "equipment.rated_external_static", "equipment.blower.motor", "equipment.blower.taps", "equipment.blower.cooling_tap", "equipment.blower.heating_tap"),
		[]note{
			{"equipment.blower.fan_tap", "the fan alone runs at the cooling tap, tap high", "common practice, no source"},
			{"heating_airflow", "heating airflow: 1329 cfm, which warms by 30.0 °F, the middle of the range, at an output of 36000 Btu/h", "output and temperature rise range of the nameplate; the middle of the range is common practice, no source"},
		},
		[]note{{"slot.none", "no filter at the unit, since one is in the grille of hall and bedroom", "common practice, no source"}},
		of("supply"),
		[]note{
			{"coil", "the coil is inside the air handler: its drop is within the rated external static, so what is typed of it is not counted", "the kind of equipment"},
		},
		of("limits.duct_velocity", "limits.duct_friction", "limits.flex_compression"),
		[]note{
			{"limits.casing_face", "a casing is wider and taller than its filters by 1.50 in", "common practice, no source"},
			{"limits.casing_depth", "a casing is deeper than its filter by 3.00 in", "common practice, no source"},
		},
		of("limits.change_months", "limits.change_airflow_loss"),
		[]note{
			{"returns[0].runs[0].material", "hall: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
			{"returns[1].grille.free_area", "bedroom: 65 % of the grille is open", "stamped face, usual 0.60 to 0.70, common practice, no source"},
			{"returns[1].ends", "bedroom: no fitting begins or ends the duct, so the usual ones are counted: box behind a grille, duct leaving at the back; duct emptying into a plenum; \"ends\": \"none\" leaves them out", "common practice, no source"},
			{"returns[2].runs[0].material", "return 3: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
			{"returns[2].runs[1].compression", "return 3: the flex lies 4 % shorter than fully stretched; type 0.1 % for one without slack", "as of a new flex: common practice, no source"},
			{"returns[2].ends", "return 3: no fitting begins or ends the duct, so the usual ones are counted: entry flush with a wall, sharp edge; duct emptying into a plenum; \"ends\": \"none\" leaves them out", "common practice, no source"},
			{"options[0].returns[0].runs[0].compression", "o, return 1: the flex lies 4 % shorter than fully stretched; type 0.1 % for one without slack", "as of a new flex: common practice, no source"},
			{"options[0].returns[0].ends", "o, return 1: no fitting begins or ends the duct, so the usual ones are counted: entry flush with a wall, sharp edge; duct emptying into a plenum; \"ends\": \"none\" leaves them out", "common practice, no source"},
			{"returns[0].filter", "hall: no air slips round the filter in the grille", "this program's default, on the favorable side: a frame without a gap"},
			{"returns[1].filter", "bedroom: no air slips round the filter in the grille", "this program's default, on the favorable side: a frame without a gap"},
			{"options[0].slot.gap", "o: the filter is sealed in its frame: no air slips past", "this program's default, on the favorable side: a frame without a gap"},
			{"options[0].slot.edge_cover", "o: the edge of the slot covers the filter for 0.50 in", "common practice, no source"},
			{"options[0].slot.entry_coefficient", "o: the air enters the slot and turns into it without loss", "this program's default, on the favorable side: no loss"},
		},
		of("readings"),
		[]note{
			{"slot.filter", "generic MERV 8: media 2.3 times the face, by its depth", "invented ratio by depth"},
			{"slot.filter", "generic MERV 8: it holds 32 g of dust per square metre of media", "invented estimate"},
			{"slot.filter", "generic MERV 8: a price of $9.00 by its depth", "common practice, no source"},
			{"filters[1].media_area", "f: media 2.3 times the face, by its depth", "invented ratio by depth"},
			{"filters[1].dust_capacity", "f: it holds 32 g of dust per square metre of media", "invented estimate"},
			{"filters[1].price", "f: a price of $9.00 by its depth", "common practice, no source"},
		},
	))
	j = pinned()
	j.Site.Altitude, j.Equipment.NoHeating, j.Equipment.CoolingCapacity = 5000*units.Foot, true, 0
	j.Equipment.Blower.Taps = append(j.Equipment.Blower.Taps, pinnedTap("high", 1250, 600))
	hold("no heat", j, slices.Concat(
		of("site.indoor_dry_bulb", "site.indoor_wet_bulb", "site.heating_indoor", "site.power_price"),
		[]note{
			{"site.cooling_hours", "the blower runs 1000 h a year in cooling", "common practice, no source"},
		},
		of("site.discount_rate", "site.dust"),
		[]note{
			{"airflow_per_capacity", "airflow per cooling capacity: 400 cfm/ton", "common practice, no source"},
			{"equipment.cooling_capacity", "cooling capacity: 3.0 ton", "from the design airflow"},
		},
		of("target_face_velocity", "equipment.eer"),
		[]note{
			{"equipment.blower.cooling_tap", "cooling runs at tap high", "common practice, no source"},
		},
		of("limits.duct_velocity", "limits.duct_friction", "limits.flex_compression", "limits.change_months", "limits.change_airflow_loss"),
		[]note{
			{"returns[0].runs[0].material", "hall: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
			{"returns[1].runs[0].material", "den: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
		},
		of("slot.gap", "slot.edge_cover", "slot.entry_coefficient", "readings"),
		[]note{
			{"filters[0].media_area", "own: media 2.3 times the face, by its depth", "invented ratio by depth"},
			{"filters[0].dust_capacity", "own: it holds 32 g of dust per square metre of media", "invented estimate"},
			{"filters[0].price", "own: a price of $9.00 by its depth", "common practice, no source"},
		},
	))
	j.Equipment.NoHeating, j.Equipment.HeatingOutput, j.Equipment.RiseLow, j.Equipment.RiseHigh = false, 0, 0, 50*units.FahrenheitDegree
	j.Slot = Slot{Filter: "own"}
	hold("thin air", j, slices.Concat(
		of("site.indoor_dry_bulb", "site.indoor_wet_bulb", "site.heating_indoor", "site.power_price", "site.cooling_hours", "site.discount_rate", "site.dust"),
		[]note{
			{"airflow_per_capacity", "airflow per cooling capacity: 400 cfm/ton", "common practice, no source"},
			{"equipment.cooling_capacity", "cooling capacity: 3.0 ton", "from the design airflow"},
		},
		of("target_face_velocity", "equipment.heating_output"),
		[]note{
			{"equipment.heating_output_at", "the heating output is for sea level, not for 5000.0 ft", "fuel gas code, from secondary texts: 4 % for each 1000 ft (305 m) above sea level, at sites above 2000 ft (610 m); some read it as above 2000 ft, some sealed makes lose 2 %: type what the nameplate or its manual says"},
			{"equipment.altitude_derate", "the furnace gives 4 % less for each 1000 ft (305 m) of altitude: 48000 Btu/h", "fuel gas code, from secondary texts: 4 % for each 1000 ft (305 m) above sea level, at sites above 2000 ft (610 m); some read it as above 2000 ft, some sealed makes lose 2 %: type what the nameplate or its manual says"},
			{"equipment.rise_low", "minimum temperature rise of the nameplate: 20.0 °F", "common practice, no source"},
		},
		of("equipment.eer"),
		[]note{
			{"equipment.blower.cooling_tap", "cooling runs at tap high", "common practice, no source"},
			{"equipment.blower.heating_tap", "heating runs at tap high", "common practice, no source"},
			{"heating_airflow", "heating airflow: 1519 cfm, which warms by 35.0 °F, the middle of the range, at an output of 48000 Btu/h", "output and temperature rise range of the nameplate; the middle of the range is common practice, no source"},
		},
		of("slot.width", "equipment.coil_dry_share", "limits.duct_velocity", "limits.duct_friction", "limits.flex_compression", "limits.change_months", "limits.change_airflow_loss"),
		[]note{
			{"returns[0].runs[0].material", "hall: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
			{"returns[1].runs[0].material", "den: the duct is of galvanized metal", "this program's default, on the favorable side: the smoothest of the usual walls"},
		},
		of("slot.gap", "slot.edge_cover", "slot.entry_coefficient", "readings"),
		[]note{
			{"filters[0].media_area", "own: media 2.3 times the face, by its depth", "invented ratio by depth"},
			{"filters[0].dust_capacity", "own: it holds 32 g of dust per square metre of media", "invented estimate"},
			{"filters[0].price", "own: a price of $9.00 by its depth", "common practice, no source"},
		},
	))
}

// A return without a duct says that its drop is missing, and its drop stays assumed;
// one said to have none does not.
func TestReturnWithoutDuctIsSaidToLackIt(t *testing.T) {
	lack := func(s *Study) bool {
		return slices.ContainsFunc(s.Assumptions, func(a Assumption) bool {
			return a.Path == "returns[0].ends" && strings.Contains(a.In(units.IP), "hall: no duct is entered, so its drop is missing")
		})
	}
	basis := func(s *Study) PartDrop { return s.Today().Clean.Parts[0] }
	j := cramped()
	s, err := Solve(j)
	require.NoError(t, err)
	assert.False(t, lack(s))
	assert.Equal(t, message.ID("geometry"), basis(s).Basis)

	j.Returns[0].Runs, j.Returns[0].Fittings = nil, nil
	s, err = Solve(j)
	require.NoError(t, err)
	assert.True(t, lack(s))
	assert.Equal(t, message.ID("assumed"), basis(s).Basis)

	j.Options = []Option{{Name: "ducted", Returns: cramped().Returns}}
	s, err = Solve(j)
	require.NoError(t, err)
	assert.Equal(t, message.ID("geometry"), s.Option("ducted").Clean.Parts[0].Basis)

	j.Returns[0].Ends = NoEnds
	s, err = Solve(j)
	require.NoError(t, err)
	assert.False(t, lack(s))
	assert.Equal(t, message.ID("geometry"), basis(s).Basis)

	j.Returns = []Return{{Grille: duct.Grille{Width: 6 * units.Inch, Height: 6 * units.Inch}}}
	j.Options = nil
	s, err = Solve(j)
	require.NoError(t, err)
	assert.Equal(t, message.ID("assumed"), basis(s).Basis)
	assert.True(t, basis(s).Over, "the missing duct only adds to a drop that is too high")
}

// A filter in a grille takes the place of the one that is assumed at the unit: the list
// says so.
func TestFilterInAGrilleIsSaidToReplaceTheAssumedOne(t *testing.T) {
	j := cramped()
	j.Slot = Slot{}
	j.Filters = []filter.Filter{{Name: "pleated", Depth: units.Inch, MERV: 8}}
	said := func() string {
		for _, a := range solved(t, j).Assumptions {
			if a.Path == "slot.none" {
				return a.In(units.IP)
			}
		}
		return ""
	}
	assert.Empty(t, said())
	j.Returns[1].Filter = "pleated"
	assert.Contains(t, said(), "no filter at the unit, since one is in the grille of den")
	j.Slot.None = true
	assert.Empty(t, said(), "it was said that there is none")
}
