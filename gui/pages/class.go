package pages

import (
	"context"
	"fmt"
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/plots/report"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// ClassModel is what the class sheet needs of the session.
type ClassModel interface{ Units() units.Locale }

// ClassHost is what the shell does for the class sheet.
type ClassHost interface {
	Origin(l units.Locale) (version, checksum, date string)
	Paper() report.Paper
	SetPaper(report.Paper)
	Reader
	// Demonstrations are those of the class, and which is in view.
	Demonstrations() (list []lesson.Lesson, at int)
	Go(work func(context.Context) error, done func(error))
	Save(p *report.Pages, a report.Audience)
	Print(p *report.Pages, a report.Audience, paper report.Paper)
}

// Class is the place of the sheet of a demonstration: its question and empty axes
// on the front, the answer on the back.
type Class struct {
	model ClassModel
	desk  ClassHost

	chosen, paper *widget.Select
	language      *widget.Select
	preview       *preview
	save, print   *widget.Button
	note          *widget.Label
	right         *fyne.Container
	object        fyne.CanvasObject

	list   []lesson.Lesson
	wanted classWish
	laid   *report.Pages
	turn   int
	fault  error
}

type classWish struct {
	at     int
	title  string
	paper  report.Paper
	system units.Locale // how the sheet is read
}

// NewClass makes the screen.
func NewClass(m ClassModel, d ClassHost) *Class {
	c := &Class{model: m, desk: d, preview: newPreview(d.Go), wanted: classWish{at: -1}}
	c.chosen = widget.NewSelect(nil, nil)
	c.paper = widget.NewSelect(paperNames(), nil)
	c.paper.Selected = lang.T(PaperName(d.Paper()))
	c.language = newLanguageSelect(d, c.Refresh)
	c.save = widget.NewButton(lang.T("Save ..."), func() { d.Save(c.laid, report.ClassSheet) })
	c.save.Importance = widget.HighImportance
	c.print = widget.NewButton(lang.T("Print"), func() { d.Print(c.laid, report.ClassSheet, c.chosenPaper()) })
	c.note = widget.NewLabel("")
	c.note.Wrapping = fyne.TextWrapWord
	c.right = container.NewStack()
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(leftWidth, 0))
	choices := container.NewVBox(bold("Demonstration"), c.chosen, bold("Paper"), c.paper, bold("Language of the pages"), c.language, widget.NewSeparator(), c.save, c.print, c.note)
	left := container.NewStack(room, container.NewVScroll(choices))
	c.object = container.NewBorder(nil, nil, left, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), c.right))
	var at int
	c.list, at = d.Demonstrations()
	c.fill()
	c.chosen.SetSelectedIndex(at)
	c.chosen.OnChanged = func(string) { c.Refresh() }
	c.paper.OnChanged = func(string) { d.SetPaper(c.chosenPaper()); c.Refresh() }
	c.Refresh()
	return c
}

func (c *Class) fill() {
	names := make([]string, len(c.list))
	for i, l := range c.list {
		names[i] = fmt.Sprintf("%d  %s", i+1, l.Title)
	}
	if !slices.Equal(names, c.chosen.Options) {
		c.chosen.Options = names
		c.chosen.Refresh()
	}
}

// Object is the screen.
func (c *Class) Object() fyne.CanvasObject { return c.object }

// First is the choice of demonstration.
func (c *Class) First() fyne.Focusable { return c.chosen }

func (c *Class) chosenPaper() report.Paper {
	return report.Papers()[max(0, c.paper.SelectedIndex())]
}

// Refresh lays the sheet out again where its input has changed.
func (c *Class) Refresh() {
	c.list, _ = c.desk.Demonstrations()
	c.fill()
	at := c.chosen.SelectedIndex()
	if at < 0 || at >= len(c.list) {
		c.laid, c.fault = nil, nil
		c.show()
		return
	}
	w := classWish{at, c.list[at].Title, c.chosenPaper(), c.desk.Reads(c.model.Units())}
	if w != c.wanted {
		c.wanted, c.laid, c.fault = w, nil, nil
		c.turn++
		c.lay(w, c.list[at].Clone(), c.turn)
	}
	c.show()
}

func (c *Class) lay(w classWish, l lesson.Lesson, turn int) {
	opts := report.Options{Paper: w.paper, System: w.system}
	opts.Version, _, opts.Date = c.desk.Origin(w.system)
	var pages *report.Pages
	c.desk.Go(func(context.Context) error {
		outcome, err := l.Run(sizing.Solve)
		if err == nil {
			pages, err = report.NewClass(outcome, opts)
		}
		return err
	}, func(err error) {
		if turn == c.turn {
			c.laid, c.fault = pages, err
			c.show()
		}
	})
}

func (c *Class) show() {
	for _, b := range []*widget.Button{c.save, c.print} {
		if c.laid != nil {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	var objects []fyne.CanvasObject
	switch {
	case c.fault != nil:
		c.note.SetText(lang.T("The sheet cannot be laid out: {fault}", "fault", c.fault))
	case c.laid == nil:
		c.note.SetText(lang.T("The sheet is being laid out ..."))
	default:
		c.note.SetText(strings.Join(append([]string{lang.T("Print on both sides: the question is on the front, the answer on the back.")}, c.laid.Warnings...), "\n"))
		c.preview.Show(c.laid)
		objects = []fyne.CanvasObject{c.preview.object}
	}
	if !slices.Equal(c.right.Objects, objects) {
		c.right.Objects = objects
		c.right.Refresh()
	}
}
