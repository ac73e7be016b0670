package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// advanced is a group of fields that few need: closed until it is asked for. A
// group with a fault opens by itself, and one with typed values shows their
// number.
type advanced struct {
	form  *Form
	key   string // of the group, in all shapes of the form
	from  int    // the fields in it
	to    int
	head  *widgets.Button
	inner *fyne.Container
}

// Advanced adds a closed group. key tells it from the others of the form.
func (b *Builder) Advanced(key string, build func()) {
	g := &advanced{form: b.form, key: key, from: len(b.form.fields), inner: container.NewVBox()}
	g.head = widgets.NewButton("Advanced ...", func() { g.open(!g.form.opened[key]) })
	b.addObject(widgets.NewFlow(g.head))
	outer := b.box
	b.box = g.inner
	build()
	b.box = outer
	g.to = len(b.form.fields)
	b.addObject(g.inner)
	b.form.advanced = append(b.form.advanced, g)
	g.refresh()
}

// open shows the fields or hides them.
func (g *advanced) open(open bool) {
	g.form.opened[g.key] = open
	g.refresh()
	g.form.layOutAgain()
}

// refresh brings heading and fields up to date.
func (g *advanced) refresh() {
	typed := 0
	for _, b := range g.form.fields[g.from:g.to] {
		if f, ok := b.field.(interface{ FaultText() string }); ok && f.FaultText() != "" {
			g.form.opened[g.key] = true
		}
		if f, ok := b.field.(interface{ Entry() *fields.Entry }); ok && f.Entry().Text != "" {
			typed++
		}
	}
	open := g.form.opened[g.key]
	words := lang.T("Advanced ...")
	if open {
		words = lang.T("Hide advanced")
	} else if typed > 0 {
		words = lang.T("Advanced ({count} entered) ...", "count", typed)
	}
	if g.head.Text != words {
		g.head.SetText(words)
	}
	if open != g.inner.Visible() {
		g.inner.Hidden = !open
		g.inner.Refresh()
	}
}

// unfold opens the group that a field stands in, where it is in one.
func (f *Form) unfold(field fields.Field) {
	for _, g := range f.advanced {
		for _, b := range f.fields[g.from:g.to] {
			if b.field == field && !f.opened[g.key] {
				g.open(true)
			}
		}
	}
}

// Folded reports whether the field of a path is in a group that is closed now.
func (f *Form) Folded(path string) bool {
	for _, g := range f.advanced {
		for _, b := range f.fields[g.from:g.to] {
			if b.paths[0] == path {
				return !f.opened[g.key]
			}
		}
	}
	return false
}
