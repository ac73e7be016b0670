// Package start is the first screen: capacity, design airflow and target face
// velocity, and beside them the jobs to open or, once a number is entered, the
// suggested sizes.
package start

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/notices"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place.
type Screen struct {
	*form.Form
	model Model
	enter func(place string)

	basis      *widget.Label
	problems   *fyne.Container // problems of the house as it is today
	problemsOf *sizing.Study   // that they were listed of
	title      *widget.Label
	more       *widgets.Button
	answer     *table.Fitted
	places     []*sizing.Size // of the rows of the answer
	add        *widget.Button
	why        *widget.Label // of the chosen size
	name       *widget.Label // of the answer
	head       fyne.CanvasObject

	openList       func() OpenList
	scrolledList   *fyne.Container // what to open, on an empty bench
	unscrolledList *fyne.Container // what they hold
	recent         []string        // as last listed
}

// New makes the screen; openList lists what can be opened, enter leads to another
// place.
func New(m Model, openList func() OpenList, enter func(place string)) *Screen {
	s := &Screen{model: m, openList: openList, enter: enter, scrolledList: container.NewStack(), unscrolledList: container.NewStack()}
	s.basis = widget.NewLabel("")
	s.basis.Wrapping = fyne.TextWrapWord
	s.basis.SizeName = theme.SizeNameCaptionText
	s.problems = container.New(layout.NewCustomPaddedVBoxLayout(0))
	s.title = widget.NewLabelWithStyle(lang.T("Problems today"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	s.more = widgets.NewButton("All problems", func() { enter("findings") })
	s.answer = table.NewFitted(3)
	s.answer.OnSelected = func(int) { s.showVerdict() }
	s.answer.OnActivated = func(int) { s.addChosen() }
	s.add = widget.NewButton(lang.T("Add to Compare"), s.addChosen)
	limits := widget.NewButton(lang.T("Openings and prices"), func() { enter("limits") })
	s.name = widget.NewLabelWithStyle(lang.T("Suggested sizes: the smallest that fit"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	s.name.Truncation = fyne.TextTruncateEllipsis // a wrapped title needs a line for each word until it has its width, and would enlarge the window
	s.why = widget.NewLabel("")
	s.why.Wrapping = fyne.TextWrapWord
	s.why.SizeName = theme.SizeNameCaptionText
	s.head = container.NewVBox(s.name, s.answer.Object(), s.why, widgets.NewFlow(s.add, limits))
	s.Form = form.New(m, func() string { return "" }, s.build)
	s.Refresh()
	return s
}

func (s *Screen) build(b *form.Builder) {
	b.Heading("Three numbers to start with")
	form.Quantity(b, "equipment.cooling_capacity", "Cooling capacity", func(j *sizing.Job) *units.Capacity { return &j.Equipment.CoolingCapacity })
	form.Quantity(b, "design_airflow", "Design airflow", func(j *sizing.Job) *units.Flow { return &j.DesignAirflow }, form.QuantityOptions{Covered: "airflow_per_capacity"})
	form.Quantity(b, "target_face_velocity", "Target face velocity", func(j *sizing.Job) *units.Speed { return &j.TargetFaceVelocity })
	b.Object(s.basis)
	b.Object(s.title)
	b.Object(s.problems)
	b.Object(widgets.NewFlow(s.more))
}

// Head is the answer, above the chart.
func (s *Screen) Head() fyne.CanvasObject { return s.head }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	study, sys := s.model.Study(), s.model.Units()
	s.showBasis(study, sys)
	s.listProblems(study)
	s.Form.Refresh()
	if study == nil {
		s.refreshOpenList()
		s.places = nil
		s.answer.Set(columns(sys), nil)
		s.showVerdict()
		return
	}
	s.places = []*sizing.Size{study.SuggestedSizes.Grille, study.SuggestedSizes.Slot, study.SuggestedSizes.Cabinet}
	names := []message.ID{"Grille with filter", "Filter slot", "Deeper cabinet"}
	rows := make([][]string, len(names))
	for i, size := range s.places {
		rows[i] = s.row(lang.T(names[i]), size, sys)
	}
	if name := lang.T(nameOf(s.places)); s.name.Text != name {
		s.name.SetText(name)
	}
	s.answer.Set(columns(sys), rows)
	s.showVerdict()
}

// nameOf is what sizes are called together: not all of them may fit.
func nameOf(places []*sizing.Size) message.ID {
	there := slices.DeleteFunc(slices.Clone(places), func(z *sizing.Size) bool { return z == nil })
	misses := func(z *sizing.Size) bool { return !z.MeetsAll }
	switch {
	case !slices.ContainsFunc(there, misses):
		return "Suggested sizes: the smallest that fit"
	case slices.ContainsFunc(there, func(z *sizing.Size) bool { return z.MeetsAll }):
		return "Smallest sizes that fit, or the nearest"
	}
	return "No size fits: the nearest ones"
}

// showBasis shows how much of the result is based on assumed values.
func (s *Screen) showBasis(study *sizing.Study, sys units.Locale) {
	text := basisOf(study).In(sys)
	if study != nil {
		if nothing := study.SuggestedSizes.In(sys); nothing != "" {
			text += " " + nothing
		}
	}
	if s.basis.Text != text {
		s.basis.SetText(text)
	}
}

func basisOf(study *sizing.Study) message.Sentences {
	if study == nil {
		return message.Sentences{message.New("The capacity or the airflow is enough. All else is assumed until you enter it, and is marked as assumed.")}
	}
	out := message.Sentences{message.New("Design airflow {airflow} at {velocity}. Needed face: {face}.",
		"airflow", study.DesignAirflow, "velocity", study.TargetFaceVelocity, "face", study.NeededFace)}
	if n := len(study.Assumptions); n > 0 {
		out = append(out, message.New("{count} values are assumed: {share} % of today's external static comes from parts that nobody entered or measured. Problems lists them.",
			"count", n, "share", message.Fixed(100*study.AssumedShare, 0)))
	}
	if study.BlowerAssumed {
		out = append(out, message.New("The blower is assumed."))
	}
	return out
}

// listProblems lists the problems of today's house by name, worst first.
func (s *Screen) listProblems(study *sizing.Study) {
	s.title.Hidden, s.problems.Hidden, s.more.Hidden = study == nil, study == nil, study == nil
	if study == nil || study == s.problemsOf {
		return
	}
	s.problemsOf = study
	s.problems.Objects = nil
	listed := map[string]bool{}
	for _, f := range study.Findings {
		if f.Severity == sizing.Good || f.Problem == "" || f.Option != "" && f.Option != study.Today().Name {
			continue
		}
		words := notices.Title(f.Problem)
		if listed[words] {
			continue
		}
		listed[words] = true
		s.problems.Add(container.NewBorder(nil, nil, container.NewCenter(widgets.NewSeverityIcon(f.Severity)), nil, wrapped(words)))
	}
	if len(listed) == 0 {
		s.problems.Add(wrapped(lang.T("Today's house keeps every limit.")))
	}
	s.problems.Refresh()
}

func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

func columns(sys units.Locale) []table.Column {
	size := sizing.Size{}
	return []table.Column{
		{Title: "Place"}, {Title: "Nominal size", Unit: lang.T("W x H x D")}, {Title: "Fits"},
		{Title: "Face area", Unit: table.Unit(size.FaceArea, sys)},
		{Title: "Face vel.", Term: "Face velocity", Unit: lang.T("{unit}, design", "unit", table.Unit(size.DesignFaceVelocity, sys))},
		{Title: "Filter drop, in a table", Unit: lang.T("{unit}, clean", "unit", table.Unit(size.FilterDrop, sys))},
		{Title: "Airflow", Unit: table.Unit(size.Airflow, sys)},
		{Title: "Filter"},
	}
}

func (s *Screen) row(place string, size *sizing.Size, sys units.Locale) []string {
	if size == nil {
		return []string{place, lang.T("none goes in"), "–", "–", "–", "–", "–", lang.T("see Suggested sizes")}
	}
	return []string{
		place, size.Label, table.YesNo(size.MeetsAll), table.Number(size.FaceArea, sys), table.Number(size.DesignFaceVelocity, sys),
		table.Number(size.FilterDrop, sys), table.Number(size.Airflow, sys), sizing.FilterName(size.Filter).Show(sys),
	}
}

func (s *Screen) chosen() *sizing.Size {
	if i := s.answer.Selected(); i >= 0 && i < len(s.places) {
		return s.places[i]
	}
	return nil
}

// showVerdict shows the limits that the chosen size misses, and the findings of
// the house with it.
func (s *Screen) showVerdict() {
	size := s.chosen()
	if s.why.Hidden = size == nil; s.why.Hidden {
		s.add.Disable()
		return
	}
	s.add.Enable()
	s.why.SetText(table.SizeVerdict(s.model.Study(), size, s.model.Units()))
}

// addChosen makes the chosen size an option to compare.
func (s *Screen) addChosen() {
	size := s.chosen()
	if size == nil {
		return
	}
	s.model.Apply(lang.T("Add {size} to Compare", "size", size.Label), func(j *sizing.Job) { sizing.AddSizeIn(s.model.Units(), j, *size) })
	s.enter("compare")
}
