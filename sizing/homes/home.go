package homes

import (
	"fmt"
	"regexp"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// home is a row that is being turned into a job.
type home struct {
	sizing.Job
	filter  filter.Filter // today's
	rating  filter.RatingPoint
	returns sizing.Part
	grille  sizing.Slot // of the one return: its size
	free    float64     // share of its face
	run     duct.Run
	elbows  int
	reading sizing.Reading
	check   sizing.CheckSet // the last one read
	options [optionSets]option

	// paths of the elements of the job's lists, in order: they lead from a
	// fault to its column.
	filterPaths, optionPaths []string
}

// option is an upgrade that is being turned into an option of a job.
type option struct {
	sizing.Option
	filter filter.Filter
	rating filter.RatingPoint
}

// Paths of columns whose place in the job's lists depends on the row.
const (
	todayFilter = "filters[today]"
	returnPath  = "returns[0].grille.rating[0]"
	readingPath = "readings[0]"
	runPath     = "returns[0].runs[0]"
	blowerPath  = "equipment.blower.taps[0]"
)

func optionPath(n int) string       { return fmt.Sprintf("options[option %d]", n+1) }
func optionFilterPath(n int) string { return fmt.Sprintf("filters[option %d]", n+1) }

const (
	todayFilterName = "today's filter"
	// usualMERV is that of a filter left open, as the engine assumes it.
	usualMERV = 8
	// usualPerCapacity gives the design airflow to which a return's drop
	// belongs, as in the engine: common practice, no source.
	usualPerCapacity = 400 * units.CFMPerTon
)

// read puts the cells of a row into a home. The faults have no line yet.
func (hd *heading) read(cells []string) (*home, []Fault) {
	h := &home{}
	h.Schema = sizing.Schema
	var faults []Fault
	for i, u := range hd.uses {
		cell := strings.TrimSpace(cells[i])
		if cell == "" {
			continue
		}
		if err := u.column.set(h, cell, u.unit); err != nil {
			faults = append(faults, Fault{Column: u.column.Name, Reason: err.Error()})
		}
	}
	if faults != nil {
		return nil, faults
	}
	return h, h.complete()
}

// complete joins the parts of the row into the job.
func (h *home) complete() []Fault {
	var faults []Fault
	h.todayFilter()
	if h.returns.Airflow > 0 && h.returns.Drop == 0 {
		faults = append(faults, Fault{Column: "return_drop", Reason: "given nothing; want the drop at return_airflow"})
	}
	described := h.grille != (sizing.Slot{}) || h.free != 0 || h.run != (duct.Run{}) || h.elbows != 0
	switch {
	case described && h.returns.Drop > 0:
		faults = append(faults, Fault{Column: "return_drop", Reason: "given beside the return's grille or duct; want one of the two"})
	case described:
		h.Returns = []sizing.Return{h.builtReturn()}
	case h.returns.Drop > 0:
		h.Returns = []sizing.Return{h.ratedReturn()}
	}
	if h.reading != (sizing.Reading{}) {
		h.Readings = []sizing.Reading{h.reading}
	}
	for n := range h.options {
		o := &h.options[n]
		switch {
		case o.Name == "" && o.Price == 0 && o.filter.Price == 0 && o.keepsFilter():
		case o.keepsFilter():
			faults = append(faults, Fault{Column: optionPrefix(n) + "slot", Reason: "given nothing; want what the upgrade changes, its slot or its MERV"})
		default:
			h.addOption(n)
		}
	}
	return faults
}

// keepsFilter reports whether an upgrade changes nothing of the filter.
func (o *option) keepsFilter() bool {
	return o.Slot == (sizing.Slot{}) && o.filter.MERV == 0 && o.rating == (filter.RatingPoint{})
}

func (h *home) todayFilter() {
	f := &h.filter
	described := f.MERV != 0 || f.Width != 0 || f.Height != 0 || f.Depth != 0 || f.Exponent != 0 || f.Pleats != 0 || f.PleatDepth != 0 ||
		f.MediaThickness != 0 || f.FoldGap != 0 || f.MediaResistance != 0 || f.MediaPermeability != 0 || f.MediaArea != 0 ||
		f.Bracing != "" || f.FinalDrop != 0 || f.DustCapacity != 0 || f.Price != 0 || h.rating != (filter.RatingPoint{})
	if !described {
		return
	}
	f.Name = todayFilterName
	if f.MERV == 0 {
		f.MERV = usualMERV
	}
	if f.Width == 0 && f.Height == 0 {
		f.Width, f.Height = h.Slot.Width, h.Slot.Height
	}
	if f.Depth == 0 {
		f.Depth = h.Slot.Depth
	}
	if h.rating != (filter.RatingPoint{}) {
		f.Rating = []filter.RatingPoint{h.rating}
	}
	h.Slot.Filter = f.Name
	h.addFilter(*f, todayFilter)
}

func (h *home) addFilter(f filter.Filter, path string) {
	h.Filters = append(h.Filters, f)
	h.filterPaths = append(h.filterPaths, path)
}

// ratedReturn is a return known by its drop at one airflow: a grille with that
// rating. Its size has no effect.
func (h *home) ratedReturn() sizing.Return {
	at := h.returns.Airflow
	if at == 0 {
		at = h.DesignAirflow
	}
	if at == 0 {
		per := h.AirflowPerCapacity
		if per == 0 {
			per = usualPerCapacity
		}
		at = units.Flow(float64(per) * float64(h.Equipment.CoolingCapacity))
	}
	return sizing.Return{Name: "return", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch,
		Rating: []duct.GrilleRating{{Airflow: at, Drop: h.returns.Drop}}}}
}

func (h *home) addOption(n int) {
	o := &h.options[n]
	f := &o.filter
	f.Name = fmt.Sprintf("filter of upgrade %d", n+1)
	if f.MERV == 0 {
		f.MERV = h.todayMERV()
	}
	f.Width, f.Height, f.Depth = o.Slot.Width, o.Slot.Height, o.Slot.Depth
	if f.Width == 0 {
		f.Width, f.Height = h.Slot.Width, h.Slot.Height
	}
	if o.rating != (filter.RatingPoint{}) {
		f.Rating = []filter.RatingPoint{o.rating}
	}
	if o.Name == "" {
		o.Name = fmt.Sprintf("MERV %d", f.MERV)
		if o.Slot.Width > 0 {
			o.Name = slotName(o.Slot) + ", " + o.Name
		}
	}
	o.Filter = f.Name
	h.addFilter(*f, optionFilterPath(n))
	h.Options = append(h.Options, o.Option)
	h.optionPaths = append(h.optionPaths, optionPath(n))
}

func (h *home) todayMERV() int {
	if h.filter.MERV > 0 {
		return h.filter.MERV
	}
	return usualMERV
}

// columnAt names the column that a path of the job came from: of those in the
// list the one that is the path or holds it, else any that is the path.
func (h *home) columnAt(path string, uses []use) string {
	for i, p := range h.filterPaths {
		path = strings.Replace(path, fmt.Sprintf("filters[%d]", i), p, 1)
	}
	for i, p := range h.optionPaths {
		path = strings.Replace(path, fmt.Sprintf("options[%d]", i), p, 1)
	}
	holder := ""
	for _, u := range uses {
		if u.column.path == path {
			return u.column.Name
		}
		if fieldpath.Within(path, u.column.path) {
			holder = u.column.Name
		}
	}
	if holder != "" {
		return holder
	}
	for i := range columns {
		if columns[i].path == path {
			return columns[i].Name
		}
	}
	return path
}

// 20x25x4, 15 3/4 x 24 x 1, 500x625x25 mm.
var sizeText = regexp.MustCompile(`^\s*([\d./ ]+?)\s*[xX×]\s*([\d./ ]+?)(?:\s*[xX×]\s*([\d./ ]+?))?\s*([^\d\s/.].*)?$`)

// size is a column of nominal sizes; those without a unit are in inches.
func size(name, path string, text message.ID, slot func(*home) *sizing.Slot) column {
	kind := units.Length(0).Kind()
	return column{Column{name, message.New("nominal size"), text}, path, nil, func(h *home, cell, _ string) error {
		m := sizeText.FindStringSubmatch(cell)
		if m == nil {
			return fmt.Errorf("%q: want a nominal size as width x height x depth, such as 16x25x1, or 400x625x25 mm", cell)
		}
		unit := m[4]
		if unit == "" {
			unit = "in"
		}
		var side [3]units.Length
		for i, text := range m[1:4] {
			if text == "" {
				continue
			}
			v, err := kind.Parse(text, unit)
			if err != nil {
				return fmt.Errorf("%q: %w", cell, err)
			}
			if v <= 0 {
				return fmt.Errorf("%q: want sides over 0", cell)
			}
			side[i] = units.Length(v)
		}
		s := slot(h)
		s.Width, s.Height, s.Depth = side[0], side[1], side[2]
		return nil
	}}
}
