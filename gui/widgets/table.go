package widgets

import (
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
	"returnbench/sizing"
)

// Column is the head of a table's column: a title and, under it, the unit of
// its numbers.
type Column struct {
	Title, Unit string
	// Right sets the cells to the right even where not all are numbers.
	Right bool
	// Trend says that a cell may end in "better", "worse" or "too close to tell",
	// which then has a mark of its own.
	Trend bool
	// Over lets the title run on over the next column, which has none.
	Over bool
	// Fixed columns stay in sight while the others move sideways; they come first.
	Fixed bool
}

// Table is a grid of text under a head that stays in sight. Rows are selected
// with the pointer or the arrow keys. A cell that reads "good", "caution" or
// "stop" is shown as a mark and the word.
type Table struct {
	widget.BaseWidget

	// OnSelected is told the row that was selected.
	OnSelected func(row int)
	// OnActivated is told a row on enter or space.
	OnActivated func(row int)
	// OnHead is told the column whose head was clicked.
	OnHead func(column int)
	// OnCopy is told that the table is to be copied.
	OnCopy func()

	columns  []Column
	rows     [][]string
	selected int
	focused  bool

	head *tableHead
	body *tableBody
	pane *container.Scroll

	widths     []float32
	right      []bool  // columns of numbers
	measuredAt float32 // text size of the widths
}

// NewTable makes an empty table.
func NewTable() *Table {
	t := &Table{selected: -1}
	t.ExtendBaseWidget(t)
	t.head = &tableHead{t: t}
	t.head.ExtendBaseWidget(t.head)
	t.body = &tableBody{t: t, hovered: -1}
	t.body.ExtendBaseWidget(t.body)
	t.pane = container.NewScroll(t.body)
	t.pane.OnScrolled = func(fyne.Position) { t.scrolled() }
	return t
}

// SetColumns sets the heads.
func (t *Table) SetColumns(columns []Column) {
	t.columns = append([]Column(nil), columns...)
	t.remeasure()
}

// SetRows sets the cells; a selection stays on its row number while there is
// such a row. OnSelected is not told.
func (t *Table) SetRows(rows [][]string) {
	t.rows = rows
	if t.selected >= len(rows) {
		t.selected = -1
	}
	t.remeasure()
}

// Rows are the cells now shown.
func (t *Table) Rows() [][]string { return t.rows }

// Selected is the selected row, -1 where there is none.
func (t *Table) Selected() int { return t.selected }

// Select selects a row, brings it into sight and tells OnSelected; -1 takes
// the selection away without telling.
func (t *Table) Select(row int) {
	if row < -1 || row >= len(t.rows) {
		return
	}
	changed := row != t.selected
	t.selected = row
	if row >= 0 {
		t.reveal(row)
	}
	t.body.Refresh()
	if changed && row >= 0 && t.OnSelected != nil {
		t.OnSelected(row)
	}
}

func (t *Table) reveal(row int) {
	h := t.rowHeight()
	top, bottom := float32(row)*h, float32(row+1)*h
	offset, view := t.pane.Offset, t.pane.Size().Height
	switch {
	case view <= 0:
		return
	case top < offset.Y:
		offset.Y = top
	case bottom > offset.Y+view:
		offset.Y = bottom - view
	default:
		return
	}
	t.pane.ScrollToOffset(offset)
	t.scrolled()
}

func (t *Table) scrolled() {
	t.head.Refresh()
	t.body.Refresh()
}

func (t *Table) rowHeight() float32 {
	th := t.Theme()
	return fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height + th.Size(theme.SizeNameInnerPadding)
}

func (t *Table) headHeight() float32 {
	th := t.Theme()
	h := fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Height
	for _, c := range t.columns {
		if c.Unit != "" {
			h += fyne.MeasureText("M", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
			break
		}
	}
	return h + th.Size(theme.SizeNameInnerPadding)
}

// verdict reads a cell that tells a severity, alone or before a colon or a
// blank and more words.
func verdict(cell string) (sizing.Severity, string) {
	first, rest, _ := strings.Cut(cell, " ")
	first = strings.TrimSuffix(first, ":")
	for _, s := range []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop} {
		if first == string(s) || first == Word(s) {
			return s, strings.TrimSpace(Word(s) + " " + rest)
		}
	}
	return "", cell
}

// trend reads a cell that ends in how a change is.
func trend(cell string) sizing.Trend {
	for _, t := range []sizing.Trend{sizing.Better, sizing.Worse, sizing.Unsure} {
		if cell == string(t) || strings.HasSuffix(cell, " "+string(t)) {
			return t
		}
	}
	return ""
}

func isNumber(cell string) bool {
	_, err := strconv.ParseFloat(strings.Replace(cell, "−", "-", 1), 64)
	return err == nil
}

func (t *Table) remeasure() {
	t.measure()
	t.Refresh()
}

// measure finds the width each column needs and which hold numbers.
func (t *Table) measure() {
	th := t.Theme()
	t.measuredAt = th.Size(theme.SizeNameText)
	size, small := th.Size(theme.SizeNameText), th.Size(theme.SizeNameCaptionText)
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	t.widths = make([]float32, len(t.columns))
	t.right = make([]bool, len(t.columns))
	for i, c := range t.columns {
		w := fyne.MeasureText(c.Title, size, fyne.TextStyle{Bold: true}).Width
		if c.Over {
			w = 0
		}
		w = fyne.Max(w, fyne.MeasureText(c.Unit, small, fyne.TextStyle{}).Width)
		numbers, others := 0, 0
		for _, row := range t.rows {
			cell := cellAt(row, i)
			s, text := verdict(cell)
			extra := float32(0)
			if s != "" || c.Trend {
				extra = th.Size(theme.SizeNameInlineIcon) + th.Size(theme.SizeNameInnerPadding)
			}
			w = fyne.Max(w, fyne.MeasureText(text, size, fyne.TextStyle{Bold: s != ""}).Width+extra)
			switch {
			case isNumber(cell):
				numbers++
			case cell != "" && cell != "–":
				others++
			}
		}
		t.right[i] = c.Right || numbers > 0 && others == 0
		t.widths[i] = w + 2*pad
	}
	for i, c := range t.columns {
		if c.Over && i+1 < len(t.widths) {
			w := fyne.MeasureText(c.Title, size, fyne.TextStyle{Bold: true}).Width + 2*pad
			t.widths[i+1] = fyne.Max(t.widths[i+1], w-t.widths[i])
		}
	}
}

// fixed is how many columns stay in sight, and how wide they are: none where
// they would leave no room for the others.
func (t *Table) fixed() (columns int, width float32) {
	for i, c := range t.columns {
		if !c.Fixed {
			break
		}
		columns, width = i+1, width+t.widths[i]
	}
	if width > t.pane.Size().Width*0.7 {
		return 0, 0
	}
	return columns, width
}

// each calls a function for every column with where it begins in the body; the
// fixed ones come last, to be drawn over the others.
func (t *Table) each(draw func(i int, x float32)) {
	fixed, _ := t.fixed()
	starts := make([]float32, len(t.columns))
	x := float32(0)
	for i := range t.columns {
		starts[i] = x
		x += t.widths[i]
	}
	for i := fixed; i < len(t.columns); i++ {
		draw(i, starts[i])
	}
	for i := range fixed {
		draw(i, starts[i]+t.pane.Offset.X)
	}
}

func cellAt(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}

func (t *Table) fullWidth() float32 {
	sum := float32(0)
	for _, w := range t.widths {
		sum += w
	}
	return sum
}

// Cursor of the pointer.
func (t *Table) Cursor() desktop.Cursor { return desktop.DefaultCursor }

// FocusGained shows the focus.
func (t *Table) FocusGained() {
	t.focused = true
	t.Refresh()
}

// FocusLost puts it away.
func (t *Table) FocusLost() {
	t.focused = false
	t.Refresh()
}

// TypedRune is part of being focused.
func (t *Table) TypedRune(rune) {}

// TypedShortcut copies the table.
func (t *Table) TypedShortcut(s fyne.Shortcut) {
	if _, ok := s.(*fyne.ShortcutCopy); ok && t.OnCopy != nil {
		t.OnCopy()
	}
}

// TypedKey moves the selection, or the view sideways.
func (t *Table) TypedKey(k *fyne.KeyEvent) {
	page := max(1, int(t.pane.Size().Height/t.rowHeight())-1)
	last := len(t.rows) - 1
	move := func(to int) {
		if last >= 0 {
			t.Select(min(max(to, 0), last))
		}
	}
	switch k.Name {
	case fyne.KeyDown:
		move(t.selected + 1)
	case fyne.KeyUp:
		move(t.selected - 1)
	case fyne.KeyPageDown:
		move(t.selected + page)
	case fyne.KeyPageUp:
		move(t.selected - page)
	case fyne.KeyHome:
		move(0)
	case fyne.KeyEnd:
		move(last)
	case fyne.KeyLeft, fyne.KeyRight:
		step := float32(40)
		if k.Name == fyne.KeyLeft {
			step = -step
		}
		most := fyne.Max(0, t.body.MinSize().Width-t.pane.Size().Width)
		x := fyne.Min(fyne.Max(0, t.pane.Offset.X+step), most)
		t.pane.ScrollToOffset(fyne.NewPos(x, t.pane.Offset.Y))
		t.scrolled()
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if t.selected >= 0 && t.OnActivated != nil {
			t.OnActivated(t.selected)
		}
	}
}

func (t *Table) focusMe() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t)
	}
}

// CreateRenderer puts the head over the scrolled body.
func (t *Table) CreateRenderer() fyne.WidgetRenderer {
	r := &tableRenderer{t: t, clip: container.NewClip(t.head), ring: canvas.NewRectangle(color.Transparent)}
	r.paint()
	return r
}

type tableRenderer struct {
	t    *Table
	clip *container.Clip
	ring *canvas.Rectangle
}

func (r *tableRenderer) Destroy() {}

func (r *tableRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.clip, r.t.pane, r.ring}
}

func (r *tableRenderer) MinSize() fyne.Size {
	return fyne.NewSize(120, r.t.headHeight()+2*r.t.rowHeight())
}

func (r *tableRenderer) Layout(size fyne.Size) {
	h := r.t.headHeight()
	r.clip.Resize(fyne.NewSize(size.Width, h))
	r.t.pane.Move(fyne.NewPos(0, h))
	r.t.pane.Resize(fyne.NewSize(size.Width, fyne.Max(0, size.Height-h)))
	r.ring.Resize(size)
	r.t.head.Resize(fyne.NewSize(fyne.Max(size.Width, r.t.fullWidth()), h))
	r.t.scrolled()
}

func (r *tableRenderer) Refresh() {
	if r.t.measuredAt != r.t.Theme().Size(theme.SizeNameText) {
		r.t.measure()
	}
	r.paint()
	r.t.pane.Refresh()
	r.Layout(r.t.Size())
	canvas.Refresh(r.t)
}

func (r *tableRenderer) paint() {
	th := r.t.Theme()
	r.ring.StrokeColor = look.Of(th, theme.ColorNamePrimary)
	r.ring.StrokeWidth = 2
	r.ring.CornerRadius = th.Size(theme.SizeNameInputRadius)
	r.ring.Hidden = !r.t.focused
}

// tableHead draws titles and units, moved sideways with the body.
type tableHead struct {
	widget.BaseWidget
	t *Table
}

// Tapped tells the column.
func (h *tableHead) Tapped(e *fyne.PointEvent) {
	h.t.focusMe()
	if h.t.OnHead == nil {
		return
	}
	at := -1
	h.t.each(func(i int, x float32) {
		x -= h.t.pane.Offset.X
		if e.Position.X >= x && e.Position.X < x+h.t.widths[i] {
			at = i
		}
	})
	if at >= 0 {
		h.t.OnHead(at)
	}
}

// CreateRenderer draws the head.
func (h *tableHead) CreateRenderer() fyne.WidgetRenderer {
	return &headRenderer{h: h, ground: canvas.NewRectangle(color.Transparent), line: canvas.NewRectangle(color.Transparent)}
}

type headRenderer struct {
	h            *tableHead
	ground, line *canvas.Rectangle
	texts        []fyne.CanvasObject
	drawn        fyne.Size
}

func (r *headRenderer) Destroy()           {}
func (r *headRenderer) MinSize() fyne.Size { return fyne.NewSize(1, r.h.t.headHeight()) }

func (r *headRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.ground, r.line}, r.texts...)
}

// Layout draws anew for a new size alone: the window lays out whatever was
// drawn anew, which would go on for ever.
func (r *headRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.Refresh()
	}
}

func (r *headRenderer) Refresh() {
	r.drawn = r.h.Size()
	t := r.h.t
	th := t.Theme()
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	height := t.headHeight()
	r.ground.FillColor = look.Of(th, theme.ColorNameHeaderBackground)
	r.ground.Resize(r.h.Size())
	r.line.FillColor = look.Of(th, theme.ColorNameSeparator)
	r.line.Resize(fyne.NewSize(r.h.Size().Width, 1))
	r.line.Move(fyne.NewPos(0, height-1))
	r.texts = r.texts[:0]
	fixed, _ := t.fixed()
	t.each(func(i int, x float32) {
		if x -= t.pane.Offset.X; i < fixed {
			ground := canvas.NewRectangle(look.Of(th, theme.ColorNameHeaderBackground))
			ground.Move(fyne.NewPos(x, 0))
			ground.Resize(fyne.NewSize(t.widths[i], height-1))
			r.texts = append(r.texts, ground)
		}
		w, right := t.widths[i]-2*pad, t.right[i]
		if t.columns[i].Over && i+1 < len(t.widths) {
			w, right = w+t.widths[i+1], false
		}
		r.title(t.columns[i], x+pad, w, right)
	})
	canvas.Refresh(r.h)
}

// title writes a column's title and unit.
func (r *headRenderer) title(c Column, x, w float32, right bool) {
	th := r.h.t.Theme()
	title := canvas.NewText(c.Title, look.Of(th, theme.ColorNameForeground))
	title.TextStyle.Bold = true
	title.TextSize = th.Size(theme.SizeNameText)
	unit := canvas.NewText(c.Unit, look.Of(th, theme.ColorNamePlaceHolder))
	unit.TextSize = th.Size(theme.SizeNameCaptionText)
	y := th.Size(theme.SizeNameInnerPadding) / 2
	for _, text := range []*canvas.Text{title, unit} {
		if right {
			text.Alignment = fyne.TextAlignTrailing
		}
		text.Move(fyne.NewPos(x, y))
		text.Resize(fyne.NewSize(w, text.MinSize().Height))
		y += text.MinSize().Height
		if text.Text != "" {
			r.texts = append(r.texts, text)
		}
	}
}

// tableBody draws the rows in sight.
type tableBody struct {
	widget.BaseWidget
	t       *Table
	hovered int
}

func (b *tableBody) rowAt(p fyne.Position) int {
	row := int(p.Y / b.t.rowHeight())
	if row < 0 || row >= len(b.t.rows) {
		return -1
	}
	return row
}

// Tapped selects the row under the pointer.
func (b *tableBody) Tapped(e *fyne.PointEvent) {
	b.t.focusMe()
	if row := b.rowAt(e.Position); row >= 0 {
		b.t.Select(row)
	}
}

// MouseIn lights the row under the pointer.
func (b *tableBody) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved lights the row under the pointer.
func (b *tableBody) MouseMoved(e *desktop.MouseEvent) {
	if row := b.rowAt(e.Position); row != b.hovered {
		b.hovered = row
		b.Refresh()
	}
}

// MouseOut puts the light out.
func (b *tableBody) MouseOut() {
	b.hovered = -1
	b.Refresh()
}

// CreateRenderer draws the rows.
func (b *tableBody) CreateRenderer() fyne.WidgetRenderer { return &bodyRenderer{b: b} }

type bodyRenderer struct {
	b       *tableBody
	objects []fyne.CanvasObject
	drawn   fyne.Size
}

// Layout draws anew for a new size alone, as that of the head.
func (r *bodyRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.Refresh()
	}
}

func (r *bodyRenderer) Destroy()                     {}
func (r *bodyRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *bodyRenderer) MinSize() fyne.Size {
	t := r.b.t
	return fyne.NewSize(t.fullWidth(), float32(len(t.rows))*t.rowHeight())
}

func (r *bodyRenderer) Refresh() {
	r.drawn = r.b.Size()
	t := r.b.t
	r.objects = r.objects[:0]
	h := t.rowHeight()
	first := max(0, int(t.pane.Offset.Y/h))
	last := min(len(t.rows)-1, int((t.pane.Offset.Y+t.pane.Size().Height)/h))
	for row := first; row <= last; row++ {
		r.drawRow(row, float32(row)*h, h)
	}
	canvas.Refresh(r.b)
}

func (r *bodyRenderer) fill(name fyne.ThemeColorName, x, y, w, h float32) {
	rect := canvas.NewRectangle(look.Of(r.b.t.Theme(), name))
	rect.Resize(fyne.NewSize(w, h))
	rect.Move(fyne.NewPos(x, y))
	r.objects = append(r.objects, rect)
}

// ground is what lies under a row, or under a fixed cell of it.
func (r *bodyRenderer) ground(row int, x, y, w, h float32) {
	switch row {
	case r.b.t.selected:
		r.fill(theme.ColorNameSelection, x, y, w, h)
	case r.b.hovered:
		r.fill(theme.ColorNameHover, x, y, w, h)
	}
	r.fill(theme.ColorNameSeparator, x, y+h-1, w, 1)
}

func (r *bodyRenderer) drawRow(row int, y, h float32) {
	t := r.b.t
	r.ground(row, 0, y, fyne.Max(r.b.Size().Width, t.fullWidth()), h)
	fixed, _ := t.fixed()
	t.each(func(i int, x float32) {
		if i < fixed {
			r.fill(theme.ColorNameBackground, x, y, t.widths[i], h)
			r.ground(row, x, y, t.widths[i], h)
		}
		r.drawCell(cellAt(t.rows[row], i), i, x, y, h)
	})
	if row == t.selected {
		r.fill(theme.ColorNamePrimary, t.pane.Offset.X, y, 3, h) // a bar, so that colour is not alone
	}
}

// drawCell writes one cell, with its mark where it tells a severity or a trend.
func (r *bodyRenderer) drawCell(cell string, i int, x, y, h float32) {
	t := r.b.t
	th := t.Theme()
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	side := th.Size(theme.SizeNameInlineIcon)
	gap := th.Size(theme.SizeNameInnerPadding)
	s, words := verdict(cell)
	ink := look.Ink(s)
	var mark fyne.CanvasObject
	switch way := trend(cell); {
	case s != "":
		mark = NewMark(s)
	case t.columns[i].Trend && way != "":
		mark, ink = newTrendMark(way), trendInk(way)
	}
	text := canvas.NewText(words, look.Of(th, ink))
	text.TextSize = th.Size(theme.SizeNameText)
	text.TextStyle.Bold = s != ""
	left, right := x+pad, x+t.widths[i]-pad
	if t.right[i] {
		text.Alignment = fyne.TextAlignTrailing
		if mark != nil {
			left = right - text.MinSize().Width - side - gap
		}
	}
	if mark != nil {
		mark.Resize(fyne.NewSquareSize(side))
		mark.Move(fyne.NewPos(left, y+(h-side)/2))
		r.objects = append(r.objects, mark)
	}
	if mark != nil || t.columns[i].Trend {
		left += side + gap
	}
	text.Resize(fyne.NewSize(right-left, text.MinSize().Height))
	text.Move(fyne.NewPos(left, y+(h-text.MinSize().Height)/2))
	r.objects = append(r.objects, text)
}
