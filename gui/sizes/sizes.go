// Package sizes is the place for the ranked list of nominal sizes, and for the
// ducts that the branches need.
package sizes

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Study() *sizing.Study
	Units() units.Locale
	Apply(name string, change func(*sizing.Job))
}

// Screen is the place.
type Screen struct {
	model Model
	enter func(place string)

	place *widget.Select
	meet  *widget.Check
	add   *widget.Button
	why   *widget.Label
	table *table.Table
	ducts *table.Fitted
	none  *widget.Label
	box   fyne.CanvasObject

	shown []sizing.Size
}

// places are the locations to choose from; the first is every one.
var places = []struct {
	title message.ID
	kind  sizing.PlaceKind
}{
	{"every location", ""}, {"return grille with its filter", sizing.InGrille}, {"filter slot", sizing.InSlot}, {"deeper cabinet", sizing.InCabinet},
}

// placeWords name the location of a size in its row.
var placeWords = map[sizing.PlaceKind]message.ID{sizing.InGrille: "grille", sizing.InSlot: "slot", sizing.InCabinet: "cabinet"}

// New makes the screen; enter leads to another place.
func New(m Model, enter func(place string)) *Screen {
	s := &Screen{model: m, enter: enter}
	var titles []string
	for _, p := range places {
		titles = append(titles, lang.T(p.title))
	}
	s.place = widget.NewSelect(titles, func(string) { s.Refresh() })
	s.place.Selected = titles[0]
	s.meet = widget.NewCheck(lang.T("only sizes that fit the limits"), func(bool) { s.Refresh() })
	s.add = widget.NewButton(lang.T("Add to Compare"), s.Add)
	s.why = widget.NewLabel("")
	s.why.Wrapping = fyne.TextWrapWord
	s.table = table.New()
	s.table.Folds = true
	s.table.OnSelected = func(int) { s.showChosen() }
	s.table.OnActivated = func(int) { s.Add() }
	s.ducts = table.NewFitted(5)
	s.none = widget.NewLabel("")
	limits := widget.NewButton(lang.T("Openings and prices"), func() { enter("limits") })
	widgets.FitSelect(s.place)
	bar := widgets.NewFlow(bold("Nominal sizes for"), s.place, s.meet, limits, s.add)
	words := container.NewVBox(s.why, bold("Return ducts, for the airflow of each return"), s.none)
	s.box = widgets.NewVScroll(container.New(&lists{bar: bar, sizes: s.table, words: words, ducts: s.ducts.Object()}, bar, s.table, words, s.ducts.Object()))
	s.Refresh()
	return s
}

func bold(text message.ID) *widget.Label {
	return widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// lists gives the table of sizes what the ducts under it leave, but no less than its
// share: the ducts then scroll in themselves. Where the window has no room for some rows
// of both, the place scrolls.
type lists struct {
	bar   fyne.CanvasObject
	sizes *table.Table
	words fyne.CanvasObject
	ducts fyne.CanvasObject
}

const (
	sizesShare = 0.5
	sizesRows  = 4 // at least, beside the head and two more
)

// MinSize has room for some rows of both.
func (l *lists) MinSize([]fyne.CanvasObject) fyne.Size {
	bar, words := l.bar.MinSize(), l.words.MinSize()
	ducts := float32(0)
	if l.ducts.Visible() {
		ducts = fyne.Min(l.ducts.MinSize().Height, 4*l.sizes.RowHeight())
	}
	return fyne.NewSize(fyne.Max(bar.Width, words.Width), bar.Height+words.Height+l.sizes.MinSize().Height+sizesRows*l.sizes.RowHeight()+ducts)
}

// Layout shares the height out.
func (l *lists) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	bar, words := widgets.ResizeToWidth(l.bar, size.Width), widgets.ResizeToWidth(l.words, size.Width)
	rest := size.Height - bar - words
	ducts := float32(0)
	if l.ducts.Visible() {
		ducts = fyne.Max(0, fyne.Min(l.ducts.MinSize().Height, (1-sizesShare)*rest))
	}
	y := float32(0)
	for _, part := range []struct {
		what fyne.CanvasObject
		high float32
	}{{l.bar, bar}, {l.sizes, rest - ducts}, {l.words, words}, {l.ducts, ducts}} {
		part.what.Move(fyne.NewPos(0, y))
		part.what.Resize(fyne.NewSize(size.Width, part.high))
		y += part.high
	}
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.box }

// First is the choice of place.
func (s *Screen) First() fyne.Focusable { return s.place }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	study, sys := s.model.Study(), s.model.Units()
	s.shown = nil
	if study != nil {
		place := places[s.place.SelectedIndex()].kind
		for _, size := range study.Sizes {
			if (place == "" || size.Place == place) && (size.MeetsAll || !s.meet.Checked) {
				s.shown = append(s.shown, size)
			}
		}
	}
	s.fillSizes(sys)
	s.fillDucts(study, sys)
	s.showChosen()
}

func (s *Screen) fillSizes(sys units.Locale) {
	size := sizing.Size{}
	unit := func(q units.Quantity) string { return table.Unit(q, sys) }
	s.table.SetColumns([]table.Column{
		{Title: "Nominal size", Unit: lang.T("W x H x D")}, {Title: "Location"}, {Title: "Fits"}, {Title: "Verdict", Unit: lang.T("with this size")}, {Title: "Short list", Unit: lang.T("size and drop")},
		{Title: "Face area", Unit: unit(size.FaceArea)}, {Title: "Media area, in a table", Unit: unit(size.MediaArea), Right: true},
		{Title: "Face vel.", Term: "Face velocity", Unit: lang.T("{unit}, design", "unit", unit(size.DesignFaceVelocity))},
		{Title: "Airflow", Unit: unit(size.Airflow)}, {Title: "Filter drop, in a table", Unit: lang.T("{unit}, clean", "unit", unit(size.FilterDrop))},
		{Title: "Ext. static", Term: "External static", Unit: unit(size.ExternalStatic)}, {Title: "Power", Unit: unit(size.BlowerPower)}, {Title: "Filter"},
	})
	rows := make([][]string, len(s.shown))
	for i, z := range s.shown {
		front := ""
		if z.ParetoOptimal {
			front = table.YesNo(true)
		}
		rows[i] = []string{
			label(z, sys), lang.T(placeWords[z.Place]), table.YesNo(z.MeetsAll), s.verdict(z), front, table.Number(z.FaceArea, sys), table.Known(z.MediaArea, sys),
			table.Number(z.DesignFaceVelocity, sys), table.Number(z.Airflow, sys), table.Number(z.FilterDrop, sys),
			table.Number(z.ExternalStatic, sys), table.Number(z.BlowerPower, sys), sizing.FilterName(z.Filter).Show(sys),
		}
	}
	s.table.SetRows(rows)
}

// label is the nominal size, with its millimeters where the window speaks SI; one
// that is not listed anyway says that the job's own supplier has it.
func label(z sizing.Size, sys units.Locale) string {
	if z.Stocked {
		return message.Text(sys, "{size}, in stock", "size", nominal(z, sys))
	}
	return nominal(z, sys)
}

func nominal(z sizing.Size, sys units.Locale) string {
	if sys.System != units.Metric || strings.HasSuffix(z.Label, " mm") {
		return z.Label
	}
	return z.Label + ", " + stock.Size{Width: z.Width, Height: z.Height, Depth: z.Depth}.Millimetres()
}

// bounds are the limits that may decide a duct size.
var bounds = map[string]message.ID{study.ByVelocity: "velocity", study.ByFriction: "friction"}

func (s *Screen) fillDucts(solved *sizing.Study, sys units.Locale) {
	text := lang.T("No return is entered yet: see Returns.")
	var ducts []sizing.DuctSize
	if solved != nil {
		ducts = solved.Ducts
	}
	if len(ducts) > 0 {
		text = ""
	}
	if s.none.Hidden = text == ""; !s.none.Hidden {
		s.none.SetText(text)
	}
	s.ducts.Object().Hidden = text != ""
	d := sizing.DuctSize{}
	unit := func(q units.Quantity) string { return table.Unit(q, sys) }
	rows := make([][]string, len(ducts))
	for i, d := range ducts {
		verdict := string(sizing.Good)
		switch {
		case d.Undersized:
			verdict = string(sizing.Caution) + " " + lang.T("too small")
		case d.PresentVelocity == 0:
			verdict = lang.T("not described")
		}
		straight := "–"
		if d.EquivalentLength > 0 {
			straight = d.EquivalentLength.Show(sys)
		}
		bound := ""
		if d.Round.GoverningLimit != "" {
			bound = lang.T(bounds[d.Round.GoverningLimit])
		}
		rows[i] = []string{
			d.Branch.Show(sys), verdict, table.Number(d.Airflow, sys), table.Nominal(d.Round.Diameter, sys), table.Known(d.Round.Drop, sys), bound,
			table.Nominal(d.Flex.Diameter, sys), table.Known(d.Flex.Drop, sys),
			table.Nominal(d.Rect.Width, sys) + " x " + table.Nominal(d.Rect.Height, sys), table.Known(d.Rect.Drop, sys),
			table.Known(d.PresentVelocity, sys), table.Known(d.PresentFriction, sys), table.Known(d.PresentDrop, sys), straight,
		}
	}
	drop := unit(d.PresentDrop)
	within := lang.T("{unit} in it", "unit", drop)
	s.ducts.Set([]table.Column{
		{Title: "Return", Fixed: true}, {Title: "Today"}, {Title: "Airflow", Unit: unit(d.Airflow)}, {Title: "Round", Unit: unit(d.Round.Diameter), Right: true}, {Title: "Drop", Unit: within, Right: true}, {Title: "Set by"},
		{Title: "Flex", Unit: unit(d.Flex.Diameter), Right: true}, {Title: "Drop", Unit: within, Right: true},
		{Title: "Rect.", Unit: unit(d.Rect.Width)}, {Title: "Drop", Unit: within, Right: true},
		{Title: "Vel. now", Unit: unit(d.PresentVelocity), Right: true}, {Title: "Friction now", Unit: unit(d.PresentFriction), Right: true}, {Title: "Drop now", Unit: drop, Right: true},
		{Title: "As straight", Unit: lang.T("duct"), Right: true},
	}, rows)
}

func (s *Screen) chosen() *sizing.Size {
	if i := s.table.Selected(); i >= 0 && i < len(s.shown) {
		return &s.shown[i]
	}
	return nil
}

// verdict is that of the house with the size in it.
func (s *Screen) verdict(z sizing.Size) string {
	with, err := s.model.Study().With(z)
	if err != nil {
		return message.Fault(s.model.Units(), err)
	}
	return string(with.Verdict)
}

// showChosen shows the limits that the chosen size misses, and the findings of
// the house with it.
func (s *Screen) showChosen() {
	size := s.chosen()
	if size == nil {
		s.add.Disable()
		s.why.SetText(lang.T("Choose a size to see what it misses, and how the house with it is judged."))
		return
	}
	s.add.Enable()
	s.why.SetText(table.SizeVerdict(s.model.Study(), size, s.model.Units()))
}

// Choose puts a row of the list in view.
func (s *Screen) Choose(row int) { s.table.Select(row) }

// Add makes the chosen size an option to compare.
func (s *Screen) Add() {
	size := s.chosen()
	if size == nil {
		return
	}
	z := *size
	s.model.Apply(lang.T("Add {size} to Compare", "size", z.Label), func(j *sizing.Job) { sizing.AddSizeIn(s.model.Units(), j, z) })
	s.enter("compare")
}
