package lesson

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/chart"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// stage shows one demonstration: question, predictions, move, chart, numbers,
// and in the end the explanation with its working.
type stage struct {
	show  *Show
	units func() units.Locale
	dress func() plots.Look
	large bool

	question *widget.Label
	fault    *widget.Label
	answers  []*answer
	foretold *fyne.Container // the predictions
	said     *widget.Label   // the prediction in one line, while the move is made

	name    *widget.Label
	value   *widget.Label
	slider  *slider
	choices []*answer
	move    *fyne.Container

	chart   *chart.Chart
	tiles   []*tile
	numbers *fyne.Container
	told    *fyne.Container // the explanation
	rest    *container.Scroll

	back, forward *keyButton
	where         *widget.Label
	box           *fyne.Container

	trace *chart.Chart
	count []*handCount
	full  func() // the window fills the screen, or no more

	drawn string // what the explanation was written of
	seen  sight  // what the charts were drawn of
	quiet bool
	step  Step
}

func newStage(show *Show, sys func() units.Locale, dress func() plots.Look, large bool, bar ...fyne.CanvasObject) *stage {
	g := &stage{show: show, units: sys, dress: dress, large: large, step: -1}
	l := show.Lesson()
	g.question = wrapped("")
	g.question.TextStyle.Bold = true
	g.question.SizeName = theme.SizeNameHeadingText
	g.fault = wrapped("")
	g.fault.Importance = widget.DangerImportance
	g.said = wrapped("")
	g.said.TextStyle.Italic = true
	g.foretold = container.NewVBox()
	for i, p := range l.Predictions {
		a := newAnswer(fmt.Sprintf("%d   %s", i+1, p.Text), func() { show.Predict(i) })
		a.keys = g.among(i)
		if large {
			a.label.SizeName = theme.SizeNameSubHeadingText
		}
		g.answers = append(g.answers, a)
		h := newHandCount(func(by int) { show.Raise(i, by) })
		g.count = append(g.count, h)
		g.foretold.Add(a)
		g.foretold.Add(container.NewHBox(layout.NewSpacer(), h.box))
	}
	g.buildMove(l)
	g.chart = chart.New()
	g.chart.SetLook(dress)
	g.chart.SetSource(g.plot)
	for i, n := range l.Numbers {
		t := newTile(n, large)
		t.pick.tapped = func() { show.Trace(i) }
		g.tiles = append(g.tiles, t)
	}
	g.trace = chart.New()
	g.trace.SetLook(dress)
	g.trace.SetSource(g.plotTrace)
	g.told = container.NewVBox()
	g.buildBar(bar)
	g.lay()
	return g
}

func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

func bold(text string) *widget.Label {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

func (g *stage) buildMove(l *lesson.Lesson) {
	g.name = bold(l.Move.Name)
	g.value = bold("")
	settings := g.show.Settings()
	if len(l.Move.Choices) > 0 {
		row := container.NewGridWithColumns(len(settings))
		for i, s := range settings {
			a := newAnswer(s.Show(g.units()), func() { g.show.MoveTo(i) })
			a.keys = g.switched(i)
			g.choices = append(g.choices, a)
			row.Add(a)
		}
		g.move = container.NewBorder(nil, nil, g.name, nil, row)
		return
	}
	g.slider = newSlider(len(settings), func(i int) {
		if !g.quiet {
			g.show.MoveTo(i)
		}
	})
	g.slider.keys = g.keyed
	g.move = container.NewBorder(nil, nil, g.name, container.New(&widest{g.valueTexts}, g.value), g.slider)
}

// valueTexts are all texts that the value of the slider takes.
func (g *stage) valueTexts() []string {
	var out []string
	for _, s := range g.show.Settings() {
		out = append(out, s.Show(g.units()))
	}
	return out
}

// widest gives a label the room of the widest text it will show, so that the
// slider keeps still.
type widest struct{ texts func() []string }

func (w *widest) MinSize(o []fyne.CanvasObject) fyne.Size {
	l := o[0].(*widget.Label)
	th := l.Theme()
	size := l.MinSize()
	for _, t := range w.texts() {
		m := fyne.MeasureText(t, th.Size(theme.SizeNameText), l.TextStyle)
		size.Width = fyne.Max(size.Width, m.Width+4*th.Size(theme.SizeNameInnerPadding))
	}
	return size
}

func (w *widest) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

func (g *stage) buildBar(more []fyne.CanvasObject) {
	g.back = newKeyButton(lang.T("Back"), g.show.Back, g.keyed)
	g.forward = newKeyButton("", g.show.Forward, g.keyed)
	g.forward.Importance = widget.HighImportance
	g.where = widget.NewLabel("")
	g.where.Importance = widget.LowImportance
	g.box = container.NewStack()
	again := newKeyButton(lang.T("Start over"), g.show.Reset, g.keyed)
	g.box.Objects = []fyne.CanvasObject{newFoot([]fyne.CanvasObject{g.back, g.forward, again, g.where}, more)}
}

// lay puts the parts in their places. The bar is already in the box.
func (g *stage) lay() {
	bar := g.box.Objects[0]
	numbers := make([]fyne.CanvasObject, len(g.tiles))
	for i, t := range g.tiles {
		numbers[i] = t.box
	}
	top := container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), container.NewVBox(g.question, g.fault, g.said, g.move))
	g.numbers = container.New(&tiles{}, numbers...)
	g.rest = widgets.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), container.NewVBox(g.foretold, g.numbers, g.told)))
	told := container.New(&answers{g.rest.Content.MinSize, 0.4}, g.rest, g.trace)
	picture := container.New(&beside{0.6, g.chart, told}, told, g.chart) // the tab key comes to the predictions first
	asked := widgets.NewVScroll(top)
	all := container.New(&halves{top, asked, picture, bar, g.sizeQuestion}, asked, picture, bar) // the tab key goes down
	g.box.Objects = []fyne.CanvasObject{all}
}

// barRoom keeps words clear of the scroll bar.
const barRoom = 16

// beside shares the width between two objects, of which the right one has what it needs
// first.
type beside struct {
	share       float32 // of the left one
	left, right fyne.CanvasObject
}

// MinSize has room for both.
func (b *beside) MinSize([]fyne.CanvasObject) fyne.Size {
	left, right := b.left.MinSize(), b.right.MinSize()
	return fyne.NewSize(left.Width+right.Width, fyne.Max(left.Height, right.Height))
}

// Layout shares the width out.
func (b *beside) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const gap = 8
	left := fyne.Min((size.Width-gap)*b.share, size.Width-gap-b.right.MinSize().Width)
	b.left.Move(fyne.NewPos(0, 0))
	b.left.Resize(fyne.NewSize(left, size.Height))
	b.right.Move(fyne.NewPos(left+gap, 0))
	b.right.Resize(fyne.NewSize(size.Width-left-gap, size.Height))
}

// keyed takes the keys that go from step to step, those that turn the pages of
// the explanation, and the digits of the predictions.
func (g *stage) keyed(k fyne.KeyName) bool {
	if n := int(k[0] - '1'); g.show.Step() == Ask && len(k) == 1 && n >= 0 && n < len(g.answers) {
		g.show.Predict(n)
		return true
	}
	switch k {
	case fyne.KeyPageDown:
		g.show.Forward()
	case fyne.KeyPageUp:
		g.show.Back()
	case fyne.KeyF11:
		if g.full != nil {
			g.full()
		}
	case fyne.KeyPlus, fyne.KeyEqual:
		g.raise(1)
	case fyne.KeyMinus:
		g.raise(-1)
	case fyne.KeyUp:
		g.scroll(-1)
	case fyne.KeyDown:
		g.scroll(1)
	default:
		return false
	}
	return true
}

// raise counts a hand for the prediction that has the keyboard.
func (g *stage) raise(by int) {
	c := fyne.CurrentApp().Driver().CanvasForObject(g.box)
	for i, a := range g.answers {
		if c != nil && c.Focused() == fyne.Focusable(a) {
			g.show.Raise(i, by)
		}
	}
}

// scroll moves the explanation by some lines.
func (g *stage) scroll(by float32) {
	g.rest.ScrollToOffset(g.rest.Offset.AddXY(0, by*g.rest.Size().Height/3))
}

// switched lets the arrows move a switch.
func (g *stage) switched(i int) func(fyne.KeyName) bool {
	return func(k fyne.KeyName) bool {
		to := i
		switch k {
		case fyne.KeyLeft, fyne.KeyUp:
			to--
		case fyne.KeyRight, fyne.KeyDown:
			to++
		default:
			return g.keyed(k)
		}
		if to >= 0 && to < len(g.choices) {
			g.show.MoveTo(to)
			if c := fyne.CurrentApp().Driver().CanvasForObject(g.choices[to]); c != nil && !g.choices[to].off {
				c.Focus(g.choices[to])
			}
		}
		return true
	}
}

// among lets the arrows go from one prediction to the next, and the digits
// choose.
func (g *stage) among(i int) func(fyne.KeyName) bool {
	return func(k fyne.KeyName) bool {
		to := i
		switch k {
		case fyne.KeyUp:
			to--
		case fyne.KeyDown:
			to++
		default:
			return g.keyed(k)
		}
		if c := fyne.CurrentApp().Driver().CanvasForObject(g.box); c != nil && to >= 0 && to < len(g.answers) {
			c.Focus(g.answers[to])
		}
		return true
	}
}

// holds reports whether a part of the stage has the keyboard.
func (g *stage) holds(f fyne.Focusable) bool {
	for _, list := range [][]*answer{g.answers, g.choices} {
		for _, a := range list {
			if f == fyne.Focusable(a) {
				return true
			}
		}
	}
	return f != nil && (f == fyne.Focusable(g.forward) || f == fyne.Focusable(g.back) || g.slider != nil && f == fyne.Focusable(g.slider))
}

// first is the part that takes the keyboard at the present step.
func (g *stage) first() fyne.Focusable {
	switch {
	case g.show.Step() == Ask && len(g.answers) > 0:
		return g.answers[max(g.show.Predicted(), 0)]
	case g.show.Step() == Try && g.slider != nil:
		return g.slider
	case g.show.Step() == Try && len(g.choices) > 0:
		return g.choices[min(g.show.Position(), len(g.choices)-1)]
	}
	if g.forward.Disabled() {
		return g.back
	}
	return g.forward
}

// refresh shows the Show as it stands.
func (g *stage) refresh() {
	sys := g.units()
	setText(g.question, g.show.Lesson().Ask(sys))
	fault := ""
	if err := g.show.Fault(); err != nil {
		fault = message.Text(sys, "The house of this demonstration cannot be solved. {why}", "why", err)
	}
	setText(g.fault, fault)
	visible(g.fault, fault != "")
	g.refreshPredictions()
	g.refreshMove(sys)
	g.refreshNumbers(sys)
	g.explain(sys)
	g.refreshBar()
	g.redraw(sys)
	step := g.show.Step()
	visible(g.trace, step == Try)
	visible(g.numbers, !g.large || step == Try)
	g.sizeQuestion()
	if g.step != step {
		g.step = step
		g.rest.ScrollToTop()
		g.box.Refresh() // all of it; else the parts see to themselves
	}
}

// sizeQuestion writes the question smaller where the letters are large for the window.
func (g *stage) sizeQuestion() {
	const lines = 48 // of a window in which it may stand large
	size, c := theme.SizeNameHeadingText, fyne.CurrentApp().Driver().CanvasForObject(g.box)
	if g.large || c != nil && c.Size().Height < lines*g.question.Theme().Size(theme.SizeNameText) {
		size = theme.SizeNameSubHeadingText
	}
	if g.question.SizeName != size {
		g.question.SizeName = size
		g.question.Refresh()
	}
}

// sight is all that the charts of a stage are drawn of. A slider tells of each of its
// positions before and after it is solved, and only what it moves is drawn.
type sight struct {
	lesson           *lesson.Lesson
	start, now, end  *sizing.Study
	step             Step
	position, traced int
	visited          int
	sys              units.Locale
}

// redraw draws the charts whose subject changed.
func (g *stage) redraw(sys units.Locale) {
	start, _ := g.show.Start()
	now, _ := g.show.Now()
	end, _ := g.show.End()
	_, visited := g.show.Visited()
	next := sight{g.show.Lesson(), start.Study, now.Study, end.Study, g.show.Step(), g.show.Position(), g.show.Traced(), len(visited), sys}
	was := g.seen
	g.seen = next
	if next == was {
		return
	}
	g.trace.Refresh()
	// The chart shows the position only through its Study, but for the start alone.
	atStart := func(s sight) bool { return s.step == Ask || s.position == 0 }
	same := atStart(was) == atStart(next)
	next.position, next.traced, next.visited = was.position, was.traced, was.visited
	if !same || next != was {
		g.chart.Refresh()
	}
}

func setText(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

func visible(o fyne.CanvasObject, yes bool) {
	if o.Visible() == yes {
		return
	}
	if yes {
		o.Show()
	} else {
		o.Hide()
	}
}

func (g *stage) refreshPredictions() {
	step := g.show.Step()
	for i, a := range g.answers {
		a.set(i == g.show.Predicted(), step != Ask, "", widget.MediumImportance)
		g.count[i].set(g.show.Hands()[i])
	}
	visible(g.foretold, step == Ask)
	said := lang.T("No prediction was made.")
	if p := g.show.Predicted(); p >= 0 {
		said = lang.T("You said: {prediction}", "prediction", g.show.Lesson().Predictions[p].Text)
	}
	setText(g.said, said)
	visible(g.said, step == Try && !g.large)
}

func (g *stage) refreshMove(sys units.Locale) {
	step, free := g.show.Step(), g.show.Decided()
	at := g.show.Position()
	for i, a := range g.choices {
		a.set(i == at, !free, "", widget.MediumImportance)
	}
	if g.slider != nil {
		g.quiet = true
		g.slider.SetValue(float64(at))
		g.quiet = false
		if free {
			g.slider.Enable()
		} else {
			g.slider.Disable()
		}
		if settings := g.show.Settings(); at < len(settings) {
			setText(g.value, settings[at].Show(sys))
		}
	}
	visible(g.move, !g.large && step != Ask || g.large && step == Try)
}

func (g *stage) refreshNumbers(sys units.Locale) {
	start, ok := g.show.Start()
	now, solved := g.show.Now()
	if !ok || !solved {
		return
	}
	for _, t := range g.tiles {
		t.set(start, now, g.show.Step() != Ask, sys)
	}
}

func (g *stage) refreshBar() {
	step := g.show.Step()
	label := message.ID("Make the move")
	switch {
	case step == Ask && g.show.Predicted() < 0:
		label = "Skip the prediction"
	case step == Try:
		label = "Explain it"
	case step == Explain && g.show.Told() < g.show.parts()-1:
		label = "Go on"
	case step == Explain:
		label = "Next demonstration"
	}
	if text := lang.T(label); g.forward.Text != text {
		g.forward.SetText(text)
	}
	enable(g.forward, step != Explain || g.show.Told() < g.show.parts()-1 || g.show.At() < len(g.show.Items())-1)
	enable(g.back, step != Ask || g.show.At() > 0)
	setText(g.where, lang.T([]message.ID{"Step 1 of 3: predict", "Step 2 of 3: move", "Step 3 of 3: explain"}[step]))
}

func enable(b *keyButton, yes bool) {
	if yes {
		b.Enable()
	} else {
		b.Disable()
	}
}

// plot draws the start, and beside it the house as it is moved.
func (g *stage) plot() (plots.Chart, bool) {
	start, ok := g.show.Start()
	now, solved := g.show.Now()
	if !ok || !solved {
		return plots.Chart{}, false
	}
	sys := g.units()
	before, after := side("start, {setting}", start, sys), side("now, {setting}", now, sys)
	if g.show.Step() == Ask || g.show.Position() == 0 {
		after = before
	}
	room := []plots.Side{before}
	if end, ok := g.show.End(); ok && g.show.Step() != Ask {
		room = append(room, side("", end, sys))
	}
	key := strings.ReplaceAll(string(g.show.Lesson().Picture()), "_", "-")
	return plots.BeforeAfter(key, before, after, room, g.dress()), true
}

func side(name message.ID, s lesson.SolvedSetting, sys units.Locale) plots.Side {
	return plots.Side{Name: message.Text(sys, name, "setting", s.Setting), Study: s.Study, Option: s.Setting.Option, Loaded: s.Loaded()}
}

// plotTrace draws the chosen number along the move, as far as it was made.
func (g *stage) plotTrace() (plots.Chart, bool) {
	settings := g.show.Settings()
	numbers := g.show.Lesson().Numbers
	at, stands := g.show.Visited()
	if len(stands) == 0 || len(numbers) == 0 || len(settings) < 2 {
		return plots.Chart{}, false
	}
	sys, n := g.units(), numbers[g.show.Traced()]
	t := plots.Trace{Name: message.Text(sys, n.Name()), Move: g.show.Lesson().Move.Name, From: settings[0].Show(sys), To: settings[len(settings)-1].Show(sys), Positions: len(settings), Now: g.show.Position()}
	for i, st := range stands {
		v, unit := st.Value(n).In(sys)
		t.At, t.Values, t.Unit = append(t.At, at[i]), append(t.Values, v), unit
	}
	return t.Chart(g.dress()), true
}

// explain writes what came out: which prediction the engine bears out, why,
// and the working of the numbers, at the start and now.
func (g *stage) explain(sys units.Locale) {
	o, ok := g.show.Outcome()
	now, solved := g.show.Now()
	key := ""
	if g.show.Step() == Explain {
		key = fmt.Sprint(ok, g.show.At(), g.show.Position(), g.show.Told(), sys, solved)
	}
	if key == g.drawn {
		return
	}
	g.drawn = key
	g.told.Objects = nil
	switch {
	case key == "":
	case !ok || !solved:
		g.told.Add(wrapped(lang.T("Working it out ...")))
	default:
		paragraphs, part := o.Explain(sys), g.show.Told()
		if part == 0 {
			g.verdict(o)
		}
		if part < len(paragraphs) {
			p := wrapped(paragraphs[part])
			p.SizeName = theme.SizeNameSubHeadingText
			g.told.Add(p)
		} else if part > 0 {
			g.workings(o.Start(), now, sys)
		}
		if part == 0 {
			g.outcomes(o)
		}
		g.rest.ScrollToTop()
	}
	g.told.Refresh()
}

// verdict says which prediction came true, and whether it was the one chosen.
func (g *stage) verdict(o lesson.Outcome) {
	right, say := o.Right(), func(text string) {
		l := wrapped(text)
		l.TextStyle.Bold = true
		g.told.Add(l)
	}
	for i, p := range g.show.Lesson().Predictions {
		if right[i] {
			say(lang.T("This happened: {prediction}", "prediction", p.Text))
		}
	}
	if !slices.Contains(right, true) {
		say(lang.T("None of the predictions came true with this house."))
	}
	if p := g.show.Predicted(); p >= 0 {
		text := message.ID("Your prediction did not come true.")
		if right[p] {
			text = "Your prediction came true."
		}
		say(lang.T(text))
	}
}

// outcomes says of each prediction what came of it.
func (g *stage) outcomes(o lesson.Outcome) {
	right := o.Right()
	for i, p := range g.show.Lesson().Predictions {
		n := g.show.Hands()[i]
		note, importance := message.ID("did not happen"), widget.LowImportance
		if right[i] {
			note, importance = "this happened", widget.SuccessImportance
		}
		switch {
		case n > 0 && right[i]:
			note = "this happened, {count} hands"
		case n > 0:
			note = "did not happen, {count} hands"
		}
		a := newAnswer(fmt.Sprintf("%d   %s", i+1, p.Text), func() {})
		a.keys = g.keyed
		a.set(i == g.show.Predicted(), true, lang.T(note, "count", n), importance)
		g.told.Add(a)
	}
}

func (g *stage) workings(start, now lesson.SolvedSetting, sys units.Locale) {
	if len(g.show.Lesson().Workings) == 0 {
		return
	}
	g.told.Add(widget.NewSeparator())
	g.told.Add(bold(lang.T("The working")))
	for _, n := range g.show.Lesson().Workings {
		for i, s := range []lesson.SolvedSetting{start, now} {
			if i == 1 && s.Setting.Index == start.Setting.Index {
				continue
			}
			w := s.Working(n)
			if w == nil {
				continue
			}
			g.told.Add(bold(message.Text(sys, []message.ID{"{number}, start: {setting}", "{number}, now: {setting}"}[i], "number", n.Name(), "setting", s.Setting)))
			for _, line := range widgets.CalculationLines(*w, sys) {
				g.told.Add(line)
			}
		}
	}
}
