package lesson

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
)

// editor is the form of a demonstration of one's own.
type editor struct {
	screen *Screen
	draft  *Draft
	column *fyne.Container
	scroll *container.Scroll
	faults *widget.Label
	fields map[string]fields.Field // by path in the lesson's file
	order  []fields.Field
	shape  string
	find   string // words that what can move is looked for by
	box    *fyne.Container
}

func newEditor(s *Screen, d *Draft) *editor {
	e := &editor{screen: s, draft: d, column: container.NewVBox(), faults: wrapped("")}
	e.faults.Importance = widget.DangerImportance
	e.scroll = container.NewVScroll(e.column)
	save := widget.NewButton(lang.T("Save as a demonstration ..."), e.save)
	save.Importance = widget.HighImportance
	bar := container.NewHBox(save, widget.NewButton(lang.T("Show it"), e.try), layout.NewSpacer(), widget.NewButton(lang.T("Leave without saving"), e.leave))
	note := wrapped(lang.T("The house is the present job. The engine solves it to find which prediction is right: each answer states what it claims."))
	note.Importance = widget.LowImportance
	e.box = container.NewBorder(container.NewVBox(heading(lang.T("A demonstration of your own")), note), container.NewVBox(e.faults, bar), nil, nil, e.scroll)
	return e
}

func (e *editor) first() fyne.Focusable { return e.order[0].Focusable() }

// refresh builds the form again where its shape changed, and shows the faults.
func (e *editor) refresh() {
	if shape := e.shapeNow(); shape != e.shape {
		e.shape = shape
		e.build()
	}
	e.showFaults()
}

// refreshAt is refresh after a change of a field, which keeps the keyboard
// where the form is built again.
func (e *editor) refreshAt(path string) {
	before := e.fields[path]
	e.refresh()
	if now := e.fields[path]; now != nil && now != before {
		e.screen.focus(now.Focusable())
	}
}

func (e *editor) shapeNow() string {
	l := &e.draft.lesson
	shape := fmt.Sprint(e.draft.moveKey(), len(l.Move.Choices), len(l.Explanation), "p")
	for _, p := range l.Predictions {
		shape += fmt.Sprint(" ", len(p.Claims))
	}
	return shape
}

// showFaults puts each fault beside its field, and those that have none under the
// form.
func (e *editor) showFaults() {
	var faults sizing.FieldErrors
	if e.draft.tried {
		faults = e.draft.lesson.Check()
	}
	left := ""
	for _, f := range e.fields {
		f.SetFault("")
	}
	for _, f := range faults {
		text := "given " + f.Given + "; want " + f.Wanted.Writing(message.Exact).String()
		if field := e.fields[f.Path]; field != nil {
			field.SetFault(text)
		} else {
			left += lang.T("{path}: {fault}", "path", f.Path, "fault", text) + "\n"
		}
	}
	setText(e.faults, strings.TrimSuffix(left, "\n"))
	visible(e.faults, left != "")
}

func (e *editor) add(path string, f fields.Field) {
	e.fields[path] = f
	e.order = append(e.order, f)
	e.column.Add(f.Object())
}

func (e *editor) text(path, label string, hint message.ID, rows int, v *string) {
	e.add(path, fields.NewText(fields.TextOptions{Label: label, Hint: lang.T(hint), Rows: rows,
		Get: func() string { return *v }, Set: func(s string) { *v = s; e.showFaults() }}))
}

// list is a choice of words; open, where not empty, is how none is called.
func (e *editor) list(path, label string, open message.ID, items []fields.ChoiceItem, get func() string, set func(string)) {
	e.add(path, fields.NewChoice(fields.ChoiceOptions{Label: label, Items: items, Open: lang.T(open),
		Get: get, Set: func(s string) { set(s); e.refreshAt(path) }}))
}

func (e *editor) button(label message.ID, tapped func()) {
	e.column.Add(container.NewHBox(widget.NewButton(lang.T(label), func() { tapped(); e.refresh() })))
}

func (e *editor) build() {
	// A form must not change under a focused entry.
	if c := fyne.CurrentApp().Driver().CanvasForObject(e.scroll); c != nil {
		c.Unfocus()
	}
	e.fields, e.order = map[string]fields.Field{}, nil
	e.column.Objects = nil
	l := &e.draft.lesson
	e.text("title", lang.T("Title"), "", 1, &l.Title)
	e.text("question", lang.T("Question"), "", 2, &l.Question)
	e.buildMove()
	e.buildPredictions()
	e.column.Add(bold(lang.T("What is shown")))
	e.list("chart", lang.T("Chart"), "", plain(lesson.Charts(), chartWords), func() string { return string(l.Picture()) }, func(s string) { l.Chart = lesson.Chart(s) })
	e.list("state", lang.T("Filter"), "clean", plain([]lesson.State{lesson.Loaded}, stateWords), func() string { return string(l.State) }, func(s string) { l.State = lesson.State(s) })
	e.numbers("numbers", "Number {n}", &l.Numbers)
	e.numbers("workings", "Working {n}", &l.Workings)
	e.column.Add(bold(lang.T("The explanation")))
	fills := wrapped(placeholders())
	fills.Importance = widget.LowImportance
	e.column.Add(fills)
	for i := range l.Explanation {
		e.text(fmt.Sprintf("explanation[%d]", i), lang.T("Paragraph {n}", "n", i+1), "", 3, &l.Explanation[i])
	}
	e.button("Add a paragraph", func() { l.Explanation = append(l.Explanation, "") })
	if len(l.Explanation) > 1 {
		e.button("Remove the last paragraph", func() { l.Explanation = l.Explanation[:len(l.Explanation)-1] })
	}
	e.column.Refresh()
	e.scroll.Refresh()
}

// The words of a demonstration's file, as people say them.
var (
	chartWords = map[lesson.Chart]message.ID{
		lesson.FanAndSystem: "fan and system", lesson.PressureByPart: "pressure by part", lesson.FilterDropChart: "filter drop",
		lesson.PleatCount: "pleat count", lesson.FilterLife: "filter life", lesson.EfficiencyBySize: "efficiency by size",
		lesson.TenYearCost: "ten year cost", lesson.Watts: "watts",
	}
	stateWords = map[lesson.State]message.ID{lesson.Clean: "clean", lesson.Loaded: "loaded"}
	trendWords = map[lesson.Goes]message.ID{
		lesson.Up: "up", lesson.Down: "down", lesson.Level: "level", lesson.DownThenUp: "down then up", lesson.UpThenDown: "up then down",
	}
)

// plain lists words as people say them.
func plain[T ~string](all []T, words map[T]message.ID) []fields.ChoiceItem {
	out := make([]fields.ChoiceItem, len(all))
	for i, w := range all {
		out[i] = fields.ChoiceItem{Value: string(w), Label: lang.T(words[w])}
	}
	return out
}

func numberItems() []fields.ChoiceItem {
	var out []fields.ChoiceItem
	for _, n := range lesson.Numbers() {
		out = append(out, fields.ChoiceItem{Value: string(n), Label: lang.T("{name} ({word})", "name", n.Name(), "word", string(n))})
	}
	return out
}

func (e *editor) buildMove() {
	m := &e.draft.lesson.Move
	e.column.Add(bold(lang.T("The move")))
	find := widget.NewEntry()
	find.SetPlaceHolder(lang.T("Find what moves: duct, pleats, altitude ..."))
	find.SetText(e.find)
	find.OnSubmitted = func(words string) {
		e.find, e.shape = words, ""
		e.refreshAt("move.path")
	}
	e.column.Add(container.NewBorder(nil, nil, nil, widget.NewButton(lang.T("Find"), func() { find.OnSubmitted(find.Text) }), find))
	items := e.moveItems()
	e.list("move.path", lang.T("What moves"), "", items, e.draft.moveKey, e.draft.setMove)
	e.text("move.name", lang.T("Called"), "", 1, &m.Name)
	for i := range m.Choices {
		at := fmt.Sprintf("move.choices[%d]", i)
		e.text(at+".label", lang.T("Position {n}", "n", i+1), "", 1, &m.Choices[i].Label)
		if m.Path != "" {
			e.text(at+".value", lang.T("sets it to"), "", 1, &m.Choices[i].Value)
			continue
		}
		options := []fields.ChoiceItem{{Value: sizing.TodayName, Label: sizing.OptionName(sizing.TodayName).Show(lang.Locale())}}
		for _, o := range e.draft.lesson.Job.Options {
			options = append(options, fields.ChoiceItem{Value: o.Name, Label: o.Name})
		}
		e.list(at+".option", lang.T("shows"), "", options, func() string { return m.Choices[i].Option }, func(s string) { m.Choices[i].Option = s })
	}
	if e.draft.switched() {
		e.button("Add a position", func() { m.Choices = append(m.Choices, lesson.Choice{}) })
		if len(m.Choices) > 2 {
			e.button("Remove the last position", func() { m.Choices = m.Choices[:len(m.Choices)-1] })
		}
		return
	}
	e.text("move.from", lang.T("From"), "", 1, &m.From)
	e.text("move.to", lang.T("To"), "", 1, &m.To)
	e.text("move.step", lang.T("In steps of"), "left open: even steps", 1, &m.Step)
}

// moveGroups are the groups of what can move, in the order in which a class would
// see them move.
var moveGroups = []struct {
	begin string
	name  message.ID
}{
	{optionsMove, "Options"}, {"filters", "Filters"}, {"slot", "Filter at the unit"}, {"returns", "Returns"}, {"design_airflow", "Airflow"},
	{"target_face_velocity", "Airflow"}, {"equipment.blower", "Blower"}, {"equipment", "Equipment"}, {"coil", "Coil and supply"}, {"supply", "Coil and supply"},
	{"site", "House and prices"}, {"limits", "Requirements"}, {"", "Other"},
}

// groupOf is where a path stands among the groups.
func groupOf(path string) int {
	for i, g := range moveGroups {
		if strings.HasPrefix(path, g.begin) {
			return i
		}
	}
	return len(moveGroups) - 1
}

// moveItems are what can move and holds the words looked for, by group and then
// by name. What moves now is always among them.
func (e *editor) moveItems() []fields.ChoiceItem {
	paths := e.draft.moves()
	slices.SortStableFunc(paths, func(a, b string) int {
		return cmp.Or(cmp.Compare(groupOf(a), groupOf(b)), cmp.Compare(e.call(a), e.call(b)))
	})
	var items []fields.ChoiceItem
	for _, path := range paths {
		label, group := e.call(path), lang.T(moveGroups[groupOf(path)].name)
		if !strings.HasPrefix(label, group) {
			label = lang.T("{group}: {field}", "group", group, "field", label)
		}
		if path == e.draft.moveKey() || holdsWords(label, e.find) {
			items = append(items, fields.ChoiceItem{Value: path, Label: label})
		}
	}
	return items
}

// holdsWords reports whether a text holds every word, in any order and case.
func holdsWords(text, words string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// call is how a person calls what moves.
func (e *editor) call(path string) string {
	switch {
	case path == optionsMove:
		return lang.T(optionsMove)
	case e.screen.shell.Call == nil:
		return path
	}
	return e.screen.shell.Call(&e.draft.lesson.Job, path)
}

// placeholders says what an explanation may leave to the engine.
func placeholders() string {
	names := message.Rows{Mark: ", "}
	for _, n := range lesson.Numbers() {
		names.Items = append(names.Items, message.New("{word} ({name})", "word", string(n), "name", n.Name()))
	}
	return lang.T("The engine fills in {start X}, {end X}, {change X}, {least X}, {most X}, {at least X} and {at most X} (the settings where X is least and most), {setting start} and {setting end}. X is one of: {numbers}.", "numbers", names)
}

func (e *editor) buildPredictions() {
	l := &e.draft.lesson
	e.column.Add(bold(lang.T("What one may predict")))
	for i := range l.Predictions {
		p := &l.Predictions[i]
		path := fmt.Sprintf("predictions[%d]", i)
		e.text(path+".text", lang.T("Answer {n}", "n", i+1), "", 1, &p.Text)
		for k := range p.Claims {
			c := &p.Claims[k]
			at := fmt.Sprintf("%s.claims[%d]", path, k)
			e.list(at+".number", lang.T("claims that"), "", numberItems(), func() string { return string(c.Number) }, func(s string) { c.Number = lesson.Number(s) })
			e.list(at+".goes", lang.T("goes"), "", plain(lesson.Directions(), trendWords), func() string { return string(c.Goes) }, func(s string) { c.Goes = lesson.Goes(s) })
			e.share(at+".least", lang.T("by at least"), &c.Least)
			e.share(at+".most", lang.T("by at most"), &c.Most)
		}
		e.button("Add a claim to this answer", func() { p.Claims = append(p.Claims, lesson.Claim{Number: lesson.BlowerPower, Goes: lesson.Up}) })
	}
	e.button("Add an answer", func() {
		l.Predictions = append(l.Predictions, lesson.Prediction{Claims: []lesson.Claim{{Number: lesson.Airflow, Goes: lesson.Level}}})
	})
	if len(l.Predictions) > 2 {
		e.button("Remove the last answer", func() { l.Predictions = l.Predictions[:len(l.Predictions)-1] })
	}
}

func (e *editor) share(path, label string, v *float64) {
	e.add(path, fields.NewPercent(fields.PercentOptions{Label: label, Max: 100, Get: func() float64 { return *v }, Set: func(x float64) { *v = x; e.showFaults() }}))
}

// mostShown is how many numbers the form has room for.
const mostShown = 4

// numbers edits a list of numbers, one choice a place; a place left open takes
// its number out.
func (e *editor) numbers(path string, label message.ID, list *[]lesson.Number) {
	for i := range min(max(len(*list)+1, 1), mostShown) {
		e.list(fmt.Sprintf("%s[%d]", path, i), lang.T(label, "n", i+1), "none", numberItems(),
			func() string {
				if i < len(*list) {
					return string((*list)[i])
				}
				return ""
			},
			func(s string) {
				switch {
				case s == "" && i < len(*list):
					*list = append((*list)[:i:i], (*list)[i+1:]...)
				case s != "" && i < len(*list):
					(*list)[i] = lesson.Number(s)
				case s != "":
					*list = append(*list, lesson.Number(s))
				}
				e.shape = "" // the places move up
			})
	}
}

// valid reports whether the draft can be shown; from now on its faults are reported.
func (e *editor) valid() bool {
	e.draft.tried = true
	e.showFaults()
	faults := e.draft.lesson.Check()
	if len(faults) > 0 {
		for _, f := range faults {
			if field := e.fields[f.Path]; field != nil {
				e.screen.focus(field.Focusable())
				break
			}
		}
	}
	return len(faults) == 0
}

func (e *editor) save() {
	if !e.valid() {
		return
	}
	d := e.draft
	e.screen.shell.Save(d.lesson.Clone(), d.path, func(path string) {
		d.path = path
		e.screen.show.finish(d, false)
	})
}

// try puts the draft in view; it stays to be edited on from there.
func (e *editor) try() {
	if !e.valid() {
		return
	}
	e.screen.show.finish(e.draft, e.draft.at < 0 || e.draft.Dirty() || e.screen.show.items[e.draft.at].Unsaved)
}

func (e *editor) leave() {
	e.screen.shell.Leave(e.draft.Dirty(), func() {
		e.screen.show.draft = nil
		e.screen.Refresh()
		e.screen.focus(e.screen.view.firstFocus())
	})
}
