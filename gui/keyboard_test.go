package gui

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/fields"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// typist enters a whole job by keyboard alone: tab, letters, arrows, space.
type typist struct {
	t     *testing.T
	bench *Bench
	want  map[string]any // the job's file
	keys  int
}

// formFields is what a place's form offers a typist.
type formFields interface {
	Paths() []string
	Field(path string) fields.Field
	Folded(path string) bool
}

func (k *typist) canvas() fyne.Canvas { return k.bench.window.Canvas() }

// tabTo presses tab until something has the keyboard.
func (k *typist) tabTo(what string, is func(fyne.Focusable) bool) fyne.Focusable {
	k.t.Helper()
	for range 400 {
		if f := k.canvas().Focused(); f != nil && is(f) {
			return f
		}
		test.FocusNext(k.canvas())
		k.keys++
	}
	require.Fail(k.t, "tab never reaches "+what)
	return nil
}

func (k *typist) press(key fyne.KeyName) {
	k.canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
	k.keys++
}

func (k *typist) letters(text string) {
	for _, r := range text {
		k.canvas().Focused().TypedRune(r)
		k.keys++
	}
}

func (k *typist) button(label string) {
	k.t.Helper()
	k.tabTo("the button "+label, func(f fyne.Focusable) bool {
		b, ok := f.(*widgets.Button)
		return ok && b.Text == label && !b.Disabled()
	})
	k.press(fyne.KeySpace)
}

// at reads the wanted file by a path such as returns[1].runs[0].length.
func (k *typist) at(path string) any { return k.in(k.want, path) }

// job reads the job under edit in the same way.
func (k *typist) job(path string) any {
	text, err := jobfile.Encode(k.bench.session.Job())
	require.NoError(k.t, err)
	var now map[string]any
	require.NoError(k.t, json.Unmarshal(text, &now))
	return k.in(now, path)
}

func (k *typist) in(file map[string]any, path string) any {
	var here any = file
	for _, name := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		switch v := here.(type) {
		case map[string]any:
			here = v[name]
		case []any:
			i, err := strconv.Atoi(name)
			require.NoError(k.t, err)
			if i >= len(v) {
				return nil
			}
			here = v[i]
		default:
			return nil
		}
	}
	return here
}

func (k *typist) count(path string) int {
	list, _ := k.at(path).([]any)
	return len(list)
}

// fill types every field of the place in view, in its order.
func (k *typist) fill() {
	k.t.Helper()
	place := k.bench.screens[k.bench.at].(formFields)
	done := map[string]bool{}
	for {
		path := ""
		for _, p := range place.Paths() {
			if !done[p] {
				path = p
				break
			}
		}
		if path == "" {
			return
		}
		done[path] = true
		k.field(path, place.Field(path))
	}
}

func (k *typist) field(path string, field fields.Field) {
	k.t.Helper()
	for k.bench.screens[k.bench.at].(formFields).Folded(path) {
		k.tabTo("the group of "+path, func(f fyne.Focusable) bool {
			b, ok := f.(*widgets.Button)
			return ok && strings.HasPrefix(b.Text, "Advanced")
		})
		k.press(fyne.KeySpace)
	}
	k.tabTo(path, func(f fyne.Focusable) bool { return f == field.Focusable() })
	switch f := field.(type) {
	case *fields.Choice:
		k.choose(path, f)
	case interface{ Entry() *fields.Entry }:
		k.entry(path, field, f.Entry())
	default:
		if check, ok := field.Focusable().(*widgets.Check); ok {
			if want := k.ticked(path); check.Checked != want {
				k.letters(" ")
			}
			return
		}
		k.grid(path)
	}
}

// ticked reads a yes or no, or whether a list has a value.
func (k *typist) ticked(path string) bool {
	switch v := k.at(path).(type) {
	case bool:
		return v
	case string:
		return v != ""
	}
	return false
}

// choose goes round the list once; a name that is not there yet is chosen on a
// later round, and the comparison at the end would miss it.
func (k *typist) choose(path string, f *fields.Choice) {
	k.t.Helper()
	want, _ := k.at(path).(string)
	for range f.List().Options {
		if now, _ := k.job(path).(string); now == want {
			return
		}
		k.press(fyne.KeyRight)
	}
}

// entry types what the file holds, over whatever is there.
func (k *typist) entry(path string, field fields.Field, entry *fields.Entry) {
	text := k.text(path, field)
	if text == "" && entry.Text == "" {
		return
	}
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	k.press(fyne.KeyBackspace)
	k.letters(text)
}

// text is what a person would type for a value of the file.
func (k *typist) text(path string, field fields.Field) string {
	if _, ok := field.(*fields.Size); ok {
		return k.size(strings.TrimSuffix(path, "width"))
	}
	switch v := k.at(path).(type) {
	case string:
		return v
	case float64:
		if _, ok := field.(*fields.Percent); ok {
			v *= 100
		}
		return strconv.FormatFloat(v, 'g', 12, 64)
	}
	return ""
}

func (k *typist) size(prefix string) string {
	var sides []string
	for _, side := range []string{"width", "height", "depth"} {
		if v, ok := k.at(prefix + side).(string); ok {
			sides = append(sides, strings.TrimSuffix(v, " in"))
		}
	}
	return strings.Join(sides, "x")
}

// grid types a blower table: tab goes along the row.
func (k *typist) grid(path string) {
	k.t.Helper()
	if rows, _ := k.job(path).([]any); len(rows) > 0 {
		return // typed on an earlier round
	}
	for i := range k.count(path) {
		if i > 0 {
			k.button("Add row")
		}
		for c, column := range []string{"external_static", "airflow", "power", "speed"} {
			if c > 0 {
				test.FocusNext(k.canvas())
				k.keys++
			}
			text, _ := k.at(fmt.Sprintf("%s[%d].%s", path, i, column)).(string)
			k.letters(text)
		}
	}
}

func (k *typist) branch(path string) {
	k.t.Helper()
	for range k.count(path + ".runs") {
		k.button("Add duct run")
	}
	for range k.count(path + ".fittings") {
		k.button("Add fitting")
	}
	for range k.count(path + ".grille.rating") {
		k.button("Add catalog pressure drop")
	}
	k.fill()
}

// each adds and fills the things of a list.
func (k *typist) each(list, add string, fill func(path string)) {
	k.t.Helper()
	for i := range k.count(list) {
		k.button(add)
		fill(fmt.Sprintf("%s[%d]", list, i))
	}
}

// option enters one option. Its returns begin as a copy of today's.
func (k *typist) option(path string) {
	k.t.Helper()
	n := k.count(path + ".returns")
	if n == 0 {
		k.fill()
		return
	}
	k.button("Change the returns here")
	today := k.count("returns")
	pick := func(i int) {
		s := k.tabTo("the choice of return", func(f fyne.Focusable) bool {
			s, ok := f.(*widgets.Select)
			return ok && len(s.Options) > 0 && strings.HasSuffix(s.Options[0], k.at("returns[0].name").(string))
		}).(*widgets.Select)
		for s.SelectedIndex() != i {
			k.press(fyne.KeyRight)
			s = k.canvas().Focused().(*widgets.Select)
		}
	}
	for i := range n {
		if i >= today {
			k.button("Add return")
			k.branch(fmt.Sprintf("%s.returns[%d]", path, i))
			continue
		}
		pick(i)
		k.fill()
	}
}

func (k *typist) enter(place string) {
	item(k.t, k.bench, string(placeOf(place).name)).Action() // the menu's shortcut
	k.keys++
}

// A whole example is entered into an empty job by keyboard alone and gives the
// same job and the same Study as its file. The engine waits until the end, so
// that the thousands of keys take no minutes.
func TestAWholeHouseByKeyboard(t *testing.T) {
	want := example(t, "one-inch-slot")
	text, err := jobfile.Encode(want)
	require.NoError(t, err)
	k := &typist{t: t}
	require.NoError(t, json.Unmarshal(text, &k.want))

	var waiting func()
	k.bench, err = New(test.NewApp(), Options{Dir: NoDir, Run: func(work, done func()) { waiting = func() { work(); done() } }})
	require.NoError(t, err)
	k.bench.window.Resize(fyne.NewSize(1366, 768))
	k.bench.focusFirst()

	for _, place := range []string{"question", "house", "equipment"} {
		k.enter(place)
		k.fill()
	}
	k.enter("blower")
	k.each("equipment.blower.taps", "Add tap", func(string) { k.fill() })
	k.fill() // the taps to choose from are there now
	k.enter("filters")
	k.each("filters", "Add filter", func(path string) {
		for range k.count(path + ".rating") {
			k.button("Add rating point")
		}
		k.fill()
	})
	k.enter("returns")
	k.each("returns", "Add return", k.branch)
	for _, place := range []string{"slot", "parts", "limits"} {
		k.enter(place)
		k.fill()
	}
	k.enter("compare")
	k.each("options", "Add option", k.option)
	k.enter("gauge")
	k.each("readings", "Add test", func(string) { k.fill() })
	t.Logf("%d keys", k.keys)

	for waiting != nil {
		next := waiting
		waiting = nil
		next()
	}
	require.Equal(t, want, k.bench.session.Job())
	require.Empty(t, k.bench.session.Errors())
	study, err := sizing.Solve(want)
	require.NoError(t, err)
	requireSameStudy(t, study, k.bench.session)
}

func requireSameStudy(t *testing.T, want *sizing.Study, s *session.Session) {
	t.Helper()
	a, err := json.Marshal(want)
	require.NoError(t, err)
	b, err := json.Marshal(s.Study())
	require.NoError(t, err)
	require.JSONEq(t, string(a), string(b))
}

// What a person types stays as he types it while the results come in; only
// when he leaves the field is it written the way the value is shown.
func TestTypedTextIsLeftAloneWhileResultsComeIn(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	for _, c := range []struct{ place, path, text, left string }{
		{firstPlace, "design_airflow", "566 L/s", "1199"},
		{"returns", "returns[0].runs[0].length", "168 in", "14"},
		{"returns", "returns[0].runs[0].length", "50", "50"},
		{"house", "site.cooling_hours", "1.5 month", "1096"},
	} {
		b.enter(c.place)
		field := b.screens[c.place].(formFields).Field(c.path)
		entry := field.(interface{ Entry() *fields.Entry }).Entry()
		b.window.Canvas().Focus(entry)
		press(t, b, fyne.KeyBackspace)
		for i, r := range c.text {
			entry.TypedRune(r)
			require.Equal(t, c.text[:i+1], entry.Text, c.path)
		}
		require.Empty(t, b.session.Errors(), c.path)
		test.FocusNext(b.window.Canvas())
		require.Equal(t, c.left, entry.Text, c.path)
	}
}

// Typing a name keeps the keyboard in its field and reaches all that names it.
func TestARenamedFilterKeepsItsPlaces(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("filters")
	entry := b.screens["filters"].(formFields).Field("filters[0].name").(*fields.Text).Entry()
	b.window.Canvas().Focus(entry)
	press(t, b, fyne.KeyBackspace)
	typeText(t, b, "fine")
	require.Same(t, entry, b.window.Canvas().Focused())
	require.Equal(t, "fine", b.session.Job().Filters[0].Name)
	require.Equal(t, "fine", b.session.Job().Slot.Filter)
	require.Empty(t, b.session.Errors())
	b.Undo()
	require.Equal(t, example(t, "one-inch-slot"), b.session.Job())
}

// A button pressed again and again acts on what is there by then, never on what
// was there when the form was built.
func TestRemoveHeldDown(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	for _, place := range []string{"compare", "blower", "filters", "returns", "gauge"} {
		b.goTo(place)
		if place == "compare" { // the form of an option is in its drawer
			b.showPath("options[0].name")
		}
		for range 400 {
			test.FocusNext(b.window.Canvas())
			if w, ok := b.window.Canvas().Focused().(*widgets.Button); ok && w.Text == "Remove" {
				break
			}
		}
		for range 8 {
			if f := b.window.Canvas().Focused(); f != nil {
				f.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			}
		}
	}
	job := b.session.Job()
	require.Empty(t, job.Options)
	require.Empty(t, job.Filters)
	require.Empty(t, job.Readings)
}
