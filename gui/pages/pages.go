// Package pages is the place where the pages are seen before they are saved or
// printed: for the customer, for the work, and with the working.
package pages

import (
	"context"
	"fmt"
	"image/color"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"returnbench/plots/report"
	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Job() sizing.Job
	Study() *sizing.Study
	Stale() bool
	Units() units.Locale
}

// Desk is what the shell does for the screen.
type Desk interface {
	// Origin tells the program's version, the job file's checksum and the date.
	Origin() (version, checksum, date string)
	// Call tells a person which field of the job a path is.
	Call(path string) string
	// Firm is the profile of the company, kept outside every job.
	Firm() (firm.Profile, error)
	SetFirm(firm.Profile) error
	Paper() report.Paper
	SetPaper(report.Paper)
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
	name     string
}{
	{report.Customer, "Proposal"},
	{report.WorkOrder, "Work order"},
	{report.Working, "Calculations"},
	{report.FieldSheet, "Field sheet"},
}

var papers = map[report.Paper]string{report.Letter: "Letter", report.A4: "A4"}

// bestOption is how leaving the choice to the pages is called.
const bestOption = "the recommended option"

// Screen is the place.
type Screen struct {
	model Model
	desk  Desk

	kind, paper *widget.Select
	proposed    *widget.Select
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
	system   units.Locale
	proposed string
}

// New makes the screen.
func New(m Model, d Desk) *Screen {
	s := &Screen{model: m, desk: d}
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = k.name
	}
	s.kind = widget.NewSelect(names, nil)
	s.kind.Selected = names[0]
	s.paper = widget.NewSelect([]string{papers[report.Letter], papers[report.A4]}, nil)
	s.paper.Selected = papers[d.Paper()]
	s.proposed = widget.NewSelect(nil, nil)
	s.preview = newPreview(d.Go)
	s.cautions = newCautions(func() {
		d.ReadCautions()
		s.Refresh()
	})
	s.save = widget.NewButton("Save ...", func() { d.Save(s.laid, s.audience()) })
	s.save.Importance = widget.HighImportance
	s.print = widget.NewButton("Print", func() { d.Print(s.laid, s.audience(), s.chosenPaper()) })
	s.company = newCompany(d.SetFirm, func() { s.editing, s.wanted = false, wish{}; s.Refresh() })
	s.own = widget.NewButton("Your company ...", s.editCompany)
	s.folder = widget.NewButton("Open the folder", d.OpenFolder)
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

func bold(text string) *widget.Label {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.object }

// First is the choice of pages.
func (s *Screen) First() fyne.Focusable { return s.kind }

// Choose puts the pages for an audience in view.
func (s *Screen) Choose(a report.Audience) {
	for _, k := range kinds {
		if k.audience == a {
			s.kind.SetSelected(k.name)
		}
	}
}

func (s *Screen) audience() report.Audience {
	for _, k := range kinds {
		if k.name == s.kind.Selected {
			return k.audience
		}
	}
	return report.Customer
}

func (s *Screen) chosenPaper() report.Paper {
	if s.paper.Selected == papers[report.A4] {
		return report.A4
	}
	return report.Letter
}

// Refresh lays the pages out anew where what they rest on has changed.
func (s *Screen) Refresh() {
	s.fillProposed()
	w := wish{s.model.Study(), s.audience(), s.chosenPaper(), s.model.Units(), s.proposed.Selected}
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
	names := []string{bestOption}
	for _, o := range s.model.Job().Options {
		names = append(names, o.Name)
	}
	if !slices.Equal(names, s.proposed.Options) {
		s.proposed.Options = names
		s.proposed.Refresh()
	}
	if !slices.Contains(names, s.proposed.Selected) {
		s.proposed.Selected = bestOption
		s.proposed.Refresh()
	}
}

// lay makes the pages away from the window's thread.
func (s *Screen) lay(w wish, turn int) {
	job := s.model.Job()
	opts := report.Options{For: w.audience, Paper: w.paper, System: w.system}
	opts.Version, opts.Checksum, opts.Date = s.desk.Origin()
	opts.Firm, s.firmFault = s.desk.Firm()
	if file := s.desk.JobFile(); file != "" {
		opts.Folder = filepath.Dir(file)
	}
	if w.audience == report.Working {
		opts.Call = s.calls(w.study)
	}
	if w.proposed != bestOption {
		opts.Proposed = w.proposed
	}
	if w.study == s.sampled {
		opts.Ranges = s.ranges
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
func (s *Screen) calls(study *sizing.Study) func(path string) string {
	words := map[string]string{}
	for _, a := range study.Assumptions {
		words[a.Path] = s.desk.Call(a.Path)
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
		return "Before a work order can be saved or printed, read the safety notes."
	case s.wanted.study == nil:
		return "There are no pages yet: the job has no result. Fix the fields marked in the forms first."
	case s.fault != nil:
		return fmt.Sprintf("The pages cannot be laid out: %v", s.fault)
	case s.laid == nil:
		return "The pages are being laid out ..."
	}
	warnings := s.laid.Warnings
	if s.firmFault != nil {
		warnings = append(slices.Clip(warnings), fmt.Sprintf("Your company's profile cannot be read: %v", s.firmFault))
	}
	return strings.Join(warnings, "\n")
}
