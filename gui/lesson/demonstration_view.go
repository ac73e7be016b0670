package lesson

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/chart"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/plots"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// demonstrationView shows one demonstration: question, predictions, move, chart, numbers,
// and in the end the explanation with its working.
type demonstrationView struct {
	show  *Show
	units func() units.Locale
	look  func() plots.Look
	large bool

	question         *widget.Label
	fault            *widget.Label
	answers          []*answer
	predictions      *fyne.Container
	chosenPrediction *widget.Label // the prediction in one line, while the move is made

	name    *widget.Label
	value   *widget.Label
	slider  *slider
	choices []*answer
	move    *fyne.Container

	chart       *chart.Chart
	tiles       []*tile
	numbers     *fyne.Container
	explanation *fyne.Container
	scrolled    *container.Scroll

	back, forward *keyButton
	stepLabel     *widget.Label
	box           *fyne.Container

	trace            *chart.Chart
	handCounts       []*handCount
	toggleFullScreen func()

	explained string     // the state that the explanation was written from
	charted   chartState // the state that the charts were drawn from
	updating  bool       // the slider is being set, not moved
	step      Step
}

func newDemonstrationView(show *Show, sys func() units.Locale, look func() plots.Look, large bool, bar ...fyne.CanvasObject) *demonstrationView {
	v := &demonstrationView{show: show, units: sys, look: look, large: large, step: -1}
	l := show.Lesson()
	v.question = wrapped("")
	v.question.TextStyle.Bold = true
	v.question.SizeName = theme.SizeNameHeadingText
	v.fault = wrapped("")
	v.fault.Importance = widget.DangerImportance
	v.chosenPrediction = wrapped("")
	v.chosenPrediction.TextStyle.Italic = true
	v.predictions = container.NewVBox()
	for i, p := range l.Predictions {
		a := newAnswer(fmt.Sprintf("%d   %s", i+1, p.Text), func() { show.Predict(i) })
		a.keys = v.predictionKeys(i)
		if large {
			a.label.SizeName = theme.SizeNameSubHeadingText
		}
		v.answers = append(v.answers, a)
		h := newHandCount(func(by int) { show.Raise(i, by) })
		v.handCounts = append(v.handCounts, h)
		v.predictions.Add(a)
		v.predictions.Add(container.NewHBox(layout.NewSpacer(), h.box))
	}
	v.buildMove(l)
	v.chart = chart.New()
	v.chart.SetLook(look)
	v.chart.SetSource(v.plot)
	for i, n := range l.Numbers {
		t := newTile(n, large)
		t.pick.tapped = func() { show.Trace(i) }
		v.tiles = append(v.tiles, t)
	}
	v.trace = chart.New()
	v.trace.SetLook(look)
	v.trace.SetSource(v.plotTrace)
	v.explanation = container.NewVBox()
	v.buildBar(bar)
	v.layOut()
	return v
}

func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

func bold(text string) *widget.Label {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

func (v *demonstrationView) buildMove(l *lesson.Lesson) {
	v.name = bold(l.Move.Name)
	v.value = bold("")
	settings := v.show.Settings()
	if len(l.Move.Choices) > 0 {
		row := container.NewGridWithColumns(len(settings))
		for i, s := range settings {
			a := newAnswer(s.Show(v.units()), func() { v.show.MoveTo(i) })
			a.keys = v.switchKeys(i)
			v.choices = append(v.choices, a)
			row.Add(a)
		}
		v.move = container.NewBorder(nil, nil, v.name, nil, row)
		return
	}
	v.slider = newSlider(len(settings), func(i int) {
		if !v.updating {
			v.show.MoveTo(i)
		}
	})
	v.slider.keys = v.handleKey
	v.move = container.NewBorder(nil, nil, v.name, container.New(&widest{v.valueTexts}, v.value), v.slider)
}

// valueTexts are all texts that the value of the slider takes.
func (v *demonstrationView) valueTexts() []string {
	var out []string
	for _, s := range v.show.Settings() {
		out = append(out, s.Show(v.units()))
	}
	return out
}

func (v *demonstrationView) buildBar(more []fyne.CanvasObject) {
	v.back = newKeyButton(lang.T("Back"), v.show.Back, v.handleKey)
	v.forward = newKeyButton("", v.show.Forward, v.handleKey)
	v.forward.Importance = widget.HighImportance
	v.stepLabel = widget.NewLabel("")
	v.stepLabel.Importance = widget.LowImportance
	v.box = container.NewStack()
	again := newKeyButton(lang.T("Start over"), v.show.Reset, v.handleKey)
	v.box.Objects = []fyne.CanvasObject{newBar([]fyne.CanvasObject{v.back, v.forward, again, v.stepLabel}, more)}
}

// layOut puts the parts in their places. buildBar has put the bar into the box.
func (v *demonstrationView) layOut() {
	bar := v.box.Objects[0]
	numbers := make([]fyne.CanvasObject, len(v.tiles))
	for i, t := range v.tiles {
		numbers[i] = t.box
	}
	top := container.New(layout.NewCustomPaddedLayout(0, 0, 0, scrollBarRoom), container.NewVBox(v.question, v.fault, v.chosenPrediction, v.move))
	v.numbers = container.New(&tiles{}, numbers...)
	v.scrolled = widgets.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, scrollBarRoom), container.NewVBox(v.predictions, v.numbers, v.explanation)))
	details := container.New(&textsOverTrace{v.scrolled.Content.MinSize, 0.4}, v.scrolled, v.trace)
	chartAndDetails := container.New(&sideBySide{0.6, v.chart, details}, details, v.chart) // the tab key comes to the predictions first
	asked := widgets.NewVScroll(top)
	all := container.New(&halves{top, asked, chartAndDetails, bar, v.sizeQuestion}, asked, chartAndDetails, bar) // the tab key goes down
	v.box.Objects = []fyne.CanvasObject{all}
}

// scrollBarRoom keeps words clear of the scroll bar.
const scrollBarRoom = 16

// refresh shows the Show as it stands.
func (v *demonstrationView) refresh() {
	sys := v.units()
	setText(v.question, v.show.Lesson().Ask(sys))
	fault := ""
	if err := v.show.Fault(); err != nil {
		fault = message.Text(sys, "The house of this demonstration cannot be solved. {why}", "why", err)
	}
	setText(v.fault, fault)
	visible(v.fault, fault != "")
	v.refreshPredictions()
	v.refreshMove(sys)
	v.refreshNumbers(sys)
	v.explain(sys)
	v.refreshBar()
	v.redraw(sys)
	step := v.show.Step()
	visible(v.trace, step == Try)
	visible(v.numbers, !v.large || step == Try)
	v.sizeQuestion()
	if v.step != step {
		v.step = step
		v.scrolled.ScrollToTop()
		v.box.Refresh() // all of it; else the parts see to themselves
	}
}

// sizeQuestion writes the question smaller where the letters are large for the window.
func (v *demonstrationView) sizeQuestion() {
	const lines = 48 // of a window in which it may stand large
	size, c := theme.SizeNameHeadingText, fyne.CurrentApp().Driver().CanvasForObject(v.box)
	if v.large || c != nil && c.Size().Height < lines*v.question.Theme().Size(theme.SizeNameText) {
		size = theme.SizeNameSubHeadingText
	}
	if v.question.SizeName != size {
		v.question.SizeName = size
		v.question.Refresh()
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

func (v *demonstrationView) refreshPredictions() {
	step := v.show.Step()
	for i, a := range v.answers {
		a.set(i == v.show.Predicted(), step != Ask, "", widget.MediumImportance)
		v.handCounts[i].set(v.show.Hands()[i])
	}
	visible(v.predictions, step == Ask)
	text := lang.T("No prediction was made.")
	if p := v.show.Predicted(); p >= 0 {
		text = lang.T("You said: {prediction}", "prediction", v.show.Lesson().Predictions[p].Text)
	}
	setText(v.chosenPrediction, text)
	visible(v.chosenPrediction, step == Try && !v.large)
}

func (v *demonstrationView) refreshMove(sys units.Locale) {
	step, free := v.show.Step(), v.show.Decided()
	at := v.show.Position()
	for i, a := range v.choices {
		a.set(i == at, !free, "", widget.MediumImportance)
	}
	if v.slider != nil {
		v.updating = true
		v.slider.SetValue(float64(at))
		v.updating = false
		if free {
			v.slider.Enable()
		} else {
			v.slider.Disable()
		}
		if settings := v.show.Settings(); at < len(settings) {
			setText(v.value, settings[at].Show(sys))
		}
	}
	visible(v.move, !v.large && step != Ask || v.large && step == Try)
}

func (v *demonstrationView) refreshNumbers(sys units.Locale) {
	start, ok := v.show.Start()
	now, solved := v.show.Now()
	if !ok || !solved {
		return
	}
	for _, t := range v.tiles {
		t.set(start, now, v.show.Step() != Ask, sys)
	}
}

func (v *demonstrationView) refreshBar() {
	step := v.show.Step()
	label := message.ID("Make the move")
	switch {
	case step == Ask && v.show.Predicted() < 0:
		label = "Skip the prediction"
	case step == Try:
		label = "Explain it"
	case step == Explain && v.show.Part() < v.show.parts()-1:
		label = "Go on"
	case step == Explain:
		label = "Next demonstration"
	}
	if text := lang.T(label); v.forward.Text != text {
		v.forward.SetText(text)
	}
	enable(v.forward, step != Explain || v.show.Part() < v.show.parts()-1 || v.show.At() < len(v.show.Items())-1)
	enable(v.back, step != Ask || v.show.At() > 0)
	setText(v.stepLabel, lang.T([]message.ID{"Step 1 of 3: predict", "Step 2 of 3: move", "Step 3 of 3: explain"}[step]))
}

func enable(b *keyButton, yes bool) {
	if yes {
		b.Enable()
	} else {
		b.Disable()
	}
}
