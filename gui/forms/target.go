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

	typed  units.Flow // zero: the design airflow
	study  *sizing.Study
	result *sizing.UpgradeSearch
	fault  string

	field         *fields.Quantity
	cancel        *widget.Button
	bar           *widget.ProgressBar
	busy          *fyne.Container
	status        *widget.Label
	reaching      *table.Fitted
	fallShort     *table.Fitted
	requiredDrops *table.Fitted
	none          *widget.Label
	why           *widget.Label
	add           *widget.Button
	box           fyne.CanvasObject
}

// NewTarget makes the form; enter leads to another place.
func NewTarget(m TargetModel, tasks *session.Tasks, enter func(place string)) *Target {
	s := &Target{model: m, enter: enter}
	s.search = &search{tasks: tasks, reach: sizing.FindUpgrades, began: s.began, part: s.progress, ended: s.receive}
	s.field = fields.NewQuantity(fields.QuantityOptions{
		Label: lang.T("Target airflow"), Kind: units.Flow(0).Kind(), Hint: lang.T("the design airflow"),
		Get:  func() float64 { return s.typed.SI() },
		Set:  func(si float64) { s.typed = units.Flow(si); s.startSearch() },
		Unit: m.Units,
	})
	s.bar = widget.NewProgressBar()
	s.cancel = widget.NewButton(lang.T("Cancel"), s.Cancel)
	s.busy = container.NewBorder(nil, nil, nil, s.cancel, s.bar)
	s.status, s.why, s.none = wrapped(), wrapped(), wrapped()
	s.reaching, s.fallShort, s.requiredDrops = table.NewFitted(24), table.NewFitted(24), table.NewFitted(12) // the place scrolls
	s.reaching.OnSelected = func(int) { s.fallShort.Select(-1); s.showVerdict() }
	s.fallShort.OnSelected = func(int) { s.reaching.Select(-1); s.showVerdict() }
	s.reaching.OnActivated = func(int) { s.Add() }
	s.fallShort.OnActivated = func(int) { s.Add() }
	s.add = widget.NewButton(lang.T("Add to Compare"), s.Add)
	s.box = s.layOut()
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

func (s *Target) layOut() fyne.CanvasObject {
	field := container.NewGridWrap(fyne.NewSize(420, s.field.Object().MinSize().Height), s.field.Object())
	top := container.NewVBox(bold("What does it take to reach an airflow?"), container.NewBorder(nil, nil, field, nil, s.busy), s.status)
	limits := widget.NewButton(lang.T("Openings and prices"), func() { s.enter("limits") })
	lists := container.NewVBox(
		widgets.NewFlow(bold("Reaches it: least ten-year cost first"), limits, s.add),
		s.reaching.Object(), s.none, s.why,
		bold("Falls short"), s.fallShort.Object(),
		bold("Required drop if only this part changes"), s.requiredDrops.Object())
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
	if study := s.model.Study(); study != s.study {
		s.study = study
		s.startSearch()
		return
	}
	s.show()
}

// target is the airflow asked for, zero where there is none yet.
func (s *Target) target() units.Flow {
	if s.typed == 0 && s.study != nil {
		return s.study.DesignAirflow
	}
	return s.typed
}

// startSearch begins the search; a running one is cancelled.
func (s *Target) startSearch() {
	s.result, s.fault = nil, ""
	if s.study == nil {
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

func (s *Target) receive(result *sizing.UpgradeSearch, err error) {
	s.result, s.fault = result, ""
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
	upgrade := *w
	s.model.Apply(message.Text(s.model.Units(), "Add {change} to Compare", "change", upgrade.In(s.model.Units())), func(j *sizing.Job) { sizing.AddUpgradeIn(s.model.Units(), j, upgrade) })
	s.enter("compare")
}

// Choose puts the i-th answer in view.
func (s *Target) Choose(i int) { s.reaching.Select(i) }

func (s *Target) chosen() *sizing.Upgrade {
	if s.result == nil {
		return nil
	}
	for _, list := range []struct {
		at       int
		upgrades []sizing.Upgrade
	}{{s.reaching.Selected(), s.result.Upgrades}, {s.fallShort.Selected(), s.result.FallShort}} {
		if list.at >= 0 && list.at < len(list.upgrades) {
			return &list.upgrades[list.at]
		}
	}
	return nil
}

// showVerdict shows why the chosen upgrade is judged as it is.
func (s *Target) showVerdict() {
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
