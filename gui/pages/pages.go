// Package pages is the preview of the pages before they are saved or printed:
// proposal, work order, calculations and the others.
package pages

import (
	"context"
	"image/color"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/plots/report"
	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Job() sizing.Job
	Study() *sizing.Study
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	Stale() bool
	Units() units.Locale
}

// Host is what the shell does for the screen.
type Host interface {
	// Origin tells the program's version, the job file's checksum and the date.
	Origin(l units.Locale) (version, checksum, date string)
	// CallIn tells a reader which field of the job a path is.
	CallIn(l units.Locale, path string) string
	// Firm is the profile of the company, kept outside every job.
	Firm() (firm.Profile, error)
	SetFirm(firm.Profile) error
	Paper() report.Paper
	SetPaper(report.Paper)
	Reader
	// CautionsRead says that the person has read the cautions for this job.
	CautionsRead() bool
	ReadCautions()
	// Go runs work away from the window's thread and then done on it.
	Go(work func(context.Context) error, done func(error))
	// JobFile is the job's file, which photos may lie beside; empty: there is none.
	JobFile() string
	Save(p *report.Pages, a report.Audience)
	Print(p *report.Pages, a report.Audience, paper report.Paper)
	OpenFolder()
}

// kinds are what can be printed, and how the window calls them.
var kinds = []struct {
	audience report.Audience
	name     message.ID
}{
	{report.Customer, "Proposal"},
	{report.WorkOrder, "Work order"},
	{report.Working, "Calculations"},
	{report.FieldSheet, "Field sheet"},
}

var papers = map[report.Paper]message.ID{report.Letter: "Letter", report.A4: "A4"}

// PaperName is how the window calls a paper.
func PaperName(p report.Paper) message.ID { return papers[p] }

func paperNames() []string {
	var names []string
	for _, p := range report.Papers() {
		names = append(names, lang.T(papers[p]))
	}
	return names
}

// bestOption is how leaving the choice to the pages is called.
const bestOption message.ID = "the recommended option"

// Screen is the place.
type Screen struct {
	model Model
	desk  Host

	kind, paper *widget.Select
	proposed    *widget.Select
	language    *widget.Select
	preview     *preview
	cautions    *cautions
	company     *company
	editing     bool // the company's profile
	save, print *widget.Button
	own, folder *widget.Button
	note        *widget.Label
	right       *fyne.Container
	object      fyne.CanvasObject

	wanted wish          // the pages that were last asked for
	laid   *report.Pages // nil while they are being laid out, or cannot be
	turn   int           // counts askings, so that a late answer is dropped
	fault  error
	// firmFault tells why the company's profile cannot be read.
	firmFault error

	sampled *sizing.Study // whose ranges are known
	ranges  []sizing.OptionRange
}

// wish is what pages depend on.
type wish struct {
	study    *sizing.Study
	audience report.Audience
	paper    report.Paper
	system   units.Locale // how the pages are read
	proposed string
}

// New makes the screen.
func New(m Model, d Host) *Screen {
	s := &Screen{model: m, desk: d}
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = lang.T(k.name)
	}
	s.kind = widget.NewSelect(names, nil)
	s.kind.Selected = names[0]
	s.paper = widget.NewSelect(paperNames(), nil)
	s.paper.Selected = lang.T(papers[d.Paper()])
	s.language = newLanguageSelect(d, s.Refresh)
	s.proposed = widget.NewSelect(nil, nil)
	s.preview = newPreview(d.Go)
	s.cautions = newCautions(func() {
		d.ReadCautions()
		s.Refresh()
	})
	s.save = widget.NewButton(lang.T("Save ..."), func() { d.Save(s.laid, s.audience()) })
	s.save.Importance = widget.HighImportance
	s.print = widget.NewButton(lang.T("Print"), func() { d.Print(s.laid, s.audience(), s.chosenPaper()) })
	s.company = newCompany(d.SetFirm, func() { s.editing, s.wanted = false, wish{}; s.Refresh() })
	s.own = widget.NewButton(lang.T("Your company ..."), s.editCompany)
	s.folder = widget.NewButton(lang.T("Open the folder"), d.OpenFolder)
	s.note = widget.NewLabel("")
	s.note.Wrapping = fyne.TextWrapWord
	s.right = container.NewStack()
	s.build()
	s.kind.OnChanged = func(string) { s.Refresh() }
	s.paper.OnChanged = func(string) { d.SetPaper(s.chosenPaper()); s.Refresh() }
	s.proposed.OnChanged = func(string) { s.Refresh() }
	s.Refresh()
	return s
}

// leftWidth is the room for the choices.
const leftWidth = 236

func (s *Screen) build() {
	choices := container.NewVBox(
		bold("Pages"), s.kind,
		bold("Option"), s.proposed,
		bold("Paper"), s.paper,
		bold("Language of the pages"), s.language,
		widget.NewSeparator(),
		s.save, s.print, s.own, s.folder,
		s.note)
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(leftWidth, 0))
	left := container.NewStack(room, container.NewVScroll(choices))
	s.object = container.NewBorder(nil, nil, left, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), s.right))
}

// editCompany shows the company's profile in place of the pages.
func (s *Screen) editCompany() {
	s.editing = true
	s.company.fill(s.desk.Firm())
	s.show()
}

func bold(text message.ID) *widget.Label {
	return widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.object }

// First is the choice of pages.
func (s *Screen) First() fyne.Focusable { return s.kind }

// Choose puts the pages for an audience in view.
func (s *Screen) Choose(a report.Audience) {
	for i, k := range kinds {
		if k.audience == a {
			s.kind.SetSelectedIndex(i)
		}
	}
}

func (s *Screen) audience() report.Audience {
	return kinds[max(0, s.kind.SelectedIndex())].audience
}

func (s *Screen) chosenPaper() report.Paper {
	return report.Papers()[max(0, s.paper.SelectedIndex())]
}

// Refresh lays the pages out again where their input has changed.
func (s *Screen) Refresh() {
	s.fillProposed()
	w := wish{s.model.Study(), s.audience(), s.chosenPaper(), s.desk.Reads(s.model.Units()), s.chosenOption()}
	if s.model.Stale() {
		w.study = nil
	}
	if w != s.wanted || w.study == nil {
		s.wanted, s.laid, s.fault = w, nil, nil
		s.turn++
		if w.study != nil {
			s.lay(w, s.turn)
		}
	}
	s.show()
}

// fillProposed offers the options of the job.
func (s *Screen) fillProposed() {
	names := []string{lang.T(bestOption)}
	for _, o := range s.model.Job().Options {
		names = append(names, o.Name)
	}
	if !slices.Equal(names, s.proposed.Options) {
		s.proposed.Options = names
		s.proposed.Refresh()
	}
	if !slices.Contains(names, s.proposed.Selected) {
		s.proposed.Selected = names[0]
		s.proposed.Refresh()
	}
}

// chosenOption is empty where the choice is left to the pages.
func (s *Screen) chosenOption() string {
	if s.proposed.SelectedIndex() <= 0 {
		return ""
	}
	return s.proposed.Selected
}

// lay makes the pages away from the window's thread.
func (s *Screen) lay(w wish, turn int) {
	job := s.model.Job()
	opts := report.Options{For: w.audience, Paper: w.paper, System: w.system, Proposed: w.proposed}
	opts.Version, opts.Checksum, opts.Date = s.desk.Origin(w.system)
	opts.Firm, s.firmFault = s.desk.Firm()
	if file := s.desk.JobFile(); file != "" {
		opts.Folder = filepath.Dir(file)
	}
	if w.audience == report.Working {
		opts.Call = s.calls(w.system, w.study)
	}
	if w.study == s.sampled {
		opts.Ranges = s.ranges
	} else if w.audience == report.Customer || w.audience == report.Working {
		opts.Ranges = s.model.Ranges() // the window takes the same samples
	}
	var pages *report.Pages
	s.desk.Go(func(ctx context.Context) (err error) {
		if (opts.For == report.Customer || opts.For == report.Working) && opts.Ranges == nil {
			// The same samples as the command line takes, so that both give the same page.
			if opts.Ranges, err = sizing.Ranges(ctx, job, sizing.UsualSamples, sizing.UsualSeed, nil); err != nil {
				return err
			}
		}
		pages, err = report.New(job, w.study, opts)
		return err
	}, func(err error) {
		if opts.Ranges != nil {
			s.sampled, s.ranges = w.study, opts.Ranges
		}
		if turn != s.turn {
			return
		}
		s.laid, s.fault = pages, err
		s.show()
	})
}

// calls tells how the window calls the fields of what is assumed. The words are
// looked up now, since the pages are laid out away from the window's thread.
func (s *Screen) calls(l units.Locale, study *sizing.Study) func(path string) string {
	words := map[string]string{}
	for _, a := range study.Assumptions {
		words[a.Path] = s.desk.CallIn(l, a.Path)
	}
	return func(path string) string { return words[path] }
}

// show puts in view what there is: the cautions before a work order, the pages,
// or why there are none.
func (s *Screen) show() {
	locked := s.audience() == report.WorkOrder && !s.desk.CautionsRead()
	ready := s.laid != nil && !locked && !s.editing
	for _, b := range []*widget.Button{s.save, s.print} {
		if ready {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	s.note.SetText(s.words(locked))
	switch {
	case s.editing:
		s.put(s.company.object)
	case locked:
		s.put(s.cautions.object)
	case s.laid != nil:
		s.preview.Show(s.laid)
		s.put(s.preview.object)
	default:
		s.put()
	}
}

func (s *Screen) put(objects ...fyne.CanvasObject) {
	if slices.Equal(s.right.Objects, objects) {
		return
	}
	s.right.Objects = objects
	s.right.Refresh()
}

func (s *Screen) words(locked bool) string {
	switch {
	case locked:
		return lang.T("Before a work order can be saved or printed, read the safety notes.")
	case s.wanted.study == nil:
		return lang.T("There are no pages yet: the job has no result. Fix the fields marked in the forms first.")
	case s.fault != nil:
		return lang.T("The pages cannot be laid out: {fault}", "fault", s.fault)
	case s.laid == nil:
		return lang.T("The pages are being laid out ...")
	}
	warnings := s.laid.Warnings
	if s.firmFault != nil {
		warnings = append(slices.Clip(warnings), lang.T("Your company's profile cannot be read: {fault}", "fault", s.firmFault))
	}
	return strings.Join(warnings, "\n")
}
