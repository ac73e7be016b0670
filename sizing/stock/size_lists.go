package stock

import (
	"cmp"
	"embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"returnbench/sizing/units"
)

//go:embed *.csv
var files embed.FS

// Filters are the nominal filter sizes, inch first, then by face and depth.
func Filters() []Size { return slices.Clone(filters()) }

// FiltersFor are the filters whose nominal face is that of s, shallowest first:
// those that a filter grille or slot of that face can hold.
func FiltersFor(s Size) []Size {
	return slices.DeleteFunc(Filters(), func(f Size) bool { return f.System != s.System || !f.SameFace(s) })
}

// Cabinets are the sizes of filter for which cabinets are sold;
// Assembly.Outside is the size of the cabinet.
func Cabinets() []Size { return slices.Clone(cabinets()) }

// Grilles are the return grilles without a filter, by their opening.
func Grilles() []Size { return slices.Clone(grilles()) }

// FilterGrilles are the return grilles that hold a filter, by their opening,
// which is the filter's nominal face.
func FilterGrilles() []Size { return slices.Clone(filterGrilles()) }

// Rounds are the diameters of rigid round duct, smallest first.
func Rounds(sys units.System) []units.Length { return slices.Clone(ducts()[ductList{sys, "round"}]) }

// Flexes are the diameters of flex, smallest first.
func Flexes(sys units.System) []units.Length { return slices.Clone(ducts()[ductList{sys, "flex"}]) }

// MaxAspect is the flattest rectangular duct listed, longer to shorter side
// (common practice, no source).
const MaxAspect = 4

// Rectangulars are the rectangular ducts no flatter than MaxAspect, by face.
func Rectangulars(sys units.System) []Size { return slices.Clone(rectangulars()[sys]) }

func rectangularsOf(sys units.System) []Size {
	var sizes []Size
	sides := ducts()[ductList{sys, "sides"}]
	for i, short := range sides {
		for _, long := range sides[i:] {
			if long <= short*MaxAspect+slip {
				sizes = append(sizes, Size{Width: short, Height: long, System: sys})
			}
		}
	}
	return sorted(sizes)
}

// Of keeps the sizes of one system.
func Of(sys units.System, sizes []Size) []Size {
	return slices.DeleteFunc(slices.Clone(sizes), func(s Size) bool { return s.System != sys })
}

var (
	filters       = sync.OnceValue(func() []Size { return deepSizes("filters.csv") })
	cabinets      = sync.OnceValue(func() []Size { return deepSizes("cabinets.csv") })
	grilles       = sync.OnceValue(func() []Size { return faceSizes("grilles.csv") })
	filterGrilles = sync.OnceValue(func() []Size { return faceSizes("filter_grilles.csv") })
	ducts         = sync.OnceValue(readDucts)
	rectangulars  = sync.OnceValue(func() map[units.System][]Size {
		return map[units.System][]Size{units.InchPound: rectangularsOf(units.InchPound), units.Metric: rectangularsOf(units.Metric)}
	})
)

// deepSizes reads lines of system, width, height, depths.
func deepSizes(file string) []Size {
	var sizes []Size
	for _, line := range lines(file) {
		sys := system(line[0])
		for _, depth := range lengths(sys, line[3]) {
			sizes = append(sizes, Size{length(sys, line[1]), length(sys, line[2]), depth, sys})
		}
	}
	return sorted(sizes)
}

// faceSizes reads lines of system, width, heights.
func faceSizes(file string) []Size {
	var sizes []Size
	for _, line := range lines(file) {
		sys := system(line[0])
		for _, height := range lengths(sys, line[2]) {
			sizes = append(sizes, Size{Width: length(sys, line[1]), Height: height, System: sys})
		}
	}
	return sorted(sizes)
}

type ductList struct {
	system units.System
	kind   string
}

func readDucts() map[ductList][]units.Length {
	lists := map[ductList][]units.Length{}
	for _, line := range lines("ducts.csv") {
		sys := system(line[0])
		lists[ductList{sys, line[1]}] = lengths(sys, line[2])
	}
	return lists
}

func sorted(sizes []Size) []Size {
	slices.SortStableFunc(sizes, func(a, b Size) int {
		return cmp.Or(cmp.Compare(a.System, b.System), cmp.Compare(a.Face(), b.Face()),
			cmp.Compare(a.Width, b.Width), cmp.Compare(a.Depth, b.Depth))
	})
	return sizes
}

// lines are the rows of an embedded list under its heading. The lists are part
// of the program: a fault in one is a programmer's slip, hence the panics.
func lines(file string) [][]string {
	data, err := files.ReadFile(file)
	if err != nil {
		panic("stock: " + err.Error())
	}
	reader := csv.NewReader(strings.NewReader(string(data)))
	reader.Comment = '#'
	records, err := reader.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("stock: %s: %v", file, err))
	}
	return records[1:]
}

func system(name string) units.System {
	for _, s := range []units.System{units.InchPound, units.Metric} {
		if s.String() == name {
			return s
		}
	}
	panic("stock: no system of units " + name)
}

func lengths(sys units.System, list string) []units.Length {
	var out []units.Length
	for _, text := range strings.Fields(list) {
		out = append(out, length(sys, text))
	}
	return out
}

func length(sys units.System, text string) units.Length {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("stock: " + err.Error())
	}
	if sys == units.Metric {
		return units.Length(v) * units.Millimetre
	}
	return units.Length(v) * units.Inch
}
