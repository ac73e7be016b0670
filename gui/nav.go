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

	"returnbench/gui/findings"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing/message"
)

// nav is the column of places: groups in the order of the work, and under the
// group in view its places.
type nav struct {
	items  []*navItem
	foot   fyne.CanvasObject
	object *fyne.Container
	column *fyne.Container
}

func newNav(list []place, enter func(key string), foot fyne.CanvasObject) *nav {
	n := &nav{foot: foot, column: container.New(column{})}
	add := func(it *navItem) {
		n.items = append(n.items, it)
		n.column.Add(it)
	}
	for i, p := range list {
		lead := func() { enter(p.key) }
		alone := p.group == "" || len(inGroup(list, p.group)) == 1
		if p.group != "" && (i == 0 || list[i-1].group != p.group) {
			add(newNavItem(p, p.group, groupItem, lead))
		}
		if p.group == "" {
			add(newNavItem(p, p.name, groupItem, lead))
		} else if !alone {
			add(newNavItem(p, p.name, placeItem, lead))
		}
	}
	n.object = container.NewBorder(nil, foot, nil, widget.NewSeparator(), widgets.NewVScroll(n.column))
	return n
}

func inGroup(list []place, group message.ID) (out []place) {
	for _, p := range list {
		if p.group == group {
			out = append(out, p)
		}
	}
	return out
}

// Object is the column.
func (n *nav) Object() fyne.CanvasObject { return n.object }

// layOutFoot gives the foot the height that its text needs now.
func (n *nav) layOutFoot() {
	if n.foot.Size().Height != n.foot.MinSize().Height {
		n.object.Refresh()
	}
}

// Refresh opens the group in view, marks the place, and shows for each place
// the number of faults (!), of assumed values (?), and of problems.
func (n *nav) Refresh(b *Bench) {
	s, now := b.session, b.placeInView()
	waiting := map[string]int{}
	if !s.Blank() {
		for _, f := range s.ShownFaults() {
			waiting[placeOfPath(f.Path)]++
		}
	}
	for _, u := range leftUnread(s) {
		waiting[placeOfPath(u.Path)]++
	}
	moved := false
	for _, it := range n.items {
		chosen, keys := it.place.key == now.key, []string{it.place.key}
		if it.level == groupItem && it.place.group != "" {
			chosen, keys = it.place.group == now.group, nil
			for _, p := range inGroup(places(), it.place.group) {
				keys = append(keys, p.key)
			}
		}
		it.set(chosen, n.note(b, keys, waiting))
		if open := it.level == groupItem || it.place.group == now.group; open != it.Visible() {
			moved = true
			it.Hidden = !open
		}
	}
	if moved {
		n.column.Refresh()
	}
}

// note is the counts of some places.
func (n *nav) note(b *Bench, keys []string, waiting map[string]int) string {
	faults, assumed, problems := 0, 0, 0
	for _, key := range keys {
		faults += waiting[key]
		if step(key) >= 0 {
			assumed += b.assumedIn(key)
		}
		if study := b.session.Study(); key == problemsPlace && study != nil {
			problems = findings.Problems(study)
		}
	}
	switch {
	case faults > 0:
		return fmt.Sprintf("%d !", faults)
	case problems > 0:
		return fmt.Sprint(problems)
	case assumed > 0 && len(keys) == 1 && placeOf(keys[0]).group != limitsGroup:
		return fmt.Sprintf("%d ?", assumed)
	}
	return ""
}

// column sets the names under each other, as close as they must stand for all
// to be in sight.
type column struct{}

// closest is the least height of a name in parts of what it would like.
const closest = 0.8

// MinSize is the column at its closest, as wide as its widest name.
func (column) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := fyne.Size{}
	for _, one := range o {
		least := one.MinSize()
		size.Width = fyne.Max(size.Width, least.Width)
		if one.Visible() {
			size.Height += closest * least.Height
		}
	}
	return size
}

// Layout gives each name its share of the height, but no more than it wants.
func (column) Layout(o []fyne.CanvasObject, size fyne.Size) {
	wanted := float32(0)
	for _, one := range o {
		if one.Visible() {
			wanted += one.MinSize().Height + theme.Padding()
		}
	}
	y, share := float32(0), fyne.Min(1, size.Height/fyne.Max(wanted, 1))
	for _, one := range o {
		if !one.Visible() {
			continue
		}
		height := share * (one.MinSize().Height + theme.Padding())
		one.Move(fyne.NewPos(0, y))
		one.Resize(fyne.NewSize(size.Width, height))
		y += height
	}
}

// navItem is one name in the column.
type navItem struct {
	widget.BaseWidget
	widgets.Highlight
	place  place // of a group: its first
	name   message.ID
	level  navLevel
	enter  func()
	chosen bool
	note   string
}

// navLevel distinguishes the name of a group from that of a place in it.
type navLevel int

const (
	groupItem navLevel = iota
	placeItem
)

var (
	_ desktop.Hoverable = (*navItem)(nil)
	_ fyne.Focusable    = (*navItem)(nil)
	_ fyne.Tappable     = (*navItem)(nil)
)

func newNavItem(p place, name message.ID, level navLevel, enter func()) *navItem {
	it := &navItem{place: p, name: name, level: level, enter: enter}
	it.Changed = it.Refresh
	it.ExtendBaseWidget(it)
	return it
}

// open reports whether it is a group with places under it.
func (it *navItem) open() bool {
	return it.level == groupItem && it.place.group != "" && it.name != it.place.name && len(inGroup(places(), it.place.group)) > 1
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
	if widgets.HelpKey(it, e) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		it.enter()
	}
}

// CreateRenderer draws the name.
func (it *navItem) CreateRenderer() fyne.WidgetRenderer {
	r := &navRenderer{it: it, ground: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent), text: canvas.NewText(lang.T(it.name), color.Black), note: canvas.NewText("", color.Black)}
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
	size := fyne.MeasureText(r.text.Text, th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true})
	note := fyne.MeasureText(r.widest(), th.Size(theme.SizeNameCaptionText), fyne.TextStyle{})
	pad := th.Size(theme.SizeNameInnerPadding)
	return fyne.NewSize(r.indent()+size.Width+note.Width+4*pad, size.Height+2*pad)
}

// widest is the longest note that there may be.
func (r *navRenderer) widest() string {
	if r.it.name == limitsGroup {
		return "0 !"
	}
	return "00 !"
}

// indent is how far in a place stands under its group.
func (r *navRenderer) indent() float32 {
	if r.it.level == placeItem {
		return look.Margin
	}
	return 0
}

func (r *navRenderer) Layout(size fyne.Size) {
	pad := r.it.Theme().Size(theme.SizeNameInnerPadding)
	// Where the column is close the letters reach over the edge: the ground leaves
	// those of the name above in sight.
	over := fyne.Max(0, r.text.MinSize().Height-size.Height+2)
	r.ground.Move(fyne.NewPos(0, over))
	r.ground.Resize(fyne.NewSize(size.Width, size.Height-over))
	r.ring.Resize(size)
	r.bar.Resize(fyne.NewSize(4, size.Height))
	r.text.Move(fyne.NewPos(r.indent()+2*pad+2, (size.Height-r.text.MinSize().Height)/2))
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
	case r.it.chosen && r.it.open():
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
	r.text.TextStyle.Bold = r.it.chosen || r.it.level == groupItem
	r.note.Text = r.it.note
	r.note.Color = look.Of(th, theme.ColorNamePlaceHolder)
	if len(r.it.note) > 0 && r.it.note[len(r.it.note)-1] == '!' {
		r.note.Color = look.Of(th, theme.ColorNameError)
	}
	r.note.TextSize = th.Size(theme.SizeNameCaptionText)
}
