package table

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

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// Column is the head of a table's column: a title and, under it, the unit of
// its numbers.
type Column struct {
	Title message.ID
	Name  string // instead of a title: a name that a person gave
	Unit  string // already written
	Whole string // the name, where Name shortens it
	// Term is one of the glossary's that the title shortens; empty: the title names it.
	Term message.ID
	// Right sets the cells to the right even where not all are numbers.
	Right bool
	// Trend is true where a cell may end in "better", "worse" or "too close to
	// tell", which then has an icon.
	Trend bool
	// Over lets the title run on over the next column, which has none.
	Over bool
	// Wrap breaks a long title over several lines, so that it does not widen the
	// column.
	Wrap bool
	// Fixed columns stay in sight while the others move sideways; they come first.
	Fixed bool
}

// Table is a grid of text under a head that stays in sight. Rows are selected
// with the pointer or the arrow keys. A cell of two lines has the second in small
// type. A cell that reads "good", "caution" or
// "stop" is shown as a mark and the word.
type Table struct {
	widget.BaseWidget

	// OnSelected is called with the row that was selected.
	OnSelected func(row int)
	// OnActivated is called with a row on enter or space.
	OnActivated func(row int)
	// OnHead is called with the column whose head was clicked.
	OnHead func(column int)
	// OnCopy is called when the table is to be copied.
	OnCopy func()
	// Folds says that columns without room stand in several lines of a row, and do not
	// move sideways. The height of the rows then follows from the width, for which a
	// Fitted table and a chart under it have no room.
	Folds bool
	// RowTerm is what the title of a row names of the glossary; nil: rows have none.
	RowTerm func(row int) message.ID

	columns  []Column
	rows     [][]string
	selected int
	focused  bool

	head *tableHead
	body *tableBody
	pane *container.Scroll

	widths     []float32
	starts     []float32 // where each column begins in its line
	line       []int     // of a row, in which each column stands
	lines      int       // of a row: more than one where its columns have no room in one
	heads      []float32 // how far down the head of each line reaches
	wrapAll    bool      // titles are broken over lines, for want of room
	fitted     float32   // the width for which they are so
	whole      float32   // the width of all columns side by side
	double     bool      // some cell has two lines
	right      []bool    // columns of numbers
	measuredAt float32   // text size of the widths
}

var (
	_ desktop.Cursorable = (*Table)(nil)
	_ fyne.Focusable     = (*Table)(nil)
	_ fyne.Shortcutable  = (*Table)(nil)
)

// New makes an empty table.
func New() *Table {
	t := &Table{selected: -1}
	t.ExtendBaseWidget(t)
	t.head = &tableHead{t: t}
	t.head.OnPart(t.head, t.head.explained)
	t.head.ExtendBaseWidget(t.head)
	t.body = &tableBody{t: t, hovered: -1}
	t.body.OnPart(t.body, t.body.explained)
	t.body.ExtendBaseWidget(t.body)
	t.pane = container.NewScroll(t.body)
	t.pane.OnScrolled = func(fyne.Position) { t.scrolled() }
	return t
}

// SetColumns sets the heads.
func (t *Table) SetColumns(columns []Column) {
	t.columns = append([]Column(nil), columns...)
	for i := range t.columns {
		if c := &t.columns[i]; c.Name == "" {
			c.Name = lang.T(c.Title)
		}
	}
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

// Select selects a row, scrolls to it and calls OnSelected; -1 removes the
// selection without a call.
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

// RowHeight is that of one row.
func (t *Table) RowHeight() float32 { return t.rowHeight() }

func (t *Table) rowHeight() float32 { return float32(max(1, t.lines)) * t.lineHeight() }

// lineHeight is that of one line of a row.
func (t *Table) lineHeight() float32 {
	th := t.Theme()
	h := fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height + th.Size(theme.SizeNameInnerPadding)
	if t.double {
		h += fyne.MeasureText("M", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
	}
	return fyne.Max(h, th.Size(look.Target))
}

func (t *Table) headHeight() float32 {
	if len(t.heads) == 0 {
		return t.lineHeadHeight(0)
	}
	return t.heads[len(t.heads)-1]
}

// headTop is where the head of a line begins.
func (t *Table) headTop(line int) float32 {
	if line == 0 {
		return 0
	}
	return t.heads[line-1]
}

// lineHeadHeight is the height of the head of a line.
func (t *Table) lineHeadHeight(line int) float32 {
	th := t.Theme()
	lines, under := 1, float32(0)
	for i, c := range t.columns {
		if i >= len(t.line) || t.line[i] != line {
			continue
		}
		lines = max(lines, len(t.titleLines(i)))
		if c.Unit != "" {
			under = fyne.MeasureText("M", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
		}
	}
	h := float32(lines) * fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Height
	return fyne.Max(h+under+th.Size(theme.SizeNameInnerPadding), th.Size(look.Target))
}

// verdictOf reads a cell that tells a severity, alone or before a colon or a
// blank and more words.
func verdictOf(cell string) (sizing.Severity, string) {
	for s, words := range wordsOfCells().severities {
		for _, word := range words {
			rest, is := strings.CutPrefix(cell, word)
			if more, colon := strings.CutPrefix(rest, ":"); colon {
				rest = more
			}
			if is && (rest == "" || rest[0] == ' ') {
				return s, strings.TrimSpace(widgets.SeverityWord(s) + " " + strings.TrimSpace(rest))
			}
		}
	}
	return "", cell
}

// trendOf reads a cell that ends in how a change is.
func trendOf(cell string) sizing.Trend {
	for t, words := range wordsOfCells().trends {
		for _, word := range words {
			if cell == word || strings.HasSuffix(cell, " "+word) {
				return t
			}
		}
	}
	return ""
}

func isNumber(cell string) bool {
	number := strings.Replace(cell, "−", "-", 1)
	if lang.Locale().Comma {
		number = strings.Replace(number, ",", ".", 1)
	}
	_, err := strconv.ParseFloat(number, 64)
	return err == nil
}

func (t *Table) remeasure() {
	t.fit(t.pane.Size().Width)
	t.Refresh()
}

// fit places the columns in a width: in one line, else, of a table that folds, with their
// titles broken over lines, else in several lines of each row.
func (t *Table) fit(width float32) {
	t.fitted, t.wrapAll = width, false
	t.measure()
	t.whole = t.sum()
	folds := width > 0 && t.Folds && t.sum() > width+0.5
	if folds {
		t.wrapAll = true
		t.measure()
		if folds = t.sum() > width+0.5; folds {
			t.wrapAll = false
			t.measure()
		}
	}
	t.starts, t.line, t.lines = make([]float32, len(t.columns)), make([]int, len(t.columns)), 1
	x := float32(0)
	for i := range t.widths {
		if folds {
			t.widths[i] = fyne.Min(t.widths[i], width-2*t.Theme().Size(theme.SizeNameInnerPadding)) // its longest texts are cut
		}
		w := t.widths[i]
		together := w
		if t.columns[i].Over && i+1 < len(t.widths) {
			together += t.widths[i+1]
		}
		if folds && x > 0 && x+together > width && (i == 0 || !t.columns[i-1].Over) {
			x = 2 * t.Theme().Size(theme.SizeNameInnerPadding)
			t.lines++
		}
		t.starts[i], t.line[i] = x, t.lines-1
		x += w
	}
	t.heads = nil
	for line := range t.lines {
		t.heads = append(t.heads, t.lineHeadHeight(line))
		if line > 0 {
			t.heads[line] += t.heads[line-1]
		}
	}
}

// sum is the width of all columns side by side.
func (t *Table) sum() (sum float32) {
	for _, w := range t.widths {
		sum += w
	}
	return sum
}

// measure finds the width each column needs and which hold numbers.
func (t *Table) measure() {
	th := t.Theme()
	t.measuredAt = th.Size(theme.SizeNameText)
	size, small := th.Size(theme.SizeNameText), th.Size(theme.SizeNameCaptionText)
	pad := 2 * th.Size(theme.SizeNameInnerPadding)
	t.widths = make([]float32, len(t.columns))
	t.right = make([]bool, len(t.columns))
	t.double = false
	for _, row := range t.rows {
		for _, cell := range row {
			t.double = t.double || strings.Contains(cell, "\n")
		}
	}
	for i, c := range t.columns {
		w := fyne.MeasureText(c.Name, size, fyne.TextStyle{Bold: true}).Width
		switch {
		case c.Over:
			w = 0
		case c.Wrap:
			w = fyne.Min(w, wrapWidth*size)
		case t.wrapAll:
			w = 0
			for _, word := range strings.Fields(c.Name) {
				w = fyne.Max(w, fyne.MeasureText(word, size, fyne.TextStyle{Bold: true}).Width)
			}
		}
		w = fyne.Max(w, fyne.MeasureText(c.Unit, small, fyne.TextStyle{}).Width)
		numbers, others := 0, 0
		for _, row := range t.rows {
			cell := cellAt(row, i)
			cell, under, _ := strings.Cut(cell, "\n")
			w = fyne.Max(w, t.underWidth(under, c.Trend))
			s, text := verdictOf(cell)
			extra := float32(0)
			if s != "" || c.Trend && !t.double {
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
			w := fyne.MeasureText(c.Name, size, fyne.TextStyle{Bold: true}).Width + 2*pad
			t.widths[i+1] = fyne.Max(t.widths[i+1], w-t.widths[i])
		}
	}
}

// wrapWidth is the width of a wrapped title, in heights of its type.
const wrapWidth = 9

// titleLines are the lines of a column's title.
func (t *Table) titleLines(i int) []string {
	c := t.columns[i]
	if !c.Wrap && !t.wrapAll || c.Over || i >= len(t.widths) {
		return []string{c.Name}
	}
	th := t.Theme()
	room := t.widths[i] - 4*th.Size(theme.SizeNameInnerPadding)
	fits := func(s string) bool {
		return fyne.MeasureText(s, th.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Width <= room
	}
	lines := []string{""}
	for _, word := range strings.Fields(c.Name) {
		last := &lines[len(lines)-1]
		switch next := strings.TrimSpace(*last + " " + word); {
		case *last == "" || fits(next):
			*last = next
		default:
			lines = append(lines, word)
		}
	}
	return lines
}

// underWidth is the width of a cell's second line.
func (t *Table) underWidth(text string, trend bool) float32 {
	if text == "" {
		return 0
	}
	th := t.Theme()
	w := fyne.MeasureText(text, th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Width
	if trend && trendOf(text) != "" {
		w += th.Size(theme.SizeNameCaptionText) + th.Size(theme.SizeNameInnerPadding)
	}
	return w
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

// each calls a function for every column with where it begins in the body, and in which
// line; the fixed ones come last, to be drawn over the others.
func (t *Table) each(draw func(i int, x float32, line int)) {
	fixed, _ := t.fixed()
	for i := fixed; i < len(t.columns); i++ {
		draw(i, t.starts[i], t.line[i])
	}
	for i := range fixed {
		draw(i, t.starts[i]+t.pane.Offset.X, t.line[i])
	}
}

func cellAt(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}

// FullWidth is the width at which all columns stand side by side.
func (t *Table) FullWidth() float32 { return t.whole }

// reach is the width of the lines in which the columns now stand.
func (t *Table) reach() (width float32) {
	for i, w := range t.widths {
		width = fyne.Max(width, t.starts[i]+w)
	}
	return width
}

// Lines is in how many lines of a row the columns stand.
func (t *Table) Lines() int { return max(1, t.lines) }

// MovesSideways reports whether the columns are wider than the table.
func (t *Table) MovesSideways() bool { return t.reach() > t.pane.Size().Width+0.5 }

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
	if widgets.HelpKey(t, k) {
		return
	}
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
	if size.Width != r.t.fitted {
		r.t.fit(size.Width)
	}
	h := r.t.headHeight()
	r.clip.Resize(fyne.NewSize(size.Width, h))
	r.t.pane.Move(fyne.NewPos(0, h))
	r.t.pane.Resize(fyne.NewSize(size.Width, fyne.Max(0, size.Height-h)))
	r.ring.Resize(size)
	r.t.head.Resize(fyne.NewSize(fyne.Max(size.Width, r.t.reach()), h))
	r.t.scrolled()
}

func (r *tableRenderer) Refresh() {
	if r.t.measuredAt != r.t.Theme().Size(theme.SizeNameText) {
		r.t.fit(r.t.fitted)
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
