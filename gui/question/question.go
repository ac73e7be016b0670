// Package question is first sight: tonnage, design airflow and target face
// velocity, and beside them the sizes that answer.
package question

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/notices"
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place.
type Screen struct {
	*form.Form
	model Model
	enter func(place string)

	rests  *widget.Label
	says   *notices.FindingList // of the house as it is today
	title  *widget.Label
	more   *widget.Label
	answer *table.Fitted
	places []*sizing.Size // of the rows of the answer
	add    *widget.Button
	why    *widget.Label // of the chosen size
	head   fyne.CanvasObject
}

// New makes the screen; enter leads to another place.
func New(m Model, enter func(place string)) *Screen {
	s := &Screen{model: m, enter: enter}
	s.rests = widget.NewLabel("")
	s.rests.Wrapping = fyne.TextWrapWord
	s.rests.SizeName = theme.SizeNameCaptionText
	s.says = notices.NewFindingList()
	s.title = widget.NewLabelWithStyle("The house as it is today", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	s.more = widget.NewLabel("")
	s.answer = table.NewFitted(3)
	s.answer.OnSelected = func(int) { s.tellChosen() }
	s.answer.OnActivated = func(int) { s.addChosen() }
	s.add = widget.NewButton("Add to Compare", s.addChosen)
	title := widget.NewLabelWithStyle("The answer: the smallest nominal sizes that fit the limits", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.Truncation = fyne.TextTruncateEllipsis // wrapped, it asks for a line a word before it has its width, and the window grows
	s.why = widget.NewLabel("")
	s.why.Wrapping = fyne.TextWrapWord
	s.why.SizeName = theme.SizeNameCaptionText
	s.head = container.NewVBox(container.NewBorder(nil, nil, nil, container.NewCenter(s.add), title), s.answer.Object(), s.why)
	s.Form = form.New(m, func() string { return "" }, s.build)
	s.Refresh()
	return s
}

func (s *Screen) build(b *form.Builder) {
	b.Heading("The question")
	form.Quantity(b, "equipment.cooling_capacity", "Cooling capacity", func(j *sizing.Job) *units.Capacity { return &j.Equipment.CoolingCapacity })
	form.Quantity(b, "design_airflow", "Design airflow", func(j *sizing.Job) *units.Flow { return &j.DesignAirflow }, form.QuantityLook{Covered: "airflow_per_capacity"})
	form.Quantity(b, "target_face_velocity", "Target face velocity", func(j *sizing.Job) *units.Speed { return &j.TargetFaceVelocity })
	b.Object(s.rests)
	b.Object(s.title)
	b.Object(s.says)
	b.Object(s.more)
}

// Head is the answer, above the picture.
func (s *Screen) Head() fyne.CanvasObject { return s.head }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	study, sys := s.model.Study(), s.model.Units()
	s.restOn(study, sys)
	s.tellToday(study, sys)
	s.Form.Refresh()
	if study == nil {
		s.places = nil
		s.answer.Set(columns(sys), nil)
		s.tellChosen()
		return
	}
	s.places = []*sizing.Size{study.Answer.Grille, study.Answer.Slot, study.Answer.Cabinet}
	names := []string{"Grille with filter", "Filter slot", "Deeper cabinet"}
	rows := make([][]string, len(names))
	for i, size := range s.places {
		rows[i] = s.row(names[i], size, sys)
	}
	s.answer.Set(columns(sys), rows)
	s.tellChosen()
}

// restOn tells how much of the answer rests on what nobody typed.
func (s *Screen) restOn(study *sizing.Study, sys units.System) {
	text := "Tonnage or airflow is enough; all else is assumed, said to be so, and replaced by what you type in the other places."
	if study != nil {
		text = fmt.Sprintf("%s at %s. Needed face: %s.", study.DesignAirflow.Show(sys), study.TargetFaceVelocity.Show(sys), study.NeededFace.Show(sys))
		if n := len(study.Assumptions); n > 0 {
			values := fmt.Sprintf("%d values are", n)
			if n == 1 {
				values = "1 value is"
			}
			text += fmt.Sprintf(" %s assumed: %.0f %% of today's external static comes from parts nobody typed or measured. Each further fact sharpens the answer; Findings lists them.", values, 100*study.AssumedShare)
		}
		if study.BlowerAssumed {
			text += " The blower is a generic one."
		}
		if nothing := study.Answer.In(sys); nothing != "" {
			text += " " + nothing
		}
	}
	if s.rests.Text != text {
		s.rests.SetText(text)
	}
}

// tellToday lists what the engine has to say of today's house.
func (s *Screen) tellToday(study *sizing.Study, sys units.System) {
	s.title.Hidden, s.says.Hidden = study == nil, study == nil
	if study == nil {
		s.more.Hide()
		return
	}
	var today []sizing.Finding
	for _, f := range study.Findings {
		if f.Option == "" || f.Option == study.Today().Name {
			today = append(today, f)
		}
	}
	s.says.Set(today[:min(len(today), mostSaid)], sys)
	more := ""
	if n := len(today) - mostSaid; n > 0 {
		more = fmt.Sprintf("And %d more in Findings.", n)
	}
	s.more.SetText(more)
	s.more.Hidden = more == ""
}

// mostSaid is how many findings first sight has room for.
const mostSaid = 4

func columns(sys units.System) []table.Column {
	size := sizing.Size{}
	return []table.Column{
		{Title: "Place"}, {Title: "Nominal size", Unit: "W x H x D"}, {Title: "Fits", Unit: "the limits"}, {Title: "Verdict", Unit: "with it in"},
		{Title: "Face area", Unit: table.Unit(size.FaceArea, sys)},
		{Title: "Face vel.", Unit: table.Unit(size.DesignFaceVelocity, sys) + ", design"},
		{Title: "Filter drop", Unit: table.Unit(size.FilterDrop, sys) + ", clean"},
		{Title: "Airflow", Unit: table.Unit(size.Airflow, sys)},
		{Title: "Filter"},
	}
}

func (s *Screen) row(place string, size *sizing.Size, sys units.System) []string {
	if size == nil {
		return []string{place, "none goes in", "–", "–", "–", "–", "–", "–", "see Sizes"}
	}
	verdict := ""
	if with, err := s.model.Study().With(*size); err == nil {
		verdict = string(with.Verdict)
	}
	return []string{
		place, size.Label, table.YesNo(size.Meets), verdict, table.Number(size.FaceArea, sys), table.Number(size.DesignFaceVelocity, sys),
		table.Number(size.FilterDrop, sys), table.Number(size.Airflow, sys), size.Filter,
	}
}

func (s *Screen) chosen() *sizing.Size {
	if i := s.answer.Selected(); i >= 0 && i < len(s.places) {
		return s.places[i]
	}
	return nil
}

// tellChosen says what the chosen size misses, and what the house with it is
// judged by.
func (s *Screen) tellChosen() {
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
	s.model.Apply("Add "+size.Label+" to Compare", func(j *sizing.Job) { sizing.AddSize(j, *size) })
	s.enter("compare")
}
