package start

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing/message"
)

// OpenList is what can be opened from an empty bench.
type OpenList struct {
	Try       []Entry // on the first start
	HideTry   func()  // offers Try no more
	Recent    []Entry // newest first
	Examples  []Entry
	Templates []Entry
}

// Entry is one thing of the list.
type Entry struct {
	Name, Note string
	Open       func()
}

// Beside is what can be opened, while nothing is entered; nil: the sizes are
// shown instead.
func (s *Screen) Beside() fyne.CanvasObject {
	if s.model.Study() != nil || !s.model.Blank() {
		return nil
	}
	return s.scrolledList
}

// Under is the same without a scroll of its own.
func (s *Screen) Under() fyne.CanvasObject { return s.unscrolledList }

// refreshOpenList lists them anew where a file came or went.
func (s *Screen) refreshOpenList() {
	list := s.openList()
	var names []string
	for _, e := range slices.Concat(list.Try, list.Recent, list.Templates) {
		names = append(names, e.Note+"/"+e.Name)
	}
	if len(s.scrolledList.Objects) > 0 && slices.Equal(names, s.recent) {
		return
	}
	s.recent = names
	box := container.NewVBox()
	group := func(title, none message.ID, entries []Entry) {
		head := wrapped(lang.T(title))
		head.TextStyle.Bold = true
		box.Add(head)
		if len(entries) == 0 {
			box.Add(small(none))
		}
		for _, e := range entries {
			open := widgets.NewNamedButton(e.Name, e.Open)
			open.Alignment = widget.ButtonAlignLeading
			note := widgets.NewLines(2, theme.SizeNameCaptionText, theme.ColorNameForeground, false)
			note.Set(e.Note, theme.ColorNameForeground)
			box.Add(container.New(buttonAndNote{}, open, note))
		}
		gap := widget.NewLabel("")
		gap.SizeName = theme.SizeNameCaptionText
		box.Add(gap)
	}
	if len(list.Try) > 0 {
		group("Three things to try", "", list.Try)
		box.Add(container.NewHBox(widgets.NewButton("Don't offer these again", list.HideTry)))
		box.Add(small("You find them again under Help."))
	}
	group("Recent jobs", "No job was opened yet.", list.Recent)
	group("Examples: invented houses, complete with readings", "", list.Examples)
	group("From a template: a house like yours, without its name and readings", "", list.Templates)
	s.unscrolledList.Objects = []fyne.CanvasObject{box}
	s.unscrolledList.Refresh()
	if len(s.scrolledList.Objects) == 0 {
		s.scrolledList.Objects = []fyne.CanvasObject{widgets.NewVScroll(container.New(margin{}, s.unscrolledList))}
	}
	s.scrolledList.Refresh()
}

func small(text message.ID) *widget.Label {
	l := widget.NewLabel(lang.T(text))
	l.SizeName = theme.SizeNameCaptionText
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// buttonAndNote sets a button at the left and its note beside it.
type buttonAndNote struct{}

const nameWidth = 320 // of a button, at scale 1

func (buttonAndNote) width(o fyne.CanvasObject) float32 {
	return fyne.Max(nameWidth*widgets.TextScale(fyne.CurrentApp().Settings().Theme()), o.MinSize().Width)
}

// MinSize leaves the note no room of its own.
func (n buttonAndNote) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, fyne.Max(o[0].MinSize().Height, o[1].MinSize().Height))
}

// Layout gives the note what the button leaves.
func (n buttonAndNote) Layout(o []fyne.CanvasObject, size fyne.Size) {
	width := fyne.Min(n.width(o[0]), size.Width)
	o[0].Resize(fyne.NewSize(width, size.Height))
	o[1].Move(fyne.NewPos(width+8, (size.Height-o[1].MinSize().Height)/2))
	o[1].Resize(fyne.NewSize(fyne.Max(0, size.Width-width-8), o[1].MinSize().Height))
}

// margin keeps the margin of a place, and room for the bar of the scroll.
type margin struct{}

func (margin) right() float32 { return fyne.Max(look.Margin, theme.ScrollBarSize()+4) }

// MinSize is that of what it holds, with the margin.
func (e margin) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(look.Margin+e.right(), 2*look.Margin)
}

// Layout gives it what the margin leaves.
func (e margin) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(look.Margin, look.Margin))
	o[0].Resize(size.SubtractWidthHeight(look.Margin+e.right(), 2*look.Margin))
}
