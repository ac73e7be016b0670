package notices

import (
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// FindingList shows findings one under another, worst first: a thin edge, mark,
// word, sentence, and small under it the limit and where the limit is from.
type FindingList struct {
	widget.BaseWidget
	list  *fyne.Container
	shown []sizing.Finding
	units units.Locale
}

// NewFindingList makes an empty list.
func NewFindingList() *FindingList {
	f := &FindingList{list: container.NewVBox()}
	f.ExtendBaseWidget(f)
	f.Set(nil, units.IP)
	return f
}

// CreateRenderer shows the list.
func (f *FindingList) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(f.list)
}

// Set shows findings in the units of a system.
func (f *FindingList) Set(findings []sizing.Finding, sys units.Locale) {
	shown := worstFirst(findings)
	if len(f.list.Objects) > 0 && f.units == sys && reflect.DeepEqual(f.shown, shown) {
		return
	}
	f.shown, f.units = shown, sys
	objects := make([]fyne.CanvasObject, 0, len(f.shown)+1)
	for _, one := range f.shown {
		objects = append(objects, newRemark(one.Severity, one.In(sys), findingSource(one, sys)))
	}
	if len(objects) == 0 {
		none := widget.NewLabel(lang.T("Nothing was found."))
		none.Importance = widget.LowImportance
		objects = append(objects, none)
	}
	f.list.Objects = objects
	f.list.Refresh()
	f.Refresh()
}

// Shown are the findings in the order shown.
func (f *FindingList) Shown() []sizing.Finding { return f.shown }

func worstFirst(in []sizing.Finding) []sizing.Finding {
	out := slices.Clone(in)
	sizing.WorstFirst(out)
	return out
}

func findingSource(f sizing.Finding, sys units.Locale) string {
	parts := message.Rows{Mark: Between}
	if f.Option != "" {
		parts.Items = append(parts.Items, message.New("for {option}", "option", sizing.OptionName(f.Option)))
	}
	parts.Items = append(parts.Items, Basis(f)...)
	return parts.Show(sys)
}

// Between stands between the parts of the small print of a finding.
const Between = "  ·  "

// Basis is the limit of a finding and its source, where it has them.
func Basis(f sizing.Finding) []any {
	var parts []any
	if f.Limit != nil {
		parts = append(parts, message.New("limit: {limit}", "limit", f.Limit))
	}
	if f.Source != "" {
		parts = append(parts, message.New("source: {source}", "source", f.Source))
	}
	return parts
}

func newRemark(s sizing.Severity, text, source string) fyne.CanvasObject {
	return withEdge(s, container.New(&remarkLayout{}, remarkParts(s, text, source)...))
}

func newBanner(s sizing.Severity, title, text string) *fyne.Container {
	parts := remarkParts(s, title, text)
	parts[sentencePart].(*widget.Label).TextStyle.Bold = true
	body := parts[finePart].(*widget.Label)
	body.SizeName = theme.SizeNameText
	body.Importance = widget.MediumImportance
	return container.New(&remarkLayout{}, parts...)
}

// NewEntry is a problem with its title, its sentence, and under them whatever
// else belongs to it.
func NewEntry(s sizing.Severity, title, text string, below ...fyne.CanvasObject) fyne.CanvasObject {
	banner := newBanner(s, title, text)
	rows := []fyne.CanvasObject{banner}
	for _, o := range below {
		rows = append(rows, container.New(&underSentence{banner}, o))
	}
	return withEdge(s, container.New(layout.NewCustomPaddedVBoxLayout(0), rows...))
}

// underSentence sets something under the sentence of a remark.
type underSentence struct{ remark *fyne.Container }

func (u *underSentence) x() float32 {
	_, _, x, _ := u.remark.Layout.(*remarkLayout).left(u.remark.Objects)
	return x
}

// MinSize is that of what it holds, moved in.
func (u *underSentence) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(u.x(), 0)
}

// Layout moves it in.
func (u *underSentence) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(u.x(), 0))
	o[0].Resize(fyne.NewSize(size.Width-u.x(), size.Height))
}

// withEdge draws the thin edge of a severity at the left.
func withEdge(s sizing.Severity, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(edgeLayout{}, newGround(look.Ink(s)), o)
}

// edgeLayout gives the first object a thin strip at the left, and the second the
// rest.
type edgeLayout struct{}

const (
	edgeWidth = 3
	edgeGap   = 5
)

// MinSize is that of the second, with the edge.
func (edgeLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[1].MinSize().AddWidthHeight(edgeWidth+edgeGap, 0)
}

// Layout puts both in place.
func (edgeLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(edgeWidth, size.Height))
	o[1].Move(fyne.NewPos(edgeWidth+edgeGap, 0))
	o[1].Resize(fyne.NewSize(size.Width-edgeWidth-edgeGap, size.Height))
}

// Parts of a remark in the order of its objects.
const (
	markPart = iota
	wordPart
	sentencePart
	finePart
)

// remarkParts are mark, word, sentence and small print.
func remarkParts(s sizing.Severity, text, small string) []fyne.CanvasObject {
	word := widget.NewLabel(widgets.SeverityWord(s))
	word.TextStyle.Bold = true
	word.Importance = importance(s)
	sentence := widget.NewLabel(text)
	sentence.Wrapping = fyne.TextWrapWord
	fine := widget.NewLabel(small)
	fine.Wrapping = fyne.TextWrapWord
	fine.SizeName = theme.SizeNameCaptionText
	fine.Importance = widget.LowImportance
	if small == "" {
		fine.Hide()
	}
	if text == "" {
		sentence.Hide()
	}
	return []fyne.CanvasObject{widgets.NewSeverityIcon(s), word, sentence, fine}
}

func importance(s sizing.Severity) widget.Importance {
	switch s {
	case sizing.Good:
		return widget.SuccessImportance
	case sizing.Caution:
		return widget.WarningImportance
	case sizing.Stop:
		return widget.DangerImportance
	}
	return widget.MediumImportance
}

// remarkLayout puts mark and word in columns of their own and wraps the rest
// beside them.
type remarkLayout struct{ width float32 }

func (l *remarkLayout) left(o []fyne.CanvasObject) (mark, word, x, pad float32) {
	th := o[wordPart].(*widget.Label).Theme()
	pad = th.Size(theme.SizeNameInnerPadding)
	mark = th.Size(theme.SizeNameInlineIcon)
	// Every word takes the room of the longest, so that sentences line up.
	word = fyne.MeasureText(widgets.SeverityWord(sizing.Caution), th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Width + 2*pad
	return mark, word, pad + mark + word, pad
}

func (l *remarkLayout) heights(o []fyne.CanvasObject, width float32) (sentence, fine float32) {
	_, _, x, pad := l.left(o)
	room := fyne.Max(width-x-pad, 60)
	measure := func(i int) float32 {
		if !o[i].Visible() {
			return 0
		}
		o[i].Resize(fyne.NewSize(room, o[i].Size().Height))
		return o[i].MinSize().Height
	}
	sentence, fine = measure(sentencePart), measure(finePart)
	if sentence > 0 && fine > 0 {
		fine -= pad
	}
	return sentence, fine
}

func (l *remarkLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	_, _, x, pad := l.left(o)
	least := x + 120
	sentence, fine := l.heights(o, fyne.Max(least, l.width))
	return fyne.NewSize(least, fyne.Max(sentence+fine, o[wordPart].MinSize().Height)+pad/2)
}

func (l *remarkLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	mark, word, x, pad := l.left(o)
	sentence, fine := l.heights(o, size.Width)
	line := o[wordPart].MinSize().Height
	o[markPart].Resize(fyne.NewSquareSize(mark))
	o[markPart].Move(fyne.NewPos(pad, (line-mark)/2))
	o[wordPart].Resize(fyne.NewSize(word, line))
	o[wordPart].Move(fyne.NewPos(pad+mark, 0))
	room := fyne.Max(size.Width-x-pad, 60)
	o[sentencePart].Move(fyne.NewPos(x, 0))
	o[sentencePart].Resize(fyne.NewSize(room, sentence))
	o[finePart].Move(fyne.NewPos(x, fyne.Max(0, sentence-pad)))
	o[finePart].Resize(fyne.NewSize(room, fine+pad))
}

// ground is a colored rectangle that follows the theme.
type ground struct {
	widget.BaseWidget
	name fyne.ThemeColorName
}

func newGround(name fyne.ThemeColorName) *ground {
	g := &ground{name: name}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer draws it.
func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	r := &groundRenderer{g: g, rect: canvas.NewRectangle(look.Of(g.Theme(), g.name))}
	r.Refresh()
	return r
}

type groundRenderer struct {
	g    *ground
	rect *canvas.Rectangle
}

func (r *groundRenderer) Destroy()                     {}
func (r *groundRenderer) Layout(size fyne.Size)        { r.rect.Resize(size) }
func (r *groundRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r *groundRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rect} }

func (r *groundRenderer) Refresh() {
	r.rect.FillColor = look.Of(r.g.Theme(), r.g.name)
	r.rect.Refresh()
}
