package compare

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// comparison is the table of options with its controls: the baseline, the order, and
// what is left out.
type comparison struct {
	model Model
	view  *sizing.View

	edit func(option string) // opens the drawer on an option
	add  func()

	presets     *widget.RadioGroup
	none        *widget.Label // where there is no option yet
	said        *said
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
	bases []string // the options to compare against, as they are listed
	quiet bool
}

const jobsOrder = "as listed"

func newComparison(m Model, view *sizing.View) *comparison {
	t := &comparison{model: m, view: view, sheet: table.NewFitted(40)}
	t.sheet.RowTerm = func(row int) message.ID { return message.ID(t.now.Rows[row].Title) }
	t.base = widget.NewSelect(nil, func(string) { t.set(func() { t.view.Baseline = t.bases[t.base.SelectedIndex()] }) })
	t.order = widget.NewSelect(orders(), func(string) { t.set(func() { t.view.By = orderKeys()[t.order.SelectedIndex()] }) })
	t.presets = widget.NewRadioGroup(presetTitles(), func(title string) {
		if at := slices.Index(t.presets.Options, title); at >= 0 {
			t.set(func() { t.view.Without = presets[at].without() })
		}
	})
	t.presets.Horizontal = true
	t.none = widget.NewLabel(lang.T("An option is one change, or several together: another filter, another slot or cabinet, other returns, another tap. What it leaves open stays as today."))
	t.none.Wrapping = fyne.TextWrapWord
	t.said = newSaid()
	t.most = widget.NewCheck(lang.T("Highest first"), func(on bool) { t.set(func() { t.view.Descending = on }) })
	t.choose = widget.NewButton(lang.T("Show ..."), t.turn)
	t.copied = widget.NewLabel("")
	t.basis = widget.NewLabel("")
	t.basis.Wrapping = fyne.TextWrapWord
	t.basis.SizeName = theme.SizeNameCaptionText
	widgets.FitSelect(t.order)
	t.shown = newChooser(t)
	t.sheet.OnHead = t.editColumn
	t.sheet.OnActivated = t.sortBy
	t.sheet.OnCopy = t.Copy
	bar := widgets.NewFlow(t.presets, t.choose, widgets.NewButton("Add option", func() { t.add() }), widgets.NewButton("Edit option", func() { t.edit("") }))
	order := widgets.NewFlow(container.NewHBox(widget.NewLabel(lang.T("Compare against")), t.base), container.NewHBox(widget.NewLabel(lang.T("Order")), t.order), t.most,
		widget.NewButton(lang.T("Copy"), t.Copy), t.copied)
	t.body = container.NewStack(t.sheet.Object())
	top := container.NewVBox(bar, order, t.none)
	bottom := widgets.NewVScroll(container.NewVBox(t.basis, t.said.object))
	t.object = container.New(&sheetLayout{top, t.body, bottom}, top, t.body, bottom) // the tab key goes down
	return t
}

// orders are the orders to choose from, and orderKeys the measure of each.
func orders() []string {
	out := []string{lang.T(jobsOrder)}
	for _, m := range sizing.Measures() {
		out = append(out, lang.T(m.Title))
	}
	return out
}

func orderKeys() []string {
	out := []string{""}
	for _, m := range sizing.Measures() {
		out = append(out, m.Key)
	}
	return out
}

// set changes how the person looks at it; the Job stays as it is.
func (t *comparison) set(change func()) {
	if !t.quiet {
		change()
		t.copied.SetText("")
		t.refresh()
	}
}

// editColumn opens the drawer on the option of a column; today and the house with
// no filter are no options, and become the baseline.
func (t *comparison) editColumn(column int) {
	if column >= len(t.heads) || t.heads[column] == "" {
		return
	}
	name := t.heads[column]
	if o := t.model.Study().Option(name); o != nil && o.Kind == sizing.KindOption {
		t.edit(name)
		return
	}
	t.set(func() { t.view.Baseline = name })
}

// without are the keys of the figures left out.
func (t *comparison) without() []string {
	if t.view.Without == nil {
		return presets[0].without()
	}
	return t.view.Without
}

// first is where the keyboard begins.
func (t *comparison) first() fyne.Focusable { return t.sheet.Table }

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

// turn switches between the table and the choice of its rows and columns.
func (t *comparison) turn() {
	if t.body.Objects[0] == t.shown.object {
		t.body.Objects = []fyne.CanvasObject{t.sheet.Object()}
		t.choose.SetText(lang.T("Show ..."))
	} else {
		t.body.Objects = []fyne.CanvasObject{t.shown.object}
		t.choose.SetText(lang.T("Done"))
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
		t.copied.SetText(lang.T("copied"))
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
	setVisible(t.none, len(t.model.Peek().Options) == 0)
	if study == nil {
		t.now = sizing.Comparison{}
		t.sheet.Set(nil, nil)
		return
	}
	look := *t.view
	look.Without = t.without()
	t.now = sizing.Compare(study, look, t.model.Ranges())
	t.showRanges()
	t.quiet = true
	var names, titles []string
	for i := range study.Options {
		names = append(names, study.Options[i].Name)
		titles = append(titles, sizing.OptionName(study.Options[i].Name).Show(t.model.Units()))
	}
	t.bases = names
	if !slices.Equal(t.base.Options, titles) {
		t.base.SetOptions(titles)
		widgets.FitSelect(t.base)
	}
	t.base.SetSelectedIndex(slices.Index(names, t.now.Baseline.Name))
	t.order.SetSelectedIndex(max(0, slices.Index(orderKeys(), t.view.By)))
	t.most.SetChecked(t.view.Descending)
	t.presets.SetSelected(presetOf(t.without()))
	t.shown.tickFigures()
	t.quiet = false
	t.shown.refresh(names)
	t.fill(t.model.Units())
	t.said.refresh(study, t.now.Options, t.model.Units())
}

func setVisible(o fyne.CanvasObject, visible bool) {
	if visible != o.Visible() {
		if visible {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// showRanges shows the basis of better and worse; while there are no ranges,
// their state too.
func (t *comparison) showRanges() {
	words := t.now.Basis().In(t.model.Units())
	if t.now.Samples == 0 {
		words = t.model.RangeWords() + " " + words
	}
	if t.basis.Text != words {
		t.basis.SetText(words)
	}
}

// fill writes one column for each option: its figures, and under each the change
// from the baseline.
func (t *comparison) fill(sys units.Locale) {
	heads := []table.Column{{Title: "", Fixed: true}}
	t.heads = []string{""}
	best := t.model.Study().Recommended()
	for _, o := range t.now.Options {
		under := ""
		switch {
		case o == t.now.Baseline:
			under = lang.T("compared against")
		case o == best:
			under = lang.T("recommended")
		}
		head := table.Column{Name: sizing.OptionName(o.Name).Show(sys), Unit: under, Right: true, Trend: true, Wrap: true}
		if short := widgets.ShortName(head.Name); short != head.Name {
			head.Name, head.Whole = short, head.Name
		}
		heads = append(heads, head)
		t.heads = append(t.heads, o.Name)
	}
	rows := make([][]string, len(t.now.Rows))
	for i := range t.now.Rows {
		rows[i] = t.row(&t.now.Rows[i], sys)
	}
	t.sheet.Set(heads, rows)
}

// shortTitles are the titles of the measures that say under them what they are for.
var shortTitles = map[string]struct{ title, under message.ID }{
	"annual_cost":   {"Power and filters a year", "{unit}, for today's cooling"},
	"ten_year_cost": {"Ten years' cost", "{unit}, for today's cooling"},
}

func (t *comparison) row(r *sizing.ComparedRow, sys units.Locale) []string {
	title, under := r.Title, r.Unit(sys)
	if s, ok := shortTitles[r.Key]; ok {
		title, under = s.title, lang.T(s.under, "unit", under)
	}
	out := []string{lang.T(title) + "\n" + under}
	for i := range r.Cells {
		cell, change := &r.Cells[i], ""
		if t.now.Options[i] != t.now.Baseline {
			change = strings.TrimSpace(nonZero(cell.ChangeNumber(sys)) + " " + message.Text(sys, message.ID(cell.Trend)))
		}
		out = append(out, cell.Number(sys)+"\n"+change)
	}
	return out
}

// nonZero leaves a change out that is too small for the figure's digits.
func nonZero(change string) string {
	if strings.Trim(change, "+-0.,") == "" {
		return ""
	}
	return change
}

// sheetLayout sets the table between the controls and the sentences about the
// options. It is as tall as its rows; where there is less room it scrolls.
type sheetLayout struct{ top, table, bottom fyne.CanvasObject }

// MinSize lets the table and the sentences shrink.
func (l *sheetLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	size := l.top.MinSize()
	const least = 180
	return fyne.NewSize(fyne.Max(size.Width, 300), size.Height+least)
}

// Layout gives the table the height of its rows, and the sentences the rest.
func (l *sheetLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	y := widgets.ResizeToWidth(l.top, size.Width)
	l.top.Move(fyne.NewPos(0, 0))
	high := fyne.Max(0, fyne.Min(l.table.MinSize().Height, size.Height-y))
	l.table.Move(fyne.NewPos(0, y))
	l.table.Resize(fyne.NewSize(size.Width, high))
	l.bottom.Move(fyne.NewPos(0, y+high))
	l.bottom.Resize(fyne.NewSize(size.Width, fyne.Max(0, size.Height-y-high)))
}
