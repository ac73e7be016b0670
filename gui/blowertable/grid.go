package blowertable

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/blowertable/paste"
	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/parse"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Options describe a Grid.
type Options struct {
	Get  func() []blower.Point
	Set  func([]blower.Point) // while every row can be read
	Unit func() units.Locale
	// Keyboard is told which cell has got the keyboard.
	Keyboard func(*fields.Entry)
	// SetTaps takes a pasted table of several taps, with what of it was not read;
	// nil: such tables are not recognized.
	SetTaps func(taps []blower.Tap, left []string)
	// Mark is the decimal mark of what is pasted, kept for as long as the form is;
	// nil: the usual one of the locale.
	Mark *paste.Mark
}

// CellFault is a fault that the engine found in one cell.
type CellFault struct {
	Row, Column int
	Text        string
}

// Grid is a blower table to type or paste: a row for each external
// static. Tab goes on along the row, up and down go along the column, and enter to
// the next row, where the tabs in this one began; a paste of several cells fills to the right and down.
type Grid struct {
	opts Options
	box  *fyne.Container
	grid *fyne.Container
	head [paste.Columns]*widget.Label
	tips [paste.Columns]*widgets.TipArea // over the heads
	rows []*gridRow

	add     *widgets.Button
	decimal *widgets.Select
	mark    *widgets.SeverityIcon
	below   *widget.Label

	known     []blower.Point // as the model had them last
	given     []blower.Point // as they were handed to it
	sys       units.Locale
	row       int // last focused
	column    int // likewise
	anchor    int // the column from which tabs have led here: enter goes back to it in the next row
	engineBad []CellFault
	remark    string // about the last paste
	refused   bool   // it is why nothing was pasted
	silent    bool
	doubt     string // what of the table cannot be read
	onUnread  func(text, fault string, typing bool)
}

type gridRow struct {
	cells  [paste.Columns]*fields.Entry
	exact  [paste.Columns]exactValue
	remove *widgets.SmallButton
	faults [paste.Columns]string
}

// exactValue is what a cell stands for where its text was written from a value
// and may be rounded; a text that was typed stands for itself.
type exactValue struct {
	text string
	si   float64
}

// New makes the grid.
func New(opts Options) *Grid {
	g := &Grid{opts: opts, mark: widgets.NewSeverityIcon(sizing.Stop), below: widget.NewLabel("")}
	g.below.Wrapping = fyne.TextWrapWord
	g.below.SizeName = theme.SizeNameCaptionText
	for i := range g.head {
		g.head[i] = widget.NewLabel("")
		g.head[i].SizeName = theme.SizeNameCaptionText
		g.tips[i] = widgets.NewTipArea(widgets.Explain(paste.Titles[i]))
	}
	g.grid = container.New(&gridLayout{g: g})
	g.add = widgets.NewButton("Add row", g.AddRow)
	remove := widgets.NewButton("Remove row", func() { g.RemoveRow(g.row) })
	words := container.NewBorder(nil, nil, container.NewVBox(g.mark), nil, g.below)
	if g.opts.Mark == nil {
		mark := paste.UsualMark(opts.Unit())
		g.opts.Mark = &mark
	}
	marks := make([]string, len(paste.MarkWords))
	for i, words := range paste.MarkWords {
		marks[i] = lang.T(words)
	}
	g.decimal = widgets.NewSelect(marks, nil)
	g.decimal.SetSelectedIndex(int(*g.opts.Mark))
	g.decimal.OnChanged = func(string) { *g.opts.Mark = paste.Mark(g.decimal.SelectedIndex()) }
	label := widget.NewLabel(lang.T("Decimal mark of a paste"))
	label.SizeName = theme.SizeNameCaptionText
	g.box = container.NewVBox(g.grid, words, container.New(layout.NewHBoxLayout(), g.add, remove), container.NewBorder(nil, nil, label, nil, g.decimal))
	g.reload()
	return g
}

// Object is what a form holds.
func (g *Grid) Object() fyne.CanvasObject { return g.box }

// Focusable is the first cell.
func (g *Grid) Focusable() fyne.Focusable { return g.rows[0].cells[0] }

// Cell is the entry of one cell.
func (g *Grid) Cell(row, column int) *fields.Entry { return g.rows[row].cells[column] }

// Rows counts the rows shown, the empty ones too.
func (g *Grid) Rows() int { return len(g.rows) }

// FaultText is what stands under the grid.
func (g *Grid) FaultText() string { return g.below.Text }

// SetFaults shows the faults that the engine found.
func (g *Grid) SetFaults(faults []CellFault) {
	g.engineBad = faults
	g.showState()
}

// Refresh reads the points again where they changed elsewhere, and writes good
// cells again where the units did.
func (g *Grid) Refresh() {
	switch now := g.opts.Get(); {
	case slices.Equal(now, g.known), g.doubt != "" && g.onUnread != nil:
	case g.given != nil && slices.Equal(now, g.given):
		g.known = slices.Clone(now)
	default:
		g.reload()
		return
	}
	if g.opts.Unit() != g.sys {
		g.rewrite()
	}
	g.showState()
}

// Reset forgets cells that cannot be read.
func (g *Grid) Reset() { g.reload() }

// OnUnread sets the function that is called for a table with cells that cannot
// be read; the table is reported as a whole.
func (g *Grid) OnUnread(f func(text, fault string, typing bool)) { g.onUnread = f }

// Unread is the first fault of a cell, empty where all can be read.
func (g *Grid) Unread() string { return g.doubt }

// Retype puts back a table that could not be read.
func (g *Grid) Retype(text, fault string) {
	g.reload()
	g.silent = true
	for i, line := range strings.Split(text, "\n") {
		if i >= len(g.rows) {
			g.resize(i + 1)
		}
		for c, cell := range strings.Split(line, "\t") {
			if si, bad := g.readCell(c, cell); bad == "" && cell != "" {
				g.write(g.rows[i], c, si)
				continue
			}
			g.rows[i].cells[c].SetText(cell)
		}
	}
	g.silent = false
	g.doubt = fault
	g.read()
	g.showState()
}

func (g *Grid) readCell(c int, text string) (si float64, fault string) {
	return parse.Quantity(g.sys, paste.Kinds[c], text, paste.Kinds[c].Usual(g.sys), true, false)
}

// value reads a cell of a row.
func (g *Grid) value(r *gridRow, c int) (si float64, fault string) {
	if e := r.exact[c]; e.text != "" && e.text == r.cells[c].Text {
		return e.si, ""
	}
	return g.readCell(c, r.cells[c].Text)
}

// write shows a value in a cell, rounded to sense; the value itself stays whole.
func (g *Grid) write(r *gridRow, c int, si float64) {
	text := parse.ShownText(g.sys, paste.Kinds[c], si, paste.Kinds[c].Usual(g.sys))
	r.exact[c] = exactValue{text, si}
	if r.cells[c].Text != text {
		r.cells[c].SetText(text)
	}
}

// text is all cells, as a spreadsheet would have them; what can be read has its
// unit and a decimal point, so that it means the same when other units or another
// decimal mark are in use.
func (g *Grid) text() string {
	lines := make([]string, len(g.rows))
	for i, r := range g.rows {
		cells := make([]string, len(r.cells))
		for c, e := range r.cells {
			cells[c] = e.Text
			if si, fault := g.value(r, c); fault == "" && e.Text != "" {
				u := paste.Kinds[c].Usual(g.sys)
				cells[c] = parse.Everywhere(u.Number(si)) + " " + u.Name
			}
		}
		lines[i] = strings.Join(cells, "\t")
	}
	return strings.Join(lines, "\n")
}

// report reports cells that cannot be read, or that all can be read now. A row
// is still being typed while the keyboard is in it.
func (g *Grid) report() {
	fault, left := "", false
	for i, r := range g.rows {
		for c := range r.cells {
			if r.faults[c] == "" {
				continue
			}
			left = left || i != g.row
			if fault == "" {
				fault = g.cellWords(i, c, r.faults[c])
			}
		}
	}
	if fault == "" && g.doubt == "" {
		return
	}
	g.doubt = fault
	if g.onUnread == nil {
		return
	}
	g.onUnread(g.text(), fault, !left)
	if fault != "" {
		g.known, g.given = slices.Clone(g.opts.Get()), nil
	}
}

func (g *Grid) cellWords(row, column int, fault string) string {
	return message.Text(g.sys, "Row {row}, {column}: {fault}", "row", row+1, "column", strings.ToLower(lang.T(paste.Titles[column])), "fault", fault)
}

func (g *Grid) reload() {
	g.sys = g.opts.Unit()
	g.known = slices.Clone(g.opts.Get())
	g.given, g.remark, g.refused, g.doubt = nil, "", false, ""
	g.resize(max(len(g.known), 1))
	g.silent = true
	for i, r := range g.rows {
		var point *blower.Point
		if i < len(g.known) {
			point = &g.known[i]
		}
		g.writeRow(r, point)
		r.faults = [paste.Columns]string{}
	}
	g.silent = false
	g.showState()
}

// writeRow shows a point in a row; nil empties it.
func (g *Grid) writeRow(r *gridRow, p *blower.Point) {
	values, open := [paste.Columns]float64{}, [paste.Columns]bool{true, true, true, true}
	if p != nil {
		values = [paste.Columns]float64{float64(p.ExternalStatic), float64(p.Airflow), float64(p.Power), float64(p.Speed)}
		open = [paste.Columns]bool{paste.Power: p.Power == 0, paste.Speed: p.Speed == 0}
	}
	for c, e := range r.cells {
		if !open[c] {
			g.write(r, c, values[c])
		} else if r.exact[c] = (exactValue{}); e.Text != "" {
			e.SetText("")
		}
	}
}

// rewrite shows every good cell in the units now in use.
func (g *Grid) rewrite() {
	old := g.sys
	g.silent = true
	for _, r := range g.rows {
		for c, e := range r.cells {
			if strings.TrimSpace(e.Text) == "" {
				continue
			}
			g.sys = old
			si, fault := g.value(r, c)
			g.sys = g.opts.Unit()
			if fault == "" {
				g.write(r, c, si)
			}
		}
	}
	g.sys = g.opts.Unit()
	g.silent = false
}

func (r *gridRow) empty() bool {
	for _, e := range r.cells {
		if strings.TrimSpace(e.Text) != "" {
			return false
		}
	}
	return true
}

// read reads every row; empty rows do not count. It is false where a cell
// cannot be read.
func (g *Grid) read() (points []blower.Point, ok bool) {
	ok = true
	for _, r := range g.rows {
		r.faults = [paste.Columns]string{}
		if r.empty() {
			continue
		}
		var si [paste.Columns]float64
		for c, e := range r.cells {
			si[c], r.faults[c] = g.value(r, c)
			if strings.TrimSpace(e.Text) == "" && c <= paste.Airflow {
				r.faults[c] = message.Text(g.sys, "missing; want {wanted}", "wanted", message.WantedOf(paste.Kinds[c]))
			}
			ok = ok && r.faults[c] == ""
		}
		points = append(points, blower.Point{
			ExternalStatic: units.Pressure(si[paste.Static]), Airflow: units.Flow(si[paste.Airflow]),
			Power: units.Power(si[paste.Power]), Speed: units.Rotation(si[paste.Speed]),
		})
	}
	return points, ok
}

func (g *Grid) changed() {
	if g.silent {
		return
	}
	if points, ok := g.read(); ok {
		g.given = points
		g.opts.Set(slices.Clone(points))
		g.known = slices.Clone(g.opts.Get())
	}
	g.report()
	g.showState()
}

// showState shows headings, edges and the text under the grid.
func (g *Grid) showState() {
	for c, h := range g.head {
		h.SetText(lang.T(paste.Titles[c]) + "\n" + paste.Kinds[c].Usual(g.sys).Name)
	}
	var lines []string
	engine := map[[2]int]string{}
	for _, f := range g.engineBad {
		engine[[2]int{f.Row, f.Column}] = f.Text
	}
	for i, r := range g.rows {
		for c, e := range r.cells {
			fault := r.faults[c]
			if fault == "" {
				fault = engine[[2]int{i, c}]
			}
			e.SetFaulty(fault != "")
			if fault != "" {
				lines = append(lines, g.cellWords(i, c, fault))
			}
		}
	}
	g.below.Importance = widget.DangerImportance
	g.mark.Hidden = len(lines) == 0
	if g.remark != "" {
		if len(lines) == 0 && !g.refused {
			g.below.Importance = widget.LowImportance
		}
		lines = append(lines, g.remark)
	}
	g.below.SetText(strings.Join(lines, "\n"))
	g.below.Hidden = len(lines) == 0
	g.box.Refresh()
}

// AddRow adds an empty row at the end and goes to it.
func (g *Grid) AddRow() {
	g.resize(len(g.rows) + 1)
	g.showState()
	g.focus(len(g.rows)-1, 0)
}

// RemoveRow takes a row out; the last one left is emptied instead.
func (g *Grid) RemoveRow(row int) {
	if row < 0 || row >= len(g.rows) {
		return
	}
	g.silent = true
	for i := row; i < len(g.rows); i++ {
		for c, e := range g.rows[i].cells {
			text, exact := "", exactValue{}
			if i+1 < len(g.rows) {
				text, exact = g.rows[i+1].cells[c].Text, g.rows[i+1].exact[c]
			}
			g.rows[i].exact[c] = exact
			e.SetText(text)
		}
	}
	g.silent = false
	if len(g.rows) > 1 {
		g.leave(len(g.rows) - 1)
		g.resize(len(g.rows) - 1)
	}
	g.changed()
}

// leave takes the keyboard off a row that is about to go.
func (g *Grid) leave(row int) {
	for _, e := range g.rows[row].cells {
		if c := g.canvas(); c != nil && c.Focused() == fyne.Focusable(e) {
			c.Unfocus()
		}
	}
}

func (g *Grid) resize(n int) {
	for len(g.rows) > n {
		g.leave(len(g.rows) - 1)
		g.rows = g.rows[:len(g.rows)-1]
	}
	for len(g.rows) < n {
		g.rows = append(g.rows, g.newRow())
	}
	g.row = min(g.row, n-1)
	objects := make([]fyne.CanvasObject, 0, (n+2)*(paste.Columns+1))
	for c, h := range g.head {
		objects = append(objects, h, g.tips[c])
	}
	for _, r := range g.rows {
		for _, e := range r.cells {
			objects = append(objects, e)
		}
		objects = append(objects, r.remove)
	}
	g.grid.Objects = objects
	g.grid.Refresh()
}

func (g *Grid) newRow() *gridRow {
	r := &gridRow{}
	index := func() int { return slices.Index(g.rows, r) }
	for c := range r.cells {
		e := fields.NewEntry()
		e.OnChanged = func(string) {
			if !g.silent {
				r.exact[c] = exactValue{}
			}
			g.changed()
		}
		e.OnFocus = func(gained bool) {
			if gained {
				if g.row != index() || g.column+1 != c {
					g.anchor = c
				}
				g.column = c
				if g.row != index() {
					g.row = index()
					g.report()
				}
				if g.opts.Keyboard != nil {
					g.opts.Keyboard(e)
				}
			}
		}
		e.OnStep = func(by int) { g.focus(index()-by, c) }
		e.OnSubmitted = func(string) {
			next, to := index()+1, g.anchor
			if next == len(g.rows) {
				g.AddRow()
			}
			g.focus(next, to)
		}
		e.OnPaste = func(text string) bool { return g.paste(index(), c, text) }
		r.cells[c] = e
	}
	r.remove = widgets.NewSmallButton("×", func() { g.RemoveRow(index()) })
	return r
}

func (g *Grid) focus(row, column int) {
	if row < 0 || row >= len(g.rows) {
		return
	}
	if c := g.canvas(); c != nil {
		c.Focus(g.rows[row].cells[column])
	}
}

// canvas is that of the grid; a new cell has none before it is drawn, nor has a
// new grid, in which the keyboard may be all the same.
func (g *Grid) canvas() fyne.Canvas {
	if c := fyne.CurrentApp().Driver().CanvasForObject(g.box); c != nil {
		return c
	}
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if g.holds(w.Canvas().Focused()) {
			return w.Canvas()
		}
	}
	return nil
}

// holds reports whether a focused widget is part of the grid.
func (g *Grid) holds(f fyne.Focusable) bool {
	for _, r := range g.rows {
		for _, e := range r.cells {
			if f == fyne.Focusable(e) {
				return true
			}
		}
	}
	return f == fyne.Focusable(g.add)
}

// gridLayout lays heads and rows in columns.
type gridLayout struct{ g *Grid }

const cellWidth = 76

func (l *gridLayout) sizes() (width, gap, line, head, side float32) {
	th := l.g.head[0].Theme()
	width = cellWidth * widgets.TextScale(th)
	for _, h := range l.g.head {
		width = fyne.Max(width, h.MinSize().Width)
		head = fyne.Max(head, h.MinSize().Height)
	}
	if len(l.g.rows) > 0 {
		line = l.g.rows[0].cells[0].MinSize().Height
		side = l.g.rows[0].remove.MinSize().Width
	}
	return width, th.Size(theme.SizeNamePadding), line, head, side
}

func (l *gridLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	width, gap, line, head, side := l.sizes()
	return fyne.NewSize(paste.Columns*(width+gap)+side, head+float32(len(l.g.rows))*(line+gap))
}

func (l *gridLayout) Layout([]fyne.CanvasObject, fyne.Size) {
	width, gap, line, head, side := l.sizes()
	for c, h := range l.g.head {
		h.Move(fyne.NewPos(float32(c)*(width+gap), 0))
		h.Resize(fyne.NewSize(width, head))
		l.g.tips[c].Move(h.Position())
		l.g.tips[c].Resize(h.Size())
	}
	for i, r := range l.g.rows {
		y := head + float32(i)*(line+gap)
		for c, e := range r.cells {
			e.Move(fyne.NewPos(float32(c)*(width+gap), y))
			e.Resize(fyne.NewSize(width, line))
		}
		r.remove.Move(fyne.NewPos(paste.Columns*(width+gap), y+(line-side)/2))
		r.remove.Resize(fyne.NewSquareSize(side))
	}
}
