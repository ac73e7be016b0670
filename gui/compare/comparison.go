package compare

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/units"
)

// comparison is the table of options with what decides how it is looked at: which option
// the others are held against, in which order they stand, what is left out.
type comparison struct {
	model Model
	view  *sizing.View

	base, order *widget.Select
	most        *widget.Check
	choose      *widget.Button
	copied      *widget.Label
	basis       *widget.Label // what better and worse rest on
	sheet       *table.Fitted
	shown       *chooser
	body        *fyne.Container
	object      *fyne.Container

	now   sizing.Comparison
	heads []string // the option of each column, empty where it has none
	quiet bool
}

const jobsOrder = "as listed"

func newComparison(m Model, view *sizing.View) *comparison {
	t := &comparison{model: m, view: view, sheet: table.NewFitted(40)}
	t.base = widget.NewSelect(nil, func(string) { t.set(func() { t.view.Baseline = t.base.Selected }) })
	t.order = widget.NewSelect(orders(), func(string) { t.set(func() { t.view.By = keyOf(t.order.Selected) }) })
	t.most = widget.NewCheck("most first", func(on bool) { t.set(func() { t.view.Descending = on }) })
	t.choose = widget.NewButton("Show ...", t.turn)
	t.copied = widget.NewLabel("")
	t.basis = widget.NewLabel("")
	t.basis.Wrapping = fyne.TextWrapWord
	t.basis.SizeName = theme.SizeNameCaptionText
	widgets.FitSelect(t.order)
	t.shown = newChooser(t)
	t.sheet.OnHead = func(i int) { t.hold(i) }
	t.sheet.OnActivated = t.sortBy
	t.sheet.OnCopy = t.Copy
	bar := widgets.NewFlow(container.NewHBox(widget.NewLabel("Change from"), t.base), container.NewHBox(widget.NewLabel("Order"), t.order), t.most,
		t.choose, widget.NewButton("Copy", t.Copy), t.copied)
	t.body = container.NewStack(t.sheet.Object())
	top := container.NewVBox(bar, t.basis)
	t.object = container.NewBorder(top, nil, nil, nil, t.body) // the table gives way where there is little room
	t.object.Objects = []fyne.CanvasObject{top, t.body}        // the tab key goes down
	return t
}

// orders are the orders to choose from.
func orders() []string {
	out := []string{jobsOrder}
	for _, m := range sizing.Measures() {
		out = append(out, m.Title)
	}
	return out
}

func keyOf(title string) string {
	for _, m := range sizing.Measures() {
		if m.Title == title {
			return m.Key
		}
	}
	return ""
}

func titleOf(key string) string {
	for _, m := range sizing.Measures() {
		if m.Key == key {
			return m.Title
		}
	}
	return jobsOrder
}

// set changes how the person looks at it; the Job stays as it is.
func (t *comparison) set(change func()) {
	if !t.quiet {
		change()
		t.copied.SetText("")
		t.refresh()
	}
}

// hold makes the option of a column the baseline.
func (t *comparison) hold(column int) {
	if column < len(t.heads) && t.heads[column] != "" {
		t.set(func() { t.view.Baseline = t.heads[column] })
	}
}

// sortBy orders the options by the figure of a row, and the other way round
// when it is done again.
func (t *comparison) sortBy(row int) {
	if row >= len(t.now.Rows) {
		return
	}
	m := &t.now.Rows[row].Measure
	t.set(func() {
		t.view.Descending = t.view.By == m.Key && !t.view.Descending
		t.view.By = m.Key
	})
}

// turn changes between the table and the choice of what it shows.
func (t *comparison) turn() {
	if t.body.Objects[0] == t.shown.object {
		t.body.Objects = []fyne.CanvasObject{t.sheet.Object()}
		t.choose.SetText("Show ...")
	} else {
		t.body.Objects = []fyne.CanvasObject{t.shown.object}
		t.choose.SetText("Done")
	}
	t.refresh()
	t.object.Refresh()
}

// Copy puts the table on the clipboard as text that a spreadsheet takes.
func (t *comparison) Copy() {
	if t.now.Baseline == nil {
		return
	}
	var b strings.Builder
	if export.ComparisonText(&b, t.now, t.model.Units()) == nil { // a Builder fails at nothing
		fyne.CurrentApp().Clipboard().SetContent(b.String())
		t.copied.SetText("copied")
	}
}

// rename follows an option's name.
func (t *comparison) rename(before, after string) {
	follow := func(name *string) {
		if *name == before {
			*name = after
		}
	}
	follow(&t.view.Baseline)
	for i := range t.view.Hidden {
		follow(&t.view.Hidden[i])
	}
}

// refresh reads the Study again.
func (t *comparison) refresh() {
	study := t.model.Study()
	t.object.Hidden = study == nil
	if study == nil {
		t.now = sizing.Comparison{}
		t.sheet.Set(nil, nil)
		return
	}
	t.now = sizing.Compare(study, *t.view, t.model.Ranges())
	t.tellRanges()
	t.quiet = true
	var names []string
	for i := range study.Options {
		names = append(names, study.Options[i].Name)
	}
	if !slices.Equal(t.base.Options, names) {
		t.base.SetOptions(names)
		widgets.FitSelect(t.base)
	}
	t.base.SetSelected(t.now.Baseline.Name)
	t.order.SetSelected(titleOf(t.view.By))
	t.most.SetChecked(t.view.Descending)
	t.quiet = false
	t.shown.refresh(names)
	t.fill(t.model.Units())
}

// tellRanges says what better and worse rest on; while there are no ranges, how
// far they are too.
func (t *comparison) tellRanges() {
	words := t.now.Basis()
	if t.now.Samples == 0 {
		words = t.model.RangeWords() + " " + words
	}
	if t.basis.Text != words {
		t.basis.SetText(words)
	}
}

// fill writes a column an option, and beside it how far it is from the
// baseline.
func (t *comparison) fill(sys units.System) {
	heads := []table.Column{{Title: "Figure", Fixed: true}, {Title: "Unit", Fixed: true}, {Title: "Better"}}
	t.heads = []string{"", "", ""}
	for _, o := range t.now.Options {
		if o == t.now.Baseline {
			heads, t.heads = append(heads, table.Column{Title: o.Name, Unit: "the baseline", Right: true}), append(t.heads, o.Name)
			continue
		}
		heads = append(heads, table.Column{Title: o.Name, Right: true, Over: true}, table.Column{Unit: "change", Trend: true})
		t.heads = append(t.heads, o.Name, o.Name)
	}
	rows := make([][]string, len(t.now.Rows))
	for i := range t.now.Rows {
		rows[i] = t.row(&t.now.Rows[i], sys)
	}
	t.sheet.Set(heads, rows)
}

func (t *comparison) row(r *sizing.ComparedRow, sys units.System) []string {
	sense := string(r.Sense)
	if r.Sense == sizing.Neither {
		sense = "–"
	}
	out := []string{r.Title, r.Unit(sys), sense}
	for i := range r.Cells {
		cell := &r.Cells[i]
		out = append(out, cell.Number(sys))
		if t.now.Options[i] != t.now.Baseline {
			out = append(out, strings.TrimSpace(cell.ChangeNumber(sys)+" "+string(cell.Trend)))
		}
	}
	return out
}
