package gui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"returnbench/gui/compare"
	"returnbench/gui/findings"
	"returnbench/gui/form"
	"returnbench/gui/forms"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/outcome"
	"returnbench/gui/pages"
	"returnbench/gui/sizes"
	"returnbench/gui/start"
	"returnbench/gui/working"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// screen is what the shell needs of a place.
type screen interface {
	Object() fyne.CanvasObject
	Refresh()
	First() fyne.Focusable // nil: nothing there takes the keyboard
}

// pathShower is a screen that can lead to one field.
type pathShower interface{ Show(path string) }

// closer is a screen that may have work of its own under way.
type closer interface{ Close() }

// leader is a screen with buttons that lead to other places.
type leader interface {
	OnNavigate(enter func(place string))
}

// librarian is a screen with buttons that take from the library and save to it.
type librarian interface{ SetLibrary(form.Library) }

// header is a screen with content above the chart.
type header interface{ Head() fyne.CanvasObject }

// sideContent is a screen that may have something of its own to show in the chart's
// room; nil: the chart.
type sideContent interface {
	Beside() fyne.CanvasObject
	Under() fyne.CanvasObject // the same, to stand under the fields where there is no room
}

// underContent is a screen that takes, under its fields, what stands beside them where there
// is room.
type underContent interface{ SetUnder(fyne.CanvasObject) }

// optionShower is a screen with an option under edit, which the drawing of the
// airpath follows.
type optionShower interface{ Option() string }

// place is one entry of the column at the left, with its screen.
type place struct {
	key        string
	name       message.ID
	group      message.ID // of the column; empty: it stands alone
	shortcut   fyne.Shortcut
	fieldPaths []string // beginnings of the paths of its fields
	wide       bool     // it takes the chart's room too
	picture    string   // shown on entering; empty: the one in view stays
	noTable    bool     // the chart without the table of options
	make       func(b *Bench) screen
}

const (
	firstPlace    = "question"
	problemsPlace = "findings"
	cautionsPlace = "cautions"
	pagesPlace    = "pages"
	photosPlace   = "photos"

	classSheetPlace = "class-sheet"
)

// The groups of places, in the order of the work.
const (
	houseGroup   message.ID = "House"
	optionsGroup message.ID = "Options"
	resultsGroup message.ID = "Results"
	limitsGroup  message.ID = "Requirements and prices"
	paperGroup   message.ID = "Paper"
	classGroup   message.ID = "Class"
)

// places are in the order of the work: the house, the changes, the results, the
// requirements, and the papers.
func places() []place {
	return []place{
		{key: firstPlace, name: "Start", shortcut: ctrl(fyne.Key1), picture: "fan-and-system", noTable: true,
			fieldPaths: []string{"equipment.cooling_capacity", "design_airflow", "target_face_velocity", "schema"},
			make:       func(b *Bench) screen { return start.New(b.session, b.openList(), b.enter) }},

		{key: "house", name: "Site", group: houseGroup, shortcut: ctrl(fyne.Key2), fieldPaths: []string{"name", "notes", "customer", "work", "site", "uncertainty"},
			make: func(b *Bench) screen { return forms.NewHouse(b.session) }},
		{key: "equipment", name: "Equipment", group: houseGroup, shortcut: ctrl(fyne.Key3), fieldPaths: []string{"equipment", "heating_airflow", "airflow_per_capacity"},
			make: func(b *Bench) screen { return forms.NewEquipment(b.session) }},
		{key: "blower", name: "Blower", group: houseGroup, shortcut: ctrl(fyne.Key4), picture: "fan-and-system", fieldPaths: []string{"equipment.blower"},
			make: func(b *Bench) screen { return forms.NewBlower(b.session) }},
		{key: "returns", name: "Returns", group: houseGroup, shortcut: ctrl(fyne.Key5), picture: "airpath", fieldPaths: []string{"returns"},
			make: func(b *Bench) screen { return forms.NewReturns(b.session) }},
		{key: "slot", name: "Filter at the unit", group: houseGroup, shortcut: ctrl(fyne.Key6), picture: "airpath", fieldPaths: []string{"slot"},
			make: func(b *Bench) screen { return forms.NewFilterSlot(b.session) }},
		{key: "parts", name: "Coil and supply", group: houseGroup, shortcut: ctrl(fyne.Key8), picture: "pressure-by-part", fieldPaths: []string{"coil", "supply"},
			make: func(b *Bench) screen { return forms.NewCoilAndSupply(b.session) }},
		{key: "gauge", name: "Readings", group: houseGroup, shortcut: ctrl(fyne.Key9), noTable: true, fieldPaths: []string{"readings"},
			make: func(b *Bench) screen { return forms.NewGauge(b.session) }},

		{key: "sizes", name: "Suggested sizes", group: optionsGroup, shortcut: ctrlShift(fyne.Key1), wide: true,
			make: func(b *Bench) screen { return sizes.New(b.session, b.enter) }},
		{key: "target", name: "Upgrade finder", group: optionsGroup, shortcut: ctrlShift(fyne.Key2), wide: true,
			make: func(b *Bench) screen {
				return forms.NewTarget(b.session, b.session.Tasks(), b.enter)
			}},
		{key: "compare", name: "Compare", group: optionsGroup, shortcut: ctrl(fyne.Key0), wide: true, fieldPaths: []string{"options"},
			make: func(b *Bench) screen { return compare.New(b.session, &b.view, b.pane.Follow) }},
		{key: "filters", name: "Filters", group: optionsGroup, shortcut: ctrl(fyne.Key7), picture: "filter-drop", fieldPaths: []string{"filters"},
			make: func(b *Bench) screen { return forms.NewFilters(b.session) }},

		{key: "charts", name: "Charts", group: resultsGroup, shortcut: ctrlShift(fyne.Key9), wide: true,
			make: func(b *Bench) screen { return &charts{b.pane} }},
		{key: problemsPlace, name: "Problems", group: resultsGroup, shortcut: ctrlShift(fyne.Key4), wide: true,
			make: func(b *Bench) screen {
				return findings.New(b.session, findings.Links{Field: b.showPath, Place: b.enter, Option: b.showOption, Call: b.Call, Label: b.label})
			}},
		{key: "working", name: "Calculations", group: resultsGroup, shortcut: ctrlShift(fyne.Key5), wide: true,
			make: func(b *Bench) screen { return working.New(b.session) }},

		{key: "limits", name: "Requirements and prices", group: limitsGroup, shortcut: ctrlShift(fyne.Key3), fieldPaths: []string{"limits", "stock_sizes", "work_prices", "quote"},
			make: func(b *Bench) screen { return forms.NewLimits(b.session) }},

		{key: pagesPlace, name: "Print / PDF", group: paperGroup, shortcut: ctrlShift(fyne.Key7), wide: true,
			make: func(b *Bench) screen { return pages.New(b.session, desk{b}) }},
		{key: photosPlace, name: "Photos", group: paperGroup, shortcut: ctrlShift(fyne.Key0), wide: true, fieldPaths: []string{"photos"},
			make: func(b *Bench) screen { return forms.NewPhotos(b.session, desk{b}) }},
		{key: cautionsPlace, name: "Safety", group: paperGroup, shortcut: ctrlShift(fyne.Key6), wide: true,
			make: func(b *Bench) screen { return forms.NewCautions() }},

		{key: lessonPlace, name: "Demonstrations", group: classGroup, shortcut: ctrlShift(fyne.Key8), wide: true,
			make: func(b *Bench) screen { return b.newLessons() }},
		{key: classSheetPlace, name: "Class sheet", group: classGroup, shortcut: ctrlShift(fyne.KeyK), wide: true,
			make: func(b *Bench) screen { return pages.NewClass(b.session, desk{b}) }},
	}
}

// charts is the place of the charts alone, over the table of options.
type charts struct{ pane *outcome.Pane }

// Object is the pane.
func (c *charts) Object() fyne.CanvasObject { return c.pane.Object() }

// Refresh draws the newest Study.
func (c *charts) Refresh() { c.pane.Refresh() }

// First is nothing: the choice of chart is a list.
func (c *charts) First() fyne.Focusable { return nil }

func placeOf(key string) place {
	for _, p := range places() {
		if p.key == key {
			return p
		}
	}
	return places()[0]
}

func (b *Bench) placeInView() place { return placeOf(b.at) }

// placeOfPath finds where a field is edited: the place that owns the longest
// beginning of its path.
func placeOfPath(path string) string {
	best, key := 0, firstPlace
	for _, p := range places() {
		for _, begin := range p.fieldPaths {
			if len(begin) > best && strings.HasPrefix(path, begin) {
				best, key = len(begin), p.key
			}
		}
	}
	return key
}

// dropScreens discards every screen, to be made again; a search that is still
// running is cancelled.
func (b *Bench) dropScreens() {
	for _, s := range b.screens {
		if c, ok := s.(closer); ok {
			c.Close()
		}
	}
	b.screens = map[string]screen{}
}

// goTo puts a place in view.
func (b *Bench) goTo(key string) {
	p := placeOf(key)
	if p.key != b.at {
		b.session.ShowAllFaults()
	}
	if b.large && p.key != lessonPlace {
		b.setLarge(false)
	}
	b.window.Canvas().Unfocus() // no hidden entry may keep the keyboard focus
	b.session.EndTyping()
	b.at = p.key
	s := b.screens[p.key]
	if s == nil {
		s = p.make(b)
		if l, ok := s.(leader); ok {
			l.OnNavigate(b.enter)
		}
		if l, ok := s.(librarian); ok {
			l.SetLibrary(b.shared())
		}
		b.screens[p.key] = s
	}
	b.lay(p, s)
	if b.menu != nil {
		b.refresh()
	}
}

// lay lays a place out: alone, or beside the chart or what it has of its own.
func (b *Bench) lay(p place, s screen) {
	_, isChart := s.(*charts)
	switch {
	case isChart:
		b.body.Objects = []fyne.CanvasObject{s.Object()}
		b.pane.SetCompact(false)
		b.pane.SetContent(nil, "", true)
	case p.wide:
		b.body.Objects = []fyne.CanvasObject{container.New(inset{look.Margin / 2, 4}, s.Object())}
	default:
		b.left.Objects = []fyne.CanvasObject{s.Object()}
		if step(p.key) >= 0 {
			b.left.Objects = []fyne.CanvasObject{container.NewBorder(nil, b.stepBar.box, nil, nil, s.Object())}
		}
		b.left.Refresh()
		b.body.Objects = []fyne.CanvasObject{b.split}
		if b.narrow {
			b.body.Objects = []fyne.CanvasObject{b.left} // the charts have a place of their own
		}
		b.beside(s)
		b.layOutPane(p, s)
		b.right.Refresh() // the chart may have stood alone
	}
	b.body.Refresh()
}

// beside puts the chart beside the form in view, or what the form has to show
// instead of it.
func (b *Bench) beside(s screen) {
	var now, under fyne.CanvasObject = b.pane.Object(), nil
	if h, ok := s.(header); ok && b.narrow {
		under = h.Head()
	}
	if own, ok := s.(sideContent); ok && own.Beside() != nil {
		if now = own.Beside(); b.narrow {
			now, under = b.pane.Object(), own.Under()
		}
	}
	if form, ok := s.(underContent); ok {
		form.SetUnder(under)
	}
	if len(b.right.Objects) != 1 || b.right.Objects[0] != now {
		b.right.Objects = []fyne.CanvasObject{now}
		b.right.Refresh()
		b.split.Refresh()
	}
}

func (b *Bench) layOutPane(p place, s screen) {
	b.follow()
	var head fyne.CanvasObject
	if h, ok := s.(header); ok && !b.narrow {
		head = h.Head()
	}
	b.pane.SetCompact(true)
	b.pane.SetContent(head, p.picture, !p.noTable)
}

// enter puts a place in view and the keyboard in its first field.
func (b *Bench) enter(key string) {
	b.goTo(key)
	b.focusFirst()
}

func (b *Bench) focusFirst() {
	if f := b.screens[b.at].First(); f != nil {
		b.window.Canvas().Focus(f)
	}
}

// Call names a field of the job for a person, by its path.
func (b *Bench) Call(path string) string { return b.words(b.session.Peek(), path) }

// label is how the form calls the field of a path, without its place.
func (b *Bench) label(path string) string {
	if l, ok := labelOf(b.labels(placeOfPath(path)), path); ok {
		return l.Text
	}
	return b.Call(path)
}

// CallIn is Call for a reader in a language of his own.
func (b *Bench) CallIn(l units.Locale, path string) string {
	window := lang.Locale()
	lang.Set(l)
	defer lang.Set(window)
	return b.words(b.session.Peek(), path)
}

// showPath opens the field of a path.
func (b *Bench) showPath(path string) {
	b.goTo(placeOfPath(path))
	if s, ok := b.screens[b.at].(pathShower); ok {
		s.Show(path)
	}
}

// showOption opens an option, and makes it the proposal.
func (b *Bench) showOption(name string) {
	b.decision.choose(name)
	for i, o := range b.session.Peek().Options {
		if o.Name == name {
			b.showPath(fmt.Sprintf("options[%d].name", i))
			return
		}
	}
}
