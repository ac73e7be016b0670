package fields

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// Field is one labelled input of a form.
type Field interface {
	// Object is what a form holds.
	Object() fyne.CanvasObject
	// Refresh reads the value again, unless the person is in the middle of
	// typing it.
	Refresh()
	// SetFault shows a fault that the engine found, in words; empty clears it.
	SetFault(text string)
	// SetAssumed shows the value that is assumed while the field is left open.
	SetAssumed(text string)
	// Focusable is the part that takes the keyboard.
	Focusable() fyne.Focusable
}

// Column widths of a row at scale 1; they grow with the text.
const (
	labelWidth = 160
	entryWidth = 96
	unitWidth  = 56
	noteWidth  = 56
)

// assumedWord is shown beside every assumed value.
const assumedWord message.ID = "assumed"

// row is the shared shape of a field: label, editor, unit and a note in fixed
// columns, and under them a line of words that takes no room while empty.
type row struct {
	box    *fyne.Container
	label  *widget.Label
	editor fyne.CanvasObject
	unit   *widget.Label
	one    func() string // the unit beside the number one; nil: as beside any
	note   *widget.Label
	mark   *widgets.SeverityIcon
	below  *widget.Label
	tip    *widgets.TipArea // over a label that names a term; nil: it names none

	wide                 bool // the editor takes the unit's column too
	full                 bool // and the note's
	narrow               bool // no room for the note beside the value: it stands under it
	typing               bool // a person types into it: what is below it must not move
	noted                string
	fault, hint, assumed string
}

func (r *row) build(label, tip, unit string, editor fyne.CanvasObject) {
	r.label = widget.NewLabel(label)
	r.label.Wrapping = fyne.TextWrapWord
	r.editor = editor
	r.unit = widget.NewLabel(unit)
	r.note = widget.NewLabel("")
	r.note.TextStyle.Italic = true
	r.note.SizeName = theme.SizeNameCaptionText
	r.note.Importance = widget.LowImportance
	r.mark = widgets.NewSeverityIcon(sizing.Stop)
	r.below = widget.NewLabel("")
	r.below.Wrapping = fyne.TextWrapWord
	r.below.SizeName = theme.SizeNameCaptionText
	r.mark.Hide()
	r.below.Hide()
	r.box = container.New(&rowLayout{r: r}, r.label, r.editor, r.unit, r.note, r.mark, r.below)
	if tip != "" {
		r.tip = widgets.NewTipArea(tip)
		r.box.Add(r.tip)
	}
}

// Object is what a form holds.
func (r *row) Object() fyne.CanvasObject { return r.box }

// Label is what stands before the value.
func (r *row) Label() string { return r.label.Text }

// FaultText is the fault now shown, empty where there is none.
func (r *row) FaultText() string { return r.fault }

// NoteText is the word beside the value, such as "assumed".
func (r *row) NoteText() string { return r.noted }

// UnitText is the unit now shown.
func (r *row) UnitText() string { return r.unit.Text }

// showNote shows note and lower line; only what changed is redrawn.
func (r *row) showNote(note, fault string) {
	r.noted, r.fault = note, fault
	line, importance := fault, widget.DangerImportance
	if line == "" {
		line, importance = r.underline(note), widget.LowImportance
	}
	if r.narrow {
		note = ""
	}
	if r.note.Text != note {
		r.note.SetText(note)
	}
	marked := fault != ""
	if r.typing {
		line, marked, importance = r.lineWhileTyping(line, marked, importance)
	}
	if r.below.Text == line && r.mark.Visible() == marked && r.below.Importance == importance {
		return
	}
	r.below.Importance = importance
	r.below.SetText(line)
	if marked {
		r.mark.Show()
	} else {
		r.mark.Hide()
	}
	if line != "" {
		r.below.Show()
	} else {
		r.below.Hide()
	}
	r.box.Refresh()
}

// lineWhileTyping is the lower line while a person types: one that is there keeps its room, and
// none appears. A fault shown before is reported as it now is.
func (r *row) lineWhileTyping(line string, marked bool, importance widget.Importance) (string, bool, widget.Importance) {
	switch {
	case !r.below.Visible():
		return "", false, importance
	case line == "" || marked && !r.mark.Visible():
		return " ", false, widget.LowImportance
	}
	return line, marked, importance
}

// underline is the lower line of a faultless row: what is assumed or hinted
// and does not fit the entry.
func (r *row) underline(note string) string {
	switch {
	case note != "" && r.assumed != "" && !r.fits(r.assumed):
		return lang.T("assumed: {value}", "value", r.assumed)
	case r.narrow && note != "":
		return note
	case r.hint != "" && !r.fits(r.hint):
		return r.hint
	}
	return ""
}

// fits reports whether the entry shows a text in full.
func (r *row) fits(text string) bool {
	th := r.label.Theme()
	room := entryWidth * widgets.TextScale(th)
	if r.wide {
		room += (unitWidth) * widgets.TextScale(th)
	}
	room -= 4 * th.Size(theme.SizeNameInnerPadding)
	return fyne.MeasureText(r.withoutUnit(text), th.Size(theme.SizeNameText), fyne.TextStyle{}).Width <= room
}

// withoutUnit drops the unit that already stands beside the entry.
func (r *row) withoutUnit(text string) string {
	u := r.unit.Text
	if u == "" {
		return text
	}
	if r.one != nil {
		text = strings.TrimSuffix(text, " "+r.one())
	}
	return strings.TrimSuffix(text, " "+u)
}

// placeholder is what an empty entry shows.
func (r *row) placeholder() string {
	switch {
	case r.assumed != "" && r.fits(r.assumed):
		return r.withoutUnit(r.assumed)
	case r.assumed == "" && r.hint != "" && r.fits(r.hint):
		return r.hint
	}
	return ""
}

type rowLayout struct {
	r     *row
	width float32 // as last laid out
}

// columns gives the x and width of label, editor, unit and note in a row of
// the given width, and whether that is too narrow for the note. In large text
// labels take more lines rather than all of the growth in width.
func (l *rowLayout) columns(width float32) (x, w [4]float32, narrow bool) {
	th := l.r.label.Theme()
	g, gap := widgets.TextScale(th), th.Size(theme.SizeNamePadding)
	w = [4]float32{labelWidth * (1 + g) / 2, entryWidth * g, unitWidth * g, noteWidth * g}
	if m := l.r.editor.MinSize().Width; m > w[1] {
		w[1] = m
	}
	if l.r.wide {
		w[1] = fyne.Max(w[1], (entryWidth+unitWidth)*g+gap)
		w[2] = 0
	} else if m := l.r.unit.MinSize().Width; m > w[2] {
		w[2] = m
	}
	narrow = w[0]+w[1]+w[2]+w[3]+3*gap > width
	switch {
	case narrow:
		w[3] = 0
	case l.r.full && l.r.noted == "":
		w[1], w[3] = w[1]+w[3], 0
	}
	total := w[0] + w[1] + w[2] + w[3] + 3*gap
	if spare := width - total; spare > 0 {
		if l.r.wide {
			w[1] += spare
		} else {
			w[3] += spare
		}
	}
	x[1] = w[0] + gap
	x[2] = x[1] + w[1] + gap
	x[3] = x[2] + w[2] + gap
	if l.r.wide {
		x[3] = x[2]
	}
	return x, w, narrow
}

func (l *rowLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	x, w, _ := l.columns(0)
	least := x[3] + w[3]
	width := fyne.Max(least, l.width)
	return fyne.NewSize(least, l.lineHeight(w[0])+l.belowHeight(width))
}

func (l *rowLayout) lineHeight(labelW float32) float32 {
	r := l.r
	r.label.Resize(fyne.NewSize(labelW, r.label.Size().Height))
	return fyne.Max(r.label.MinSize().Height, fyne.Max(r.editor.MinSize().Height, r.unit.MinSize().Height))
}

func (l *rowLayout) markSize() float32 { return 12 * widgets.TextScale(l.r.label.Theme()) }

// markRoom is the mark with the gap before its words.
func (l *rowLayout) markRoom() float32 {
	return l.markSize() + l.r.label.Theme().Size(theme.SizeNameInnerPadding)
}

func (l *rowLayout) belowHeight(width float32) float32 {
	r := l.r
	if !r.below.Visible() {
		return 0
	}
	if r.mark.Visible() {
		width -= l.markRoom()
	}
	r.below.Resize(fyne.NewSize(width, r.below.Size().Height))
	return r.below.MinSize().Height
}

func (l *rowLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	r := l.r
	x, w, narrow := l.columns(size.Width)
	if narrow != r.narrow {
		r.narrow = narrow
		r.showNote(r.noted, r.fault)
	}
	line := l.lineHeight(w[0])
	editorH := r.editor.MinSize().Height
	place := func(o fyne.CanvasObject, i int, h float32) {
		o.Resize(fyne.NewSize(w[i], h))
		o.Move(fyne.NewPos(x[i], (line-h)/2))
	}
	place(r.label, 0, r.label.MinSize().Height)
	place(r.editor, 1, editorH)
	place(r.unit, 2, r.unit.MinSize().Height)
	place(r.note, 3, r.note.MinSize().Height)
	if r.tip != nil {
		place(r.tip, 0, line)
	}

	left := float32(0)
	if r.mark.Visible() {
		m := l.markSize()
		r.mark.Resize(fyne.NewSquareSize(m))
		r.mark.Move(fyne.NewPos(r.label.Theme().Size(theme.SizeNameInnerPadding), line+m*0.4))
		left = l.markRoom()
	}
	if r.below.Visible() {
		r.below.Move(fyne.NewPos(left, line))
		r.below.Resize(fyne.NewSize(size.Width-left, l.belowHeight(size.Width)))
	}
}
