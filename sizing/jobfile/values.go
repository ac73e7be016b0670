package jobfile

import (
	"reflect"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/lesson"
)

// values are the words that a text type may hold, in the order of the engine.
var values = map[reflect.Type][]string{
	reflect.TypeFor[sizing.DustPreset]():    words(sizing.DustLow, sizing.DustOrdinary, sizing.DustPets, sizing.DustWorks),
	reflect.TypeFor[sizing.EquipmentKind](): words(sizing.FurnaceWithCoil, sizing.Furnace, sizing.AirHandler),
	reflect.TypeFor[sizing.OutputPlace]():   words(sizing.OutputAtSeaLevel, sizing.OutputAtSite),
	reflect.TypeFor[sizing.DuctEnds]():      words(sizing.UsualEnds, sizing.NoEnds),
	reflect.TypeFor[sizing.Mode]():          words(sizing.Cooling, sizing.Heating),
	reflect.TypeFor[sizing.CheckSet]():      words(sizing.CheckSets()...),
	reflect.TypeFor[sizing.SizeSeries]():    words(sizing.InchSizes, sizing.MetricSizes),
	reflect.TypeFor[blower.Motor]():         words(blower.Motors()...),
	reflect.TypeFor[blower.Included]():      words(blower.IncludesWetCoil, blower.IncludesFilter),
	reflect.TypeFor[duct.Shape]():           words(duct.Round, duct.Flex, duct.Rectangular),
	reflect.TypeFor[duct.Material]():        words(duct.Galvanized, duct.Spiral, duct.DuctBoard, duct.FacedLiner, duct.FlexLiner, duct.Rough),
	reflect.TypeFor[duct.GrilleStyle]():     words(duct.Stamped, duct.Bar, duct.Perforated),
	reflect.TypeFor[duct.FittingKind]():     fittingKinds(),
	reflect.TypeFor[filter.Bracing]():       words(filter.Unbraced, filter.OneSide, filter.BothSides, filter.WireBacked, filter.RigidBox),
}

func words[T ~string](all ...T) []string {
	out := make([]string, len(all))
	for i, w := range all {
		out[i] = string(w)
	}
	return out
}

func fittingKinds() []string {
	var out []string
	for _, f := range duct.Fittings() {
		out = append(out, string(f.Kind))
	}
	return out
}

// lessonValues are those of the types of a demonstration.
var lessonValues = map[reflect.Type][]string{
	reflect.TypeFor[lesson.State]():  words(lesson.States()...),
	reflect.TypeFor[lesson.Chart]():  words(lesson.Charts()...),
	reflect.TypeFor[lesson.Goes]():   words(lesson.Ways()...),
	reflect.TypeFor[lesson.Number](): words(lesson.Numbers()...),
}

// valuesOf gives the words of a text type, nil where any text will do.
func valuesOf(t reflect.Type) []string {
	if v := lessonValues[t]; v != nil {
		return v
	}
	return values[t]
}
