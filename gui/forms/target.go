package forms

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// TargetModel is what the form needs of the session.
type TargetModel interface {
	Job() sizing.Job
	Study() *sizing.Study
	Units() units.Locale
	Apply(name string, change func(*sizing.Job))
}

// Target is the place of the upgrade finder: the person types an airflow, and
// changes that reach it are searched.
type Target struct {
	model  TargetModel
	search *search
	enter  func(place string)

	asked units.Flow // zero: the design airflow
	of    *sizing.Study
	got   *sizing.UpgradeSearch
	fault string

	field  *fields.Quantity
	cancel *widget.Button
	bar    *widget.ProgressBar
	busy   *fyne.Container
	says   *widget.Label
	ways   *table.Fitted
	short  *table.Fitted
	levers *table.Fitted
	none   *widget.Label
	why    *widget.Label
	add    *widget.Button
	box    fyne.CanvasObject
}

// NewTarget makes the form; enter leads to another place.
func NewTarget(m TargetModel, tasks *session.Tasks, enter func(place string)) *Target {
	s := &Target{model: m, enter: enter}
	s.search = &search{tasks: tasks, reach: sizing.FindUpgrades, began: s.began, part: s.progress, ended: s.take}
	s.field = fields.NewQuantity(fields.QuantityOptions{
		Label: lang.T("Target airflow"), Kind: units.Flow(0).Kind(), Hint: lang.T("the design airflow"),
		Get:  func() float64 { return s.asked.SI() },
		Set:  func(si float64) { s.asked = units.Flow(si); s.ask() },
		Unit: m.Units,
	})
	s.bar = widget.NewProgressBar()
	s.cancel = widget.NewButton(lang.T("Cancel"), s.Cancel)
	s.busy = container.NewBorder(nil, nil, nil, s.cancel, s.bar)
	s.says, s.why, s.none = wrapped(), wrapped(), wrapped()
	s.ways, s.short, s.levers = table.NewFitted(24), table.NewFitted(24), table.NewFitted(12) // the place scrolls
	s.ways.OnSelected = func(int) { s.short.Select(-1); s.tellChosen() }
	s.short.OnSelected = func(int) { s.ways.Select(-1); s.tellChosen() }
	s.ways.OnActivated = func(int) { s.Add() }
	s.short.OnActivated = func(int) { s.Add() }
	s.add = widget.NewButton(lang.T("Add to Compare"), s.Add)
	s.box = s.lay()
	s.Refresh()
	return s
}

func wrapped() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

func bold(text message.ID) *widget.Label {
	return widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

func (s *Target) lay() fyne.CanvasObject {
	field := container.NewGridWrap(fyne.NewSize(420, s.field.Object().MinSize().Height), s.field.Object())
	top := container.NewVBox(bold("What does it take to reach an airflow?"), container.NewBorder(nil, nil, field, nil, s.busy), s.says)
	limits := widget.NewButton(lang.T("Openings and prices"), func() { s.enter("limits") })
	lists := container.NewVBox(
		widgets.NewFlow(bold("Reaches it: least ten-year cost first"), limits, s.add),
		s.ways.Object(), s.none, s.why,
		bold("Falls short"), s.short.Object(),
		bold("Required drop if only this part changes"), s.levers.Object())
	return container.NewBorder(top, nil, nil, nil, widgets.NewVScroll(lists))
}

// Object is the screen.
func (s *Target) Object() fyne.CanvasObject { return s.box }

// First is the airflow.
func (s *Target) First() fyne.Focusable { return s.field.Focusable() }

// Refresh asks again where the Study is another, and shows the answer in the
// units in use.
func (s *Target) Refresh() {
	s.field.Refresh()
	if study := s.model.Study(); study != s.of {
		s.of = study
		s.ask()
		return
	}
	s.show()
}

// target is the airflow asked for, zero where there is none yet.
func (s *Target) target() units.Flow {
	if s.asked == 0 && s.of != nil {
		return s.of.DesignAirflow
	}
	return s.asked
}

// ask begins the search; a running one is cancelled.
func (s *Target) ask() {
	s.got, s.fault = nil, ""
	if s.of == nil {
		s.search.stop()
		s.show()
		return
	}
	s.search.start(s.model.Job(), s.target())
}

// Close cancels a search when the screen is closed.
func (s *Target) Close() { s.search.stop() }

// Cancel ends the search.
func (s *Target) Cancel() {
	s.search.stop()
	s.fault = lang.T("Cancelled. Type an airflow to search again.")
	s.show()
}

func (s *Target) began() { s.show() }

func (s *Target) progress(part float64) {
	s.bar.SetValue(part)
	s.show()
}

func (s *Target) take(got *sizing.UpgradeSearch, err error) {
	s.got, s.fault = got, ""
	if err != nil {
		s.fault = message.Text(s.model.Units(), "It cannot be tried: {why}", "why", err)
	}
	s.show()
}

// Add makes the chosen answer an option to compare.
func (s *Target) Add() {
	w := s.chosen()
	if w == nil {
		return
	}
	way := *w
	s.model.Apply(message.Text(s.model.Units(), "Add {change} to Compare", "change", way.In(s.model.Units())), func(j *sizing.Job) { sizing.AddUpgradeIn(s.model.Units(), j, way) })
	s.enter("compare")
}

// Choose puts the i-th answer in view.
func (s *Target) Choose(i int) { s.ways.Select(i) }

func (s *Target) chosen() *sizing.Upgrade {
	if s.got == nil {
		return nil
	}
	for _, list := range []struct {
		at   int
		ways []sizing.Upgrade
	}{{s.ways.Selected(), s.got.Upgrades}, {s.short.Selected(), s.got.FallShort}} {
		if list.at >= 0 && list.at < len(list.ways) {
			return &list.ways[list.at]
		}
	}
	return nil
}

// tellChosen shows why the chosen upgrade is judged as it is.
func (s *Target) tellChosen() {
	w := s.chosen()
	text := lang.T("Choose a row to see its verdict, and to put it beside today.")
	if w != nil {
		text = message.Text(s.model.Units(), "{change}: {why}", "change", w.In(s.model.Units()), "why", why(w))
		s.add.Enable()
	} else {
		s.add.Disable()
	}
	if s.why.Text != text {
		s.why.SetText(text)
	}
}

// why is the worst finding, or the verdict in words, unwritten.
func why(w *sizing.Upgrade) any {
	if len(w.Result.Findings) > 0 {
		return w.Result.Findings[0]
	}
	return w.Result.Why
}

// reachFunc is the engine's search.
type reachFunc func(context.Context, sizing.Job, units.Flow, func(float64)) (*sizing.UpgradeSearch, error)
