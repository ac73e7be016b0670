package form

import (
	"fmt"
	"strings"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// ReturnAt finds a branch in a Job, nil where it is gone.
type ReturnAt func(*sizing.Job) *sizing.Return

// Returns is a list of return branches.
func Returns(of func(*sizing.Job) *[]sizing.Return) List[sizing.Return] {
	return List[sizing.Return]{
		What: "return", Of: of,
		Name: func(r *sizing.Return) *string { return &r.Name },
		New:  func(name string) sizing.Return { return sizing.Return{Name: name} },

		Unnamed: func(i int) string { return sizing.ReturnName{Number: i + 1}.Show(lang.Locale()) },
	}
}

// ReturnShape names what decides the fields of a branch.
func ReturnShape(r *sizing.Return) string {
	if r == nil {
		return ""
	}
	var s strings.Builder
	fmt.Fprint(&s, len(r.Grille.Rating), r.LacksDuct(), r.Filter != "", "|")
	for _, run := range r.Runs {
		fmt.Fprint(&s, run.Shape, ",")
	}
	for _, f := range r.Fittings {
		fmt.Fprint(&s, f.Kind, ";")
	}
	return s.String()
}

// Return adds all fields of a return branch: name, grille, its filter, the
// duct runs and the fittings. path is the branch's own.
func Return(b *Builder, path string, at ReturnAt) {
	b.listItem(path, "return", path+".name")
	b.Text(path+".name", "Return name", of(at, func(r *sizing.Return) *string { return &r.Name }), "hall")
	grille(b, path, at)
	runs(b, path, at)
	fittings(b, path, at)
}

// of reaches a field of what at finds.
func of[O, T any](at func(*sizing.Job) *O, field func(*O) *T) func(*sizing.Job) *T {
	return func(j *sizing.Job) *T {
		if o := at(j); o != nil {
			return field(o)
		}
		return nil
	}
}

// NoSlotForGrilles reports whether no filter is assumed at the unit because a grille
// holds one.
func NoSlotForGrilles(j *sizing.Job) bool {
	return j.Slot == (sizing.Slot{}) && len(j.FilteredReturns()) > 0
}

func grille(b *Builder, path string, at ReturnAt) {
	b.Heading("Return grille")
	size := func(j *sizing.Job) Sides {
		if r := at(j); r != nil {
			return Sides{Width: &r.Grille.Width, Height: &r.Grille.Height}
		}
		return Sides{}
	}
	b.Size(path+".grille.", "Size, W x H", size, sizeNames(b, stock.Grilles(), true), true, "no grille")
	Choice(b, path+".grille.style", "Grille type", of(at, func(r *sizing.Return) *duct.GrilleStyle { return &r.Grille.Style }), "not known",
		Item[duct.GrilleStyle]{duct.Stamped, "stamped"}, Item[duct.GrilleStyle]{duct.Bar, "fixed bar"}, Item[duct.GrilleStyle]{duct.Perforated, "perforated"})
	b.Percent(path+".grille.free_area", "Free area", of(at, func(r *sizing.Return) *float64 { return &r.Grille.FreeArea }), "from grille type")
	FilterPlace(b, path+".filter", "Filter behind the grille", of(at, func(r *sizing.Return) *string { return &r.Filter }), size, "none")
	if j := b.model().Peek(); strings.HasPrefix(path, "returns[") && NoSlotForGrilles(j) {
		if r := at(j); r != nil && r.Filter != "" {
			b.Note("With a filter here none is assumed at the unit. If the unit holds one too, enter it under Filter at the unit.")
		}
	}
	Quantity(b, path+".opening_width", "Space on the wall, width", of(at, func(r *sizing.Return) *units.Length { return &r.OpeningWidth }))
	Quantity(b, path+".opening_height", "Space on the wall, height", of(at, func(r *sizing.Return) *units.Length { return &r.OpeningHeight }))
	grilleRating(b, path, at)
	grilleLibraryButtons(b, at)
}

func grilleRating(b *Builder, path string, at ReturnAt) {
	r := at(b.model().Peek())
	for i := range lengthOf(r, func(r *sizing.Return) int { return len(r.Grille.Rating) }) {
		point := func(j *sizing.Job) *duct.GrilleRating {
			return item(of(at, func(r *sizing.Return) *[]duct.GrilleRating { return &r.Grille.Rating })(j), i)
		}
		p := fmt.Sprintf("%s.grille.rating[%d]", path, i)
		b.ListItem(p, "catalog pressure drop")
		Quantity(b, p+".airflow", "at an airflow of", of(point, func(g *duct.GrilleRating) *units.Flow { return &g.Airflow }), QuantityOptions{Row: i + 1})
		Quantity(b, p+".drop", "the drop is", of(point, func(g *duct.GrilleRating) *units.Pressure { return &g.Drop }))
	}
	list := of(at, func(r *sizing.Return) *[]duct.GrilleRating { return &r.Grille.Rating })
	b.Buttons(
		Button{Label: "Add catalog pressure drop", Action: func() { Append(b, "Add rating point", list, duct.GrilleRating{}, path+".grille.rating[%d].airflow") }},
		Button{Label: "Remove last", Action: func() { removeLast(b, "Remove rating point", list) }, Off: r == nil || len(r.Grille.Rating) == 0})
}

func runs(b *Builder, path string, at ReturnAt) {
	list := of(at, func(r *sizing.Return) *[]duct.Run { return &r.Runs })
	if r := at(b.model().Peek()); r != nil && r.LacksDuct() {
		b.Note("No duct entered: its drop is missing. Add the duct, or choose \"only the fittings listed\" where there is none.")
	}
	for i := range lengthOf(at(b.model().Peek()), func(r *sizing.Return) int { return len(r.Runs) }) {
		run(b, fmt.Sprintf("%s.runs[%d]", path, i), i, list)
	}
	b.Buttons(Button{Label: "Add duct run", Action: func() { Append(b, "Add duct run", list, duct.Run{Shape: duct.Round}, path+".runs[%d].shape") }})
}

// ductHint is a size of a rectangular duct, as it is typed.
var ductHint = map[units.System]message.ID{units.InchPound: "14x8", units.Metric: "350x200 mm"}

func run(b *Builder, path string, i int, list func(*sizing.Job) *[]duct.Run) {
	at := func(j *sizing.Job) *duct.Run { return item(list(j), i) }
	now := at(b.model().Peek())
	b.ListItem(path, "duct run")
	b.ListHeading("Duct run {number}", i, func() { removeAt(b, "Remove duct run", list, i) })
	Choice(b, path+".shape", "Shape", of(at, func(r *duct.Run) *duct.Shape { return &r.Shape }), "",
		Item[duct.Shape]{duct.Round, "round"}, Item[duct.Shape]{duct.Flex, "flex"}, Item[duct.Shape]{duct.Rectangular, "rectangular"})
	if now != nil && now.Shape == duct.Rectangular {
		b.Size(path+".", "Size, W x H", func(j *sizing.Job) Sides {
			if r := at(j); r != nil {
				return Sides{Width: &r.Width, Height: &r.Height}
			}
			return Sides{}
		}, sizeNames(b, stock.Rectangulars(b.model().Units().System), true), true, ductHint[b.model().Units().System])
	} else {
		Quantity(b, path+".diameter", "Diameter", of(at, func(r *duct.Run) *units.Length { return &r.Diameter }))
	}
	Measured(b, path+".length", "Length", of(at, func(r *duct.Run) *units.Length { return &r.Length }), "ft", "m")
	if now != nil && now.Shape == duct.Flex {
		b.Percent(path+".compression", "Flex slack", of(at, func(r *duct.Run) *float64 { return &r.Compression }), "as new flex")
	}
	Choice(b, path+".material", "Wall", of(at, func(r *duct.Run) *duct.Material { return &r.Material }), "usual for the shape",
		Item[duct.Material]{duct.Galvanized, "galvanized"}, Item[duct.Material]{duct.Spiral, "spiral"}, Item[duct.Material]{duct.DuctBoard, "duct board"},
		Item[duct.Material]{duct.FacedLiner, "faced liner"}, Item[duct.Material]{duct.FlexLiner, "flex liner"}, Item[duct.Material]{duct.Rough, "rough"})
	b.Advanced(path, func() {
		Measured(b, path+".roughness", "Roughness instead", of(at, func(r *duct.Run) *units.Length { return &r.Roughness }), "in", "mm", QuantityOptions{Hint: "by the wall"})
	})
}

func fittings(b *Builder, path string, at ReturnAt) {
	list := of(at, func(r *sizing.Return) *[]duct.Fitting { return &r.Fittings })
	for i := range lengthOf(at(b.model().Peek()), func(r *sizing.Return) int { return len(r.Fittings) }) {
		fitting(b, fmt.Sprintf("%s.fittings[%d]", path, i), i, list)
	}
	Choice(b, path+".ends", "Ends of the duct", of(at, func(r *sizing.Return) *sizing.DuctEnds { return &r.Ends }), "usual ends",
		Item[sizing.DuctEnds]{sizing.UsualEnds, "usual ends"}, Item[sizing.DuctEnds]{sizing.NoEnds, "only the fittings listed"})
	b.Note("The usual ends are a box behind the grille and the opening into the return plenum. One that you list as a fitting is not counted twice.")
	b.Buttons(Button{Label: "Add fitting", Action: func() {
		Append(b, "Add fitting", list, duct.Fitting{Kind: duct.ElbowSmooth}, path+".fittings[%d].kind")
	}})
}

func fitting(b *Builder, path string, i int, list func(*sizing.Job) *[]duct.Fitting) {
	at := func(j *sizing.Job) *duct.Fitting { return item(list(j), i) }
	b.ListItem(path, "fitting")
	b.ListHeading("Fitting {number}", i, func() { removeAt(b, "Remove fitting", list, i) })
	var kinds []Item[duct.FittingKind]
	var info duct.FittingInfo
	now := at(b.model().Peek())
	for _, k := range duct.Fittings() {
		kinds = append(kinds, Item[duct.FittingKind]{k.Kind, k.Title})
		if now != nil && k.Kind == now.Kind {
			info = k
		}
	}
	Choice(b, path+".kind", "Kind", of(at, func(f *duct.Fitting) *duct.FittingKind { return &f.Kind }), "", kinds...)
	b.Integer(path+".count", "How many", "1", of(at, func(f *duct.Fitting) *int { return &f.Count }), 1, 50)
	for _, p := range info.Parameters {
		var hint message.ID = "needed"
		if p.Typical != 0 {
			hint = "usual: {value}"
		}
		switch p.Name {
		case "radius_ratio":
			b.Number(path+".radius_ratio", "Radius / diameter", of(at, func(f *duct.Fitting) *float64 { return &f.RadiusRatio }), hint, "value", p.Typical)
		case "angle":
			b.Number(path+".angle", "Angle, degrees", of(at, func(f *duct.Fitting) *float64 { return &f.Angle }), hint, "value", p.Typical)
		case "area_ratio":
			b.Number(path+".area_ratio", "Smaller / larger area", of(at, func(f *duct.Fitting) *float64 { return &f.AreaRatio }), hint, "value", p.Typical)
		}
	}
	Quantity(b, path+".diameter", "At a diameter of", of(at, func(f *duct.Fitting) *units.Length { return &f.Diameter }), QuantityOptions{Hint: "first run"})
	b.Size(path+".", "or a section, W x H", func(j *sizing.Job) Sides {
		if f := at(j); f != nil {
			return Sides{Width: &f.Width, Height: &f.Height}
		}
		return Sides{}
	}, nil, true, "first run")
	b.Called("a section, W x H")
	b.Advanced(path, func() {
		b.Number(path+".coefficient", "Loss coefficient instead", of(at, func(f *duct.Fitting) *float64 { return &f.Coefficient }), "from the library")
	})
}

// sizeNames are the nominal sizes of the system in use.
func sizeNames(b *Builder, list []stock.Size, flat bool) []string {
	var names []string
	seen := map[string]bool{}
	for _, s := range stock.Of(b.model().Units().System, list) {
		if flat {
			s.Depth = 0
		}
		n := s.String()
		if !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	return names
}

func lengthOf[O any](o *O, n func(*O) int) int {
	if o == nil {
		return 0
	}
	return n(o)
}
