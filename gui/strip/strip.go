package strip

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Content is all that the strip shows.
type Content struct {
	Figures  []Figure
	Dim      bool            // the figures are older than the job
	Severity sizing.Severity // of the sentence; empty: no mark
	Sentence string
	Short    string // the sentence in fewer words, with all of what to do; empty: there is none
	Why      string // why the proposal is the one; empty: nothing is proposed
	Choices  []string
	Chosen   string // of the choices; empty: none
	Action   string // what the button does; empty: there is none
}

// Strip is the widget.
type Strip struct {
	// OnChosen is called with the choice taken, OnAction when the button is
	// pressed.
	OnChosen func(choice string)
	OnAction func()

	content  Content
	cells    []*cell
	pick     *widgets.Select
	action   *widgets.Button
	mark     *widgets.SeverityIcon
	sentence *widgets.Lines
	why      *widgets.Lines
	rule     *widget.Separator
	box      *fyne.Container
	layout   *plan
	quiet    bool
}

// usual are figures of ordinary width.
func usual(l units.Locale) []Figure {
	figure := func(long, short message.ID, limit, before, after string) Figure {
		return Figure{Title: message.Text(l, long, "limit", limit), Short: message.Text(l, short, "limit", limit), Before: before, After: after}
	}
	return []Figure{
		figure("Airflow, of {limit}", "Airflow, of {limit}", "0000 cfm", "0000", "0000"),
		figure("External static, of {limit}", "Static, of {limit}", "0.000 in. w.c.", "0.000", "0.000"),
		figure("Blower power, {limit}", "Power, {limit}", "W", "0000", "0000"),
		figure(changesTitle, changesTitle, "", "00.0", "00.0"),
		figure(costTitle, costTitle, "", "$00,000", message.Text(l, notKnown)),
	}
}

// New makes an empty strip.
func New() *Strip {
	s := &Strip{rule: widget.NewSeparator(), mark: widgets.NewSeverityIcon(sizing.Caution)}
	s.sentence = widgets.NewLines(4, theme.SizeNameText, theme.ColorNameForeground, false)
	s.why = widgets.NewLines(1, theme.SizeNameCaptionText, theme.ColorNamePlaceHolder, false)
	s.pick = widgets.NewSelect(nil, func(choice string) {
		if !s.quiet && s.OnChosen != nil {
			s.OnChosen(choice)
		}
	})
	s.pick.PlaceHolder = lang.T("Choose an option")
	s.action = widgets.NewButton("", func() {
		if s.OnAction != nil {
			s.OnAction()
		}
	})
	var objects []fyne.CanvasObject
	for _, f := range usual(lang.Locale()) {
		c := newCell(f)
		s.cells = append(s.cells, c)
		objects = append(objects, c)
	}
	s.layout = &plan{s: s}
	s.box = container.New(s.layout, append(objects, s.pick, s.action, s.mark, s.sentence, s.why, s.rule)...)
	return s
}

// Object is what a window holds.
func (s *Strip) Object() *fyne.Container { return s.box }

// Content is what the strip shows.
func (s *Strip) Content() Content { return s.content }

// SentenceShown is the sentence, or its short form where there is no room for it.
func (s *Strip) SentenceShown() string { return s.sentence.Shown() }

// SentenceCut reports whether a part of the sentence is not shown.
func (s *Strip) SentenceCut() bool { return s.sentence.Cut() }

// WhyCut reports whether a part of the reason is not shown.
func (s *Strip) WhyCut() bool { return s.why.Visible() && s.why.Cut() }

// Press presses the button.
func (s *Strip) Press() { s.action.OnTapped() }

// Choose takes one of the choices, as from the list.
func (s *Strip) Choose(choice string) { s.pick.SetSelected(choice) }

// Set shows something else.
func (s *Strip) Set(c Content) {
	was := s.content
	s.content = c
	for i, cell := range s.cells {
		cell.set(c.Figures[i], c.Dim)
	}
	s.sentence.SetOr(c.Sentence, c.Short, theme.ColorNameForeground)
	s.why.Set(c.Why, theme.ColorNamePlaceHolder)
	s.mark.Set(c.Severity)
	if s.action.Text != c.Action {
		s.action.SetText(c.Action)
	}
	s.quiet = true
	if !slices.Equal(s.pick.Options, c.Choices) {
		s.pick.SetOptions(c.Choices)
	}
	if s.pick.Selected != c.Chosen {
		s.pick.Selected = c.Chosen
		s.pick.Refresh()
	}
	s.quiet = false
	setVisible(s.mark, c.Severity != "")
	setVisible(s.action, c.Action != "")
	setVisible(s.pick, len(c.Choices) > 0)
	if was.Action != c.Action || was.Sentence != c.Sentence || was.Short != c.Short || was.Why != c.Why || !slices.Equal(was.Figures, c.Figures) || (was.Severity == "") != (c.Severity == "") {
		s.box.Refresh() // the cells share the width again
	}
}

func setVisible(o fyne.CanvasObject, visible bool) {
	switch {
	case visible && !o.Visible():
		o.Show()
	case !visible && o.Visible():
		o.Hide()
	}
}
