//go:build e2e

package main

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"returnbench/gui"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
)

// person works the real window as people do, who look for a field by its label.
// The labels are read off a second window, of the toolkit's test driver, that is
// given the same keys; it tells how many tabs away a field is, and where a button
// stands. What is checked is what the real program writes and shows alone: the
// second window has other files.
type person struct {
	*window
	second  *gui.Bench
	waiting []func()
	task    string
	step    int
	queue   []string // what the hand does next
	menu    float32  // height of the menu bar, which the second window lacks
}

// newPerson starts the program on a job file, or on a new job where none is named.
func newPerson(d *desk, task, file string) *person {
	d.t.Helper()
	p := &person{task: task}
	if file == "" {
		p.window = d.start()
	} else {
		p.window = d.start("open", file)
	}
	var err error
	p.second, err = gui.New(test.NewApp(), gui.Options{Dir: gui.NoDir, Run: func(work, done func()) {
		p.waiting = append(p.waiting, func() { work(); done() })
	}})
	require.NoError(d.t, err)
	if file != "" {
		require.NoError(d.t, p.second.Open(file))
	}
	p.second.Window().Canvas().Focus(nil)
	p.shortcut("ctrl+1")
	th := fyne.CurrentApp().Settings().Theme()
	p.menu = fyne.MeasureText("M", th.Size(theme.SizeNameText), fyne.TextStyle{}).Height + th.Size(theme.SizeNameInnerPadding)
	p.fit()
	p.soon("the window is drawn", func() error {
		first, err := p.picture(task + "-00")
		if err == nil && ground(first) == 1 {
			err = fmt.Errorf("it has one colour")
		}
		return err
	})
	return p
}

// fit makes the second window as large as the real one.
func (p *person) fit() {
	p.t.Helper()
	w, h := p.size()
	require.True(p.t, w <= 1340 && h <= 700, "the window opens at %.0f x %.0f: no small laptop has the room", w, h)
	p.second.Window().Resize(fyne.NewSize(w, h-p.menu))
}

func (p *person) size() (w, h float32) {
	p.t.Helper()
	out, err := p.tool("xdotool", "getwindowgeometry", "--shell", p.id)
	require.NoError(p.t, err)
	for line := range strings.Lines(out) {
		fmt.Sscanf(line, "WIDTH=%f", &w)
		fmt.Sscanf(line, "HEIGHT=%f", &h)
	}
	require.True(p.t, w > 0 && h > 0, "the size of the window: %s", out)
	return w, h
}

// keepsSize tells that what is shown has not made the window larger.
func (p *person) keepsSize() {
	p.t.Helper()
	w, h := p.size()
	size := p.canvas().Size()
	require.Equal(p.t, [2]float32{size.Width, size.Height + p.menu}, [2]float32{w, h})
}

// catchUp does the work of the second window that waits.
func (p *person) catchUp() {
	for len(p.waiting) > 0 {
		now := p.waiting
		p.waiting = nil
		for _, f := range now {
			f()
		}
	}
}

func (p *person) canvas() fyne.Canvas { return p.second.Window().Canvas() }

// press presses keys, named as the display names them, in both windows.
func (p *person) press(keys ...string) {
	p.t.Helper()
	p.queue = append(append(p.queue, "key", "--delay", "20"), keys...)
	for _, k := range keys {
		p.shortcut(k)
	}
}

// acts does on the display what was put off so far, in one go.
func (p *person) acts() {
	p.t.Helper()
	if len(p.queue) == 0 {
		return
	}
	_, err := p.tool("xdotool", p.queue...)
	p.queue = nil
	require.NoError(p.t, err)
}

var keyNames = map[string]fyne.KeyName{
	"space": fyne.KeySpace, "Return": fyne.KeyReturn, "Escape": fyne.KeyEscape, "BackSpace": fyne.KeyBackspace,
	"Left": fyne.KeyLeft, "Right": fyne.KeyRight, "Up": fyne.KeyUp, "Down": fyne.KeyDown, "Home": fyne.KeyHome, "End": fyne.KeyEnd,
	"Next": fyne.KeyPageDown, "Prior": fyne.KeyPageUp, "period": fyne.KeyPeriod, "comma": fyne.KeyComma,
}

// shortcut gives one key to the second window.
func (p *person) shortcut(key string) {
	p.t.Helper()
	var modifier fyne.KeyModifier
	name, more := key, true
	for more {
		switch before, after, found := strings.Cut(name, "+"); {
		case found && before == "ctrl":
			modifier, name = modifier|fyne.KeyModifierControl, after
		case found && before == "shift":
			modifier, name = modifier|fyne.KeyModifierShift, after
		default:
			more = false
		}
	}
	k, known := keyNames[name]
	if !known {
		k = fyne.KeyName(strings.ToUpper(name))
	}
	switch {
	case name == "Tab" && modifier == 0:
		test.FocusNext(p.canvas())
	case name == "Tab":
		test.FocusPrevious(p.canvas())
	case modifier != 0:
		if it := itemOf(p.second.Window().MainMenu().Items, k, modifier); it != nil {
			it.Action()
		} else if k == fyne.KeyA {
			p.canvas().Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		}
	case p.canvas().Focused() == nil:
		p.canvas().OnTypedKey()(&fyne.KeyEvent{Name: k})
	default:
		p.canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
		if f := p.canvas().Focused(); k == fyne.KeySpace && f != nil {
			f.TypedRune(' ')
		}
	}
}

func itemOf(menus []*fyne.Menu, key fyne.KeyName, modifier fyne.KeyModifier) *fyne.MenuItem {
	for _, m := range menus {
		for _, it := range m.Items {
			if s, ok := it.Shortcut.(fyne.KeyboardShortcut); ok && s.Key() == key && s.Mod() == modifier {
				return it
			}
			if it.ChildMenu != nil {
				if in := itemOf([]*fyne.Menu{it.ChildMenu}, key, modifier); in != nil {
					return in
				}
			}
		}
	}
	return nil
}

// types types into whatever has the keyboard.
func (p *person) types(text string) { p.typesBoth(text, text) }

// typesBoth types other words into the second window.
func (p *person) typesBoth(text, second string) {
	p.t.Helper()
	p.queue = append(p.queue, "type", "--args", "1", "--delay", "20", text)
	for _, r := range second {
		f := p.canvas().Focused()
		require.NotNil(p.t, f, "nothing has the keyboard for %q", text)
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(strings.ToUpper(string(r)))})
		if f = p.canvas().Focused(); f != nil {
			f.TypedRune(r)
		}
	}
}

// seen is something of the second window that takes the keyboard or the pointer,
// with the words that people call it by.
type seen struct {
	object fyne.CanvasObject
	name   string
}

// looks lists what is in view, in its order.
func (p *person) looks() (out []seen) {
	label := ""
	var look func(o fyne.CanvasObject)
	look = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch v := o.(type) {
		case *fyne.Container:
			for _, c := range v.Objects {
				look(c)
			}
			return
		case *container.Scroll:
			look(v.Content)
			return
		case *widget.Label:
			if v.Text != "" {
				label = v.Text
			}
			return
		}
		w, ok := o.(fyne.Widget)
		if !ok {
			return
		}
		_, takesKeys := o.(fyne.Focusable)
		_, takesPointer := o.(fyne.Tappable)
		if takesKeys || takesPointer {
			out = append(out, seen{o, nameOf(w, label)})
		}
		if !takesKeys {
			for _, c := range test.WidgetRenderer(w).Objects() {
				look(c)
			}
		}
	}
	if top := p.canvas().Overlays().Top(); top != nil {
		look(top)
	} else {
		look(p.second.Window().Content())
	}
	return out
}

// nameOf is what a button or a box says, or the label before a field.
func nameOf(w fyne.Widget, label string) string {
	v := reflect.Indirect(reflect.ValueOf(w))
	field := func(name string) reflect.Value { return v.FieldByName(name) }
	if _, entry := w.(interface{ SelectedText() string }); entry || field("Options").IsValid() || field("Max").IsValid() {
		return label
	}
	if text := field("Text"); text.IsValid() && text.Kind() == reflect.String {
		return text.String()
	}
	var words []string
	for _, o := range test.WidgetRenderer(w).Objects() {
		words = append(words, wordsOf(o)...)
	}
	if len(words) == 0 {
		return label
	}
	return strings.Join(words, " ")
}

func wordsOf(o fyne.CanvasObject) (out []string) {
	switch v := o.(type) {
	case *canvas.Text:
		if v.Text != "" {
			out = []string{v.Text}
		}
	case *widget.Label:
		if v.Text != "" {
			out = []string{v.Text}
		}
	case *fyne.Container:
		for _, c := range v.Objects {
			out = append(out, wordsOf(c)...)
		}
	}
	return out
}

// laysOut lays the second window out once more, now that words have their widths.
func (p *person) laysOut() {
	w := p.second.Window()
	size := w.Canvas().Size()
	w.Resize(size.AddWidthHeight(0, 1))
	w.Resize(size)
}

// find is the part in view of that name; it fails where there is none.
func (p *person) find(name string) seen {
	p.t.Helper()
	p.catchUp()
	p.laysOut()
	var names []string
	for _, s := range p.looks() {
		if s.name == name {
			return s
		}
		names = append(names, s.name)
	}
	require.Fail(p.t, "nothing in view is called "+name, "%q", names)
	return seen{}
}

// slider is the slider in view.
func (p *person) slider() seen {
	p.t.Helper()
	p.laysOut()
	for _, s := range p.looks() {
		if _, ok := s.object.(fyne.Draggable); ok && reflect.Indirect(reflect.ValueOf(s.object)).FieldByName("Max").IsValid() {
			return s
		}
	}
	require.Fail(p.t, "no slider is in view")
	return seen{}
}

// to goes to a field or a button with the tab key.
func (p *person) to(name string) fyne.Focusable {
	p.t.Helper()
	p.catchUp()
	names := map[fyne.CanvasObject]string{}
	for _, s := range p.looks() {
		names[s.object] = s.name
	}
	f, tabs := p.way(names, name)
	require.NotNil(p.t, f, "the tab key never comes to %s: %q", name, names)
	if len(tabs) > 0 {
		p.queue = append(append(p.queue, "key", "--delay", "15"), tabs...)
	}
	return f
}

// way is the shorter way with the tab key to a part, and brings the second window
// there.
func (p *person) way(names map[fyne.CanvasObject]string, name string) (fyne.Focusable, []string) {
	is := func(f fyne.Focusable) bool { return names[f.(fyne.CanvasObject)] == name }
	start := p.canvas().Focused()
	gone := start == nil || names[start.(fyne.CanvasObject)] == ""
	if !gone && is(start) {
		return start, nil
	}
	at, round := 0, 0
	for range 200 {
		test.FocusNext(p.canvas())
		round++
		f := p.canvas().Focused()
		if f == nil {
			return nil, nil
		}
		if at == 0 && is(f) {
			at = round
			if gone {
				return f, slices.Repeat([]string{"Tab"}, at)
			}
		}
		if f == start {
			break
		}
	}
	if at == 0 {
		return nil, nil
	}
	key, n, move := "Tab", at, test.FocusNext
	if back := round - at; back < at {
		key, n, move = "shift+Tab", back, test.FocusPrevious
	}
	for range n {
		move(p.canvas())
	}
	return p.canvas().Focused(), slices.Repeat([]string{key}, n)
}

// enters types a value over whatever stands in a field.
func (p *person) enters(name, text string) {
	p.t.Helper()
	p.to(name)
	p.press("ctrl+a")
	p.types(text)
}

// chooses goes along a list of choices to one of them.
func (p *person) chooses(name, choice string) {
	p.t.Helper()
	p.to(name)
	list := func() (options []string, at int) {
		v := reflect.Indirect(reflect.ValueOf(p.canvas().Focused()))
		options = v.FieldByName("Options").Interface().([]string)
		return options, slices.Index(options, v.FieldByName("Selected").String())
	}
	options, at := list()
	want := slices.Index(options, choice)
	require.GreaterOrEqual(p.t, want, 0, "%s has no %s: %q", name, choice, options)
	key, n := "Right", (want-at+len(options))%len(options)
	if n > len(options)/2 {
		key, n = "Left", len(options)-n
	}
	if at < 0 {
		key, n = "Right", want+1 // nothing is chosen yet
	}
	for range n {
		p.press(key)
	}
	options, at = list()
	require.Equal(p.t, choice, options[at])
}

// presses goes to a button or a box and presses the space bar.
func (p *person) presses(name string) {
	p.t.Helper()
	p.to(name)
	p.press("space")
}

// center is where a part stands in the real window.
func (p *person) center(s seen) (x, y float32) {
	inset, _ := p.canvas().InteractiveArea()
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.object).Add(inset)
	size := s.object.Size()
	return at.X + size.Width/2, at.Y + size.Height/2
}

// points moves the pointer over a part.
func (p *person) points(s seen) (x, y float32) {
	p.t.Helper()
	x, y = p.center(s)
	p.moves(x, y)
	return x, y
}

func (p *person) moves(x, y float32) {
	p.t.Helper()
	p.queue = append(p.queue, "mousemove", "--window", p.id, fmt.Sprintf("%.0f", x), fmt.Sprintf("%.0f", y+p.menu))
}

// clicks clicks on a part.
func (p *person) clicks(name string) {
	p.t.Helper()
	s := p.find(name)
	x, y := p.points(s)
	p.queue = append(p.queue, "sleep", "0.1", "click", "1")
	before := p.canvas().Focused()
	test.TapCanvas(p.canvas(), fyne.NewPos(x, y))
	if p.canvas().Focused() != nil || before == nil {
		return
	}
	// A button that is clicked leaves the keyboard where it was; the test driver
	// takes it away.
	for _, s := range p.looks() {
		if s.object == before.(fyne.CanvasObject) {
			p.canvas().Focus(before)
		}
	}
}

// sees keeps a picture of a step once the window has come to rest.
func (p *person) sees(what string) image.Image {
	p.t.Helper()
	p.acts()
	p.catchUp()
	return p.settled(p.name(what))
}

// seesNew is sees after something that must change the window.
func (p *person) seesNew(from image.Image, what string) image.Image {
	p.t.Helper()
	p.acts()
	p.catchUp()
	return p.changed(from, p.name(what))
}

func (p *person) name(what string) string {
	p.step++
	return fmt.Sprintf("%s-%02d-%s", p.task, p.step, what)
}

// seesPage waits until a page, or anything else that is no empty ground, is shown
// in the right of the window.
func (p *person) seesPage(what string) image.Image {
	p.t.Helper()
	p.acts()
	p.catchUp()
	name := p.name(what)
	p.soon("a page is shown", func() error {
		now, err := p.picture(name)
		if err != nil {
			return err
		}
		if share := ground(now); share > 0.97 {
			return fmt.Errorf("%.3g of it is empty", share)
		}
		return nil
	})
	return p.settled(name)
}

// ground is the share of the commonest color in the right half.
func ground(m image.Image) float64 {
	r := m.Bounds()
	count, most, all := map[color.Color]int{}, 0, 0
	for x := r.Min.X + r.Dx()/2; x < r.Max.X; x += 3 {
		for y := r.Min.Y + r.Dy()/6; y < r.Max.Y; y += 3 {
			c := m.At(x, y)
			count[c]++
			most = max(most, count[c])
			all++
		}
	}
	return float64(most) / float64(all)
}

// file is a file in the person's own folder; the second window has another.
func (p *person) file(name string) string { return filepath.Join(p.dir, name) }

// saves answers the question for a file's name, and what comes after it where
// something does; it waits for the file.
func (p *person) saves(name string, more ...string) string {
	p.t.Helper()
	path := p.file(name)
	second := filepath.Join(p.dir, "second")
	require.NoError(p.t, os.MkdirAll(second, 0o755))
	p.press("ctrl+a")
	p.typesBoth(path, filepath.Join(second, name))
	p.press("Return")
	p.acts()
	p.catchUp()
	p.wrote(path)
	if len(more) > 0 {
		p.press(more...)
	}
	return path
}

// wrote waits for a file; it is never there in part.
func (p *person) wrote(path string) {
	p.t.Helper()
	p.soon(path+" is there", func() error {
		_, err := os.Stat(path)
		return err
	})
}

// job waits until a saved job is as it should be.
func (p *person) job(path string, want func(*sizing.Job) error) sizing.Job {
	p.t.Helper()
	p.acts()
	var job sizing.Job
	p.soon(filepath.Base(path)+" holds what was entered", func() error {
		var err error
		if job, err = jobfile.Load(path); err != nil {
			return err
		}
		return want(&job)
	})
	return job
}

// pdf is the text of a page, in the order of its lines.
func (p *person) pdf(path string) string {
	p.t.Helper()
	text, err := p.tool("pdftotext", "-layout", path, "-")
	require.NoError(p.t, err)
	return text
}

// cli runs the same program without a window.
func (p *person) cli(args ...string) string {
	p.t.Helper()
	out, err := exec.Command(p.binary, args...).CombinedOutput()
	require.NoError(p.t, err, "%s", out)
	return string(out)
}

// clipboard is the text that the real window put there.
func (p *person) clipboard() string {
	p.t.Helper()
	p.acts()
	var text string
	p.soon("the clipboard has text", func() error {
		var err error
		text, err = p.tool("xclip", "-o", "-selection", "clipboard")
		if err == nil && text == "" {
			err = fmt.Errorf("it is empty")
		}
		return err
	})
	return text
}

// opensExample goes through the menu with the arrows to the first example.
func (p *person) opensExample() {
	p.t.Helper()
	p.queue = append(p.queue, "key", "--delay", "100", "Alt_L", "Down", "Down", "Down", "Right", "Return")
	for _, it := range p.second.Window().MainMenu().Items[0].Items {
		if it.Label == "New from example" {
			it.ChildMenu.Items[0].Action()
			return
		}
	}
	require.Fail(p.t, "the menu has no examples")
}

// drags moves the pointer from a part by so much with the button held down.
func (p *person) drags(s seen, fromX, byX float32) {
	p.t.Helper()
	_, y := p.center(s)
	p.moves(fromX, y)
	p.queue = append(p.queue, "sleep", "0.1", "mousedown", "1")
	for i := range 5 {
		p.moves(fromX+byX*float32(i+1)/5, y)
		p.queue = append(p.queue, "sleep", "0.05")
	}
	p.queue = append(p.queue, "mouseup", "1")
	p.acts()
}
