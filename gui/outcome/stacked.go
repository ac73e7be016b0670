package outcome

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"returnbench/gui/widgets"
)

const (
	leastPicture = 240 // height at which a chart can be read
	leastHead    = 150 // of what stands above it, which scrolls in itself
	pictureShare = 0.45

	smallestTable = 0.8 // of its least height, in the smallest window
)

// stacked sets head, bar, picture and table under each other. The picture takes
// what is left, but no less than nearly half and than it can be read at: the head
// then gives way.
type stacked struct {
	head         *container.Scroll
	bar, picture fyne.CanvasObject
	table        *fyne.Container // of a table that scrolls in itself

	size      fyne.Size // of the last layout
	wanted    float32   // height of the head in it
	layingOut bool
}

// followed lays out the content of a scroll, which keeps a new height of it to itself.
type followed struct {
	stack   fyne.Layout
	changed func()
}

// MinSize is that of the content.
func (f followed) MinSize(objects []fyne.CanvasObject) fyne.Size { return f.stack.MinSize(objects) }

// Layout reports that the content may have another height.
func (f followed) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.stack.Layout(objects, size)
	f.changed()
}

// headChanged gives the head more room, or less, once it wants another height.
func (s *stacked) headChanged() {
	if !s.layingOut && !s.size.IsZero() && s.head.Content.MinSize().Height != s.wanted {
		s.Layout(nil, s.size)
	}
}

// MinSize lets the head shrink.
func (s *stacked) MinSize([]fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(0, leastPicture)
	for _, o := range []fyne.CanvasObject{s.head.Content, s.bar, s.picture, s.table} {
		if o.Visible() {
			size.Width = fyne.Max(size.Width, o.MinSize().Width)
		}
	}
	size.Height += fyne.Min(s.head.Content.MinSize().Height, leastHead) + s.bar.MinSize().Height
	if s.table.Visible() {
		size.Height += smallestTable * s.leastTable()
	}
	return size
}

// leastTable is the height to which the table gives way to the picture.
func (s *stacked) leastTable() float32 { return s.table.Objects[0].MinSize().Height }

// Layout gives the head its width first, since its height follows from it.
func (s *stacked) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	s.layingOut = true
	defer func() { s.layingOut = false }()
	s.size = size
	bar := widgets.ResizeToWidth(s.bar, size.Width)
	rest := size.Height - bar
	under := float32(0)
	if s.table.Visible() {
		under = fyne.Max(s.leastTable(), fyne.Min(s.table.MinSize().Height, rest-leastPicture))
		rest -= under
	}
	s.wanted = widgets.ResizeToWidth(s.head.Content, size.Width)
	given := fyne.Min(s.wanted, fyne.Max(rest-fyne.Max(leastPicture, pictureShare*rest), leastHead))
	y := float32(0)
	put := func(o fyne.CanvasObject, height float32) {
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, height))
		y += height
	}
	put(s.head, given)
	put(s.bar, bar)
	put(s.picture, fyne.Max(0, rest-given))
	if s.table.Visible() {
		put(s.table, under)
	}
}
