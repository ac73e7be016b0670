package gui

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/sizing"
)

// nav is the column of places.
type nav struct {
	items  []*navItem
	foot   fyne.CanvasObject
	object *fyne.Container
}

func newNav(list []place, enter func(key string), foot fyne.CanvasObject) *nav {
	n := &nav{foot: foot}
	box := container.New(column{})
	for _, p := range list {
		it := newNavItem(p, func() { enter(p.key) })
		n.items = append(n.items, it)
		box.Add(it)
	}
	scroll := container.NewVScroll(box)
	n.object = container.NewBorder(nil, foot, nil, widget.NewSeparator(), scroll)
	return n
}

// Object is the column.
func (n *nav) Object() fyne.CanvasObject { return n.object }

// settle gives the foot the height that its words need by now.
func (n *nav) settle() {
	if n.foot.Size().Height != n.foot.MinSize().Height {
		n.object.Refresh()
	}
}

// Refresh marks the place in view, and counts the faults and findings that
// wait in the others.
func (n *nav) Refresh(at string, s *session.Session) {
	waiting := map[string]int{}
	if !s.Blank() {
		for _, f := range s.Errors() {
			waiting[placeOfPath(f.Path)]++
		}
	}
	for _, u := range leftUnread(s) {
		waiting[placeOfPath(u.Path)]++
	}
	for _, it := range n.items {
		note := ""
		if w := waiting[it.place.key]; w > 0 {
			note = fmt.Sprintf("%d !", w)
		}
		if study := s.Study(); it.place.key == "findings" && study != nil && note == "" {
			note = fmt.Sprint(len(study.Findings) + len(sizing.RangeFindings(s.Ranges())))
		}
		it.set(it.place.key == at, note)
	}
}

// column sets the names under each other, as close as they must stand for all
// to be in sight.
type column struct{}

// closest is the least height of a name in parts of what it would like.
const closest = 0.8

// MinSize is the column at its closest.
func (column) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := fyne.Size{}
	for _, one := range o {
		least := one.MinSize()
		size.Width = fyne.Max(size.Width, least.Width)
		size.Height += closest * least.Height
	}
	return size
}

// Layout gives each name its share of the height, but no more than it wants.
func (column) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y, share := float32(0), size.Height/float32(len(o))
	for _, one := range o {
		height := fyne.Min(one.MinSize().Height+theme.Padding(), share)
		one.Move(fyne.NewPos(0, y))
		one.Resize(fyne.NewSize(size.Width, height))
		y += height
	}
}

// navItem is one name in the column.
type navItem struct {
	widget.BaseWidget
	widgets.Highlight
	place  place
	enter  func()
	chosen bool
	note   string
}

var (
	_ desktop.Hoverable = (*navItem)(nil)
	_ fyne.Focusable    = (*navItem)(nil)
	_ fyne.Tappable     = (*navItem)(nil)
)

func newNavItem(p place, enter func()) *navItem {
	it := &navItem{place: p, enter: enter}
	it.Changed = it.Refresh
	it.ExtendBaseWidget(it)
	return it
}

func (it *navItem) set(chosen bool, note string) {
	if it.chosen != chosen || it.note != note {
		it.chosen, it.note = chosen, note
		it.Refresh()
	}
}

// Tapped goes there.
func (it *navItem) Tapped(*fyne.PointEvent) { it.enter() }

// TypedKey goes there on Return or the space bar.
func (it *navItem) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		it.enter()
	}
}

// CreateRenderer draws the name.
func (it *navItem) CreateRenderer() fyne.WidgetRenderer {
	r := &navRenderer{it: it, ground: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent), text: canvas.NewText(it.place.name, color.Black), note: canvas.NewText("", color.Black)}
	r.paint()
	return r
}

type navRenderer struct {
	it                *navItem
	ground, bar, ring *canvas.Rectangle
	text, note        *canvas.Text
}

func (r *navRenderer) Destroy() {}

func (r *navRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.bar, r.text, r.note, r.ring}
}

// bold is measured whether or not it is shown, so that the column keeps still.
func (r *navRenderer) MinSize() fyne.Size {
	th := r.it.Theme()
	size := fyne.MeasureText(r.it.place.name, th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true})
	note := fyne.MeasureText("00 !", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{})
	pad := th.Size(theme.SizeNameInnerPadding)
	return fyne.NewSize(size.Width+note.Width+4*pad, size.Height+2*pad)
}

func (r *navRenderer) Layout(size fyne.Size) {
	pad := r.it.Theme().Size(theme.SizeNameInnerPadding)
	r.ground.Resize(size)
	r.ring.Resize(size)
	r.bar.Resize(fyne.NewSize(4, size.Height))
	r.text.Move(fyne.NewPos(2*pad+2, (size.Height-r.text.MinSize().Height)/2))
	r.note.Move(fyne.NewPos(size.Width-r.note.MinSize().Width-pad, (size.Height-r.note.MinSize().Height)/2))
}

func (r *navRenderer) Refresh() {
	r.paint()
	r.Layout(r.it.Size())
	canvas.Refresh(r.it)
}

func (r *navRenderer) paint() {
	th := r.it.Theme()
	r.ground.FillColor, r.bar.FillColor = color.Transparent, color.Transparent
	r.ring.StrokeColor, r.ring.StrokeWidth = color.Transparent, 0
	switch {
	case r.it.chosen:
		r.ground.FillColor = look.Of(th, theme.ColorNameHeaderBackground)
		r.bar.FillColor = look.Of(th, theme.ColorNamePrimary)
	case r.it.Hovered:
		r.ground.FillColor = look.Of(th, theme.ColorNameHover)
	}
	if r.it.Focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = look.Of(th, theme.ColorNamePrimary), 2
	}
	r.text.Color = look.Of(th, theme.ColorNameForeground)
	r.text.TextSize = th.Size(theme.SizeNameText)
	r.text.TextStyle.Bold = r.it.chosen
	r.note.Text = r.it.note
	r.note.Color = look.Of(th, theme.ColorNamePlaceHolder)
	if len(r.it.note) > 0 && r.it.note[len(r.it.note)-1] == '!' {
		r.note.Color = look.Of(th, theme.ColorNameError)
	}
	r.note.TextSize = th.Size(theme.SizeNameCaptionText)
}
