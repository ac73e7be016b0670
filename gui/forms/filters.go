package forms

import (
	"fmt"
	"slices"

	"returnbench/assets"
	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Filters is the place for the makes of filter that the job knows: as
// printed on them, or as they are made.
//
// It edits one filter at a time.
type Filters struct {
	*form.Form
	model form.Model
	list  form.List[filter.Filter]
}

// NewFilters makes the form.
func NewFilters(m form.Model) *Filters {
	s := &Filters{model: m, list: form.List[filter.Filter]{
		What: "filter", Of: func(j *sizing.Job) *[]filter.Filter { return &j.Filters },
		Name:   func(f *filter.Filter) *string { return &f.Name },
		New:    func(name string) filter.Filter { return filter.Filter{Name: name} },
		Follow: renameFilter,
	}}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func (s *Filters) shape() string {
	j := s.model.Peek()
	shape := s.list.Shape(j) + fmt.Sprint(s.model.Units(), " ")
	if f := s.list.Now(j); f != nil {
		shape += fmt.Sprint(len(f.Rating), len(f.Efficiency))
	}
	return shape
}

func (s *Filters) build(b *form.Builder) {
	b.Heading("Filters of this job")
	if len(s.model.Peek().Filters) == 0 {
		b.Note("A generic pleated MERV 8 is assumed until you add a filter. Add the one in the house, and those to compare.")
	}
	some := form.Items(b, &s.list)
	form.FilterLibraryButtons(b, &s.list)
	s.library(b)
	if some {
		s.printed(b)
		s.made(b)
	}
}

// library offers the invented generic filters.
func (s *Filters) library(b *form.Builder) {
	lib, err := assets.Filters()
	if err != nil {
		b.Note("The generic filters cannot be read: {why}", "why", err)
		return
	}
	names := make([]string, len(lib.Filters))
	for i, f := range lib.Filters {
		names[i] = form.GenericLabel(f)
	}
	pick := widgets.NewSelect(names, nil)
	pick.PlaceHolder = lang.T("Add a generic filter (invented)")
	pick.OnChanged = func(name string) {
		i := slices.Index(names, name)
		if i < 0 {
			return
		}
		f := lib.Filters[i]
		if z := s.model.Peek().Slot; !z.None && z.Depth == f.Depth { // as it is needed there
			f = f.WithFace(z.Width, z.Height)
		}
		f.Name = s.list.UniqueName(s.model.Peek(), f.Name)
		form.Add(b, "Add generic filter", &s.list, f)
	}
	b.Object(pick)
}

// renameFilter follows a filter's name through the job.
func renameFilter(j *sizing.Job, before, after string) {
	follow := func(name *string) {
		if *name == before {
			*name = after
		}
	}
	follow(&j.Slot.Filter)
	for i := range j.Returns {
		follow(&j.Returns[i].Filter)
	}
	for i := range j.Options {
		o := &j.Options[i]
		follow(&o.Filter)
		follow(&o.Slot.Filter)
		for k := range o.Returns {
			follow(&o.Returns[k].Filter)
		}
	}
}

func (s *Filters) path(field string) string { return fmt.Sprintf("filters[%d].%s", s.list.At(), field) }

// printed is what can be read off the frame.
func (s *Filters) printed(b *form.Builder) {
	at := s.list.Field()
	form.NameField(b, &s.list, s.path("name"), "Filter name")
	b.Size(s.path(""), "Size, W x H x D", func(j *sizing.Job) form.Sides {
		if f := at(j); f != nil {
			return form.Sides{Width: &f.Width, Height: &f.Height, Depth: &f.Depth}
		}
		return form.Sides{}
	}, sizeNames(s.model.Units()), false, "any face")
	b.Integer(s.path("merv"), "MERV", "", form.Of(at, func(f *filter.Filter) *int { return &f.MERV }), 1, 16)
	form.Quantity(b, s.path("price"), "Price of one", form.Of(at, func(f *filter.Filter) *units.Money { return &f.Price }))
	form.Quantity(b, s.path("final_drop"), "Final drop", form.Of(at, func(f *filter.Filter) *units.Pressure { return &f.FinalDrop }))
	form.Quantity(b, s.path("dust_capacity"), "Dust holding capacity", form.Of(at, func(f *filter.Filter) *units.Mass { return &f.DustCapacity }))

	b.Heading("Catalog pressure drop, clean")
	s.rating(b)
	b.Advanced(s.path("exponent"), func() {
		b.Number(s.path("exponent"), "Exponent, of one point", form.Of(at, func(f *filter.Filter) *float64 { return &f.Exponent }), "usual")
	})
}

func (s *Filters) rating(b *form.Builder) {
	list := form.Of(s.list.Field(), func(f *filter.Filter) *[]filter.RatingPoint { return &f.Rating })
	n := len(*list(s.model.Peek()))
	for i := range n {
		p := form.At(list, i)
		path := s.path(fmt.Sprintf("rating[%d]", i))
		b.ListItem(path, "catalog pressure drop")
		form.Quantity(b, path+".airflow", "at an airflow of", form.Of(p, func(r *filter.RatingPoint) *units.Flow { return &r.Airflow }), form.QuantityOptions{Row: i + 1})
		form.Quantity(b, path+".face_velocity", "or a face velocity of", form.Of(p, func(r *filter.RatingPoint) *units.Speed { return &r.FaceVelocity }))
		b.Called("a face velocity of")
		form.Quantity(b, path+".drop", "the drop is", form.Of(p, func(r *filter.RatingPoint) *units.Pressure { return &r.Drop }))
	}
	b.Buttons(
		form.Button{Label: "Add rating point", Action: func() { form.Append(b, "Add rating point", list, filter.RatingPoint{}, s.path("rating[%d].airflow")) }},
		form.Button{Label: "Remove last", Action: func() { form.Remove(b, "Remove rating point", list, n-1) }, Off: n == 0})
}

// made is how the filter is built.
func (s *Filters) made(b *form.Builder) {
	at := s.list.Field()
	length := func(name string, label message.ID, ip, si string, field func(*filter.Filter) *units.Length) {
		form.Measured(b, s.path(name), label, form.Of(at, field), ip, si)
	}
	b.Heading("How it is made")
	b.Integer(s.path("pleats"), "Pleats in the width", "", form.Of(at, func(f *filter.Filter) *int { return &f.Pleats }), 2, 200)
	length("pleat_depth", "Pleat depth", "in", "mm", func(f *filter.Filter) *units.Length { return &f.PleatDepth })
	length("media_thickness", "Media thickness", "mm", "mm", func(f *filter.Filter) *units.Length { return &f.MediaThickness })
	length("fold_gap", "Gap at the fold", "mm", "mm", func(f *filter.Filter) *units.Length { return &f.FoldGap })
	form.Quantity(b, s.path("media_resistance"), "Media resistance", form.Of(at, func(f *filter.Filter) *units.MediaResistance { return &f.MediaResistance }))
	form.Quantity(b, s.path("media_permeability"), "or permeability at 125 Pa", form.Of(at, func(f *filter.Filter) *units.Permeability { return &f.MediaPermeability }))
	b.Called("permeability at 125 Pa")
	form.Quantity(b, s.path("media_area"), "Media area, from catalog", form.Of(at, func(f *filter.Filter) *units.Area { return &f.MediaArea }))
	b.Percent(s.path("grid_open_share"), "Open share of the grid", form.Of(at, func(f *filter.Filter) *float64 { return &f.GridOpenShare }), "")
	form.Choice(b, s.path("bracing"), "Bracing", form.Of(at, func(f *filter.Filter) *filter.Bracing { return &f.Bracing }), "not known",
		form.Item[filter.Bracing]{Value: filter.Unbraced, Label: "none"}, form.Item[filter.Bracing]{Value: filter.OneSide, Label: "one side"},
		form.Item[filter.Bracing]{Value: filter.BothSides, Label: "both sides"}, form.Item[filter.Bracing]{Value: filter.WireBacked, Label: "wire-backed"},
		form.Item[filter.Bracing]{Value: filter.RigidBox, Label: "rigid box"})
	length("actual_width", "Actual width", "in", "mm", func(f *filter.Filter) *units.Length { return &f.ActualWidth })
	length("actual_height", "Actual height", "in", "mm", func(f *filter.Filter) *units.Length { return &f.ActualHeight })
	s.efficiency(b)
}

// efficiency is the twelve size ranges of ASHRAE 52.2, where a report is at
// hand.
func (s *Filters) efficiency(b *form.Builder) {
	list := form.Of(s.list.Field(), func(f *filter.Filter) *[]float64 { return &f.Efficiency })
	b.Heading("Efficiency by particle size (ASHRAE 52.2)")
	now := *list(s.model.Peek())
	if len(now) == 0 {
		b.Buttons(form.Button{Label: "Enter the twelve sizes", Action: func() {
			s.model.Apply(lang.T("Enter the twelve sizes"), func(j *sizing.Job) { *list(j) = make([]float64, 12) })
		}})
		return
	}
	edges := filter.SizeEdges()
	for i := range now {
		path := s.path(fmt.Sprintf("efficiency[%d]", i))
		if i+1 < len(edges) {
			b.Percent(path, "{from} to {to} µm", form.At(list, i), "0", "from", message.Fixed(edges[i], 2), "to", message.Fixed(edges[i+1], 2))
		} else {
			b.Percent(path, "Range {number}", form.At(list, i), "0", "number", i+1)
		}
	}
	b.Buttons(form.Button{Label: "Typical of the MERV instead", Action: func() {
		s.model.Apply(lang.T("Typical efficiency"), func(j *sizing.Job) { *list(j) = nil })
	}})
}

func sizeNames(sys units.Locale) []string {
	var names []string
	for _, z := range stock.Of(sys.System, append(stock.Filters(), stock.Cabinets()...)) {
		names = append(names, z.String())
	}
	return names
}

// Show leads to a field, after its filter has been put in view.
func (s *Filters) Show(path string) {
	if s.list.Select(path, "filters[%d]") {
		s.Refresh()
	}
	s.Form.Show(path)
}
