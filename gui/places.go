package gui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"returnbench/gui/compare"
	"returnbench/gui/findings"
	"returnbench/gui/forms"
	"returnbench/gui/pages"
	"returnbench/gui/question"
	"returnbench/gui/sizes"
	"returnbench/gui/working"
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

// header is a screen that has something to say above the picture.
type header interface{ Head() fyne.CanvasObject }

// optionShower is a screen with an option under edit, which the drawing of the
// airpath follows.
type optionShower interface{ Option() string }

// place is one stop on the walk through the house.
type place struct {
	key, name string
	shortcut  fyne.Shortcut
	owns      []string // beginnings of the paths of its fields
	wide      bool     // it takes the picture's room too
	picture   string   // shown on entering; empty: the one in view stays
	bare      bool     // the picture without the table of options
	make      func(b *Bench) screen
}

const (
	firstPlace    = "question"
	cautionsPlace = "cautions"
	pagesPlace    = "pages"
)

// places follow the air: from the question through the equipment and back from
// the rooms to the blower, then what was measured and what may be done.
func places() []place {
	list := []place{
		{key: firstPlace, name: "Question", picture: "fan-and-system", bare: true,
			owns: []string{"equipment.cooling_capacity", "design_airflow", "target_face_velocity", "schema"},
			make: func(b *Bench) screen { return question.New(b.session, b.enter) }},
		{key: "house", name: "House", owns: []string{"name", "notes", "site", "uncertainty"},
			make: func(b *Bench) screen { return forms.NewHouse(b.session) }},
		{key: "equipment", name: "Equipment", owns: []string{"equipment", "heating_airflow", "airflow_per_capacity"},
			make: func(b *Bench) screen { return forms.NewEquipment(b.session) }},
		{key: "blower", name: "Blower", picture: "fan-and-system", owns: []string{"equipment.blower"},
			make: func(b *Bench) screen { return forms.NewBlower(b.session) }},
		{key: "returns", name: "Returns", picture: "airpath", owns: []string{"returns"},
			make: func(b *Bench) screen { return forms.NewReturns(b.session) }},
		{key: "slot", name: "Filter slot", picture: "airpath", owns: []string{"slot"},
			make: func(b *Bench) screen { return forms.NewFilterSlot(b.session) }},
		{key: "filters", name: "Filters", picture: "filter-drop", owns: []string{"filters"},
			make: func(b *Bench) screen { return forms.NewFilters(b.session) }},
		{key: "parts", name: "Coil and supply", picture: "pressure-by-part", owns: []string{"coil", "supply"},
			make: func(b *Bench) screen { return forms.NewCoilAndSupply(b.session) }},
		{key: "gauge", name: "Gauge", bare: true, owns: []string{"readings"},
			make: func(b *Bench) screen { return forms.NewGauge(b.session) }},
		{key: "compare", name: "Compare", wide: true, owns: []string{"options"},
			make: func(b *Bench) screen { return compare.New(b.session, &b.view, b.pane.Follow) }},
		{key: "sizes", name: "Sizes", wide: true,
			make: func(b *Bench) screen { return sizes.New(b.session, b.enter) }},
		{key: "target", name: "What it takes", wide: true,
			make: func(b *Bench) screen {
				return forms.NewTarget(b.session, b.session.Tasks(), b.enter)
			}},
		{key: "limits", name: "Limits", owns: []string{"limits", "work_prices"},
			make: func(b *Bench) screen { return forms.NewLimits(b.session) }},
		{key: "findings", name: "Findings", wide: true,
			make: func(b *Bench) screen { return findings.New(b.session, b.showPath, b.Call) }},
		{key: "working", name: "Working", wide: true,
			make: func(b *Bench) screen { return working.New(b.session) }},
		{key: cautionsPlace, name: "Cautions", wide: true,
			make: func(b *Bench) screen { return forms.NewCautions() }},
		{key: pagesPlace, name: "Pages", wide: true,
			make: func(b *Bench) screen { return pages.New(b.session, desk{b}) }},
		{key: lessonPlace, name: "Demonstrations", wide: true,
			make: func(b *Bench) screen { return b.newLessons() }},
	}
	const row = 10 // keys with a digit
	for i := range list {
		list[i].shortcut = digit(ctrl, i)
		if i >= row {
			list[i].shortcut = digit(ctrlShift, i-row)
		}
	}
	return list
}

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
		for _, begin := range p.owns {
			if len(begin) > best && strings.HasPrefix(path, begin) {
				best, key = len(begin), p.key
			}
		}
	}
	return key
}

// dropScreens lets every place be made anew; what a place is still searching for
// is cancelled.
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
	if b.large && p.key != lessonPlace {
		b.setLarge(false)
	}
	b.window.Canvas().Unfocus() // no entry may keep the keyboard out of sight
	b.session.EndTyping()
	b.at = p.key
	s := b.screens[p.key]
	if s == nil {
		s = p.make(b)
		b.screens[p.key] = s
	}
	if p.wide {
		b.under.Objects[1] = container.New(layout.NewCustomPaddedLayout(2, 4, 4, 6), s.Object())
		b.body.Objects = []fyne.CanvasObject{b.under}
	} else {
		b.left.Objects = []fyne.CanvasObject{s.Object()}
		if step(p.key) >= 0 {
			b.left.Objects = []fyne.CanvasObject{container.NewBorder(nil, b.wizard.box, nil, nil, s.Object())}
		}
		b.left.Refresh()
		b.under.Objects[1] = b.pane.Object()
		b.body.Objects = []fyne.CanvasObject{b.split}
		b.split.Refresh() // a wide place may have had the banner
		b.dressPane(p, s)
	}
	b.body.Refresh()
	b.under.Refresh()
	if b.menu != nil {
		b.refresh()
	}
}

func (b *Bench) dressPane(p place, s screen) {
	b.follow()
	var head fyne.CanvasObject
	if h, ok := s.(header); ok {
		head = h.Head()
	}
	b.pane.Dress(head, p.picture, !p.bare)
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

// Call tells a person which field of the job a path is.
func (b *Bench) Call(path string) string { return b.words(b.session.Peek(), path) }

// showPath leads to the field of a path.
func (b *Bench) showPath(path string) {
	b.goTo(placeOfPath(path))
	if s, ok := b.screens[b.at].(pathShower); ok {
		s.Show(path)
	}
}
