package gui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
	"github.com/google/renameio/v2/maybe"

	"returnbench/plots/report"
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/units"
)

// pages are what can be printed, and how the menu calls them.
var pages = []struct {
	audience report.Audience
	label    string
}{
	{report.Customer, "Page for the customer ..."},
	{report.WorkOrder, "Work order ..."},
	{report.Working, "The working ..."},
}

// askPages shows the cautions before anything that leads to work on the
// equipment, then asks where the pages are to go.
func (b *Bench) askPages(audience report.Audience, label string) {
	study := b.session.Study()
	if study == nil || b.session.Stale() {
		b.tell("No pages yet", errors.New("the job has no result, or not yet; put right what the banner names first"))
		return
	}
	if audience != report.WorkOrder {
		b.askPagesFile(audience, label)
		return
	}
	text := widget.NewLabel(strings.Join(export.Cautions(), "\n\n"))
	text.Wrapping = fyne.TextWrapWord
	b.show("Before any work on the equipment", container.NewVScroll(text), fyne.NewSize(760, 460),
		answer{"I have read this", func() { b.askPagesFile(audience, label) }},
		answer{"Cancel", nil})
}

// bestOption is how leaving the choice to the pages is called.
const bestOption = "the best of the job"

func (b *Bench) askPagesFile(audience report.Audience, label string) {
	names := []string{bestOption}
	for _, o := range b.session.Job().Options {
		names = append(names, o.Name)
	}
	proposed := widget.NewSelect(names, nil)
	proposed.SetSelectedIndex(0)
	paper := widget.NewSelect([]string{string(report.Letter), string(report.A4)}, nil)
	paper.SetSelected(string(b.usualPaper()))
	q := pathQuestion{
		title: strings.TrimSuffix(label, " ..."), name: fmt.Sprintf("%s %s.pdf", b.plainName(), audience), suffix: ".pdf",
		more: []fyne.CanvasObject{container.New(layout.NewFormLayout(), widget.NewLabel("Proposes"), proposed, widget.NewLabel("Paper"), paper)},
	}
	b.askPath(q, func(path string) {
		opts := report.Options{For: audience, Paper: report.Paper(paper.Selected), System: b.session.Units(), Date: time.Now().Format(time.DateOnly)}
		if proposed.Selected != bestOption {
			opts.Proposed = proposed.Selected
		}
		b.writePages(path, opts)
	})
}

func (b *Bench) usualPaper() report.Paper {
	if b.session.Units() == units.SI {
		return report.A4
	}
	return report.Letter
}

const (
	rangeSamples = 100
	rangeSeed    = 1
)

// writePages lays the pages out and writes them away from the window's thread.
func (b *Bench) writePages(path string, opts report.Options) {
	job, study := b.session.Job(), b.session.Study()
	var err error
	var warnings []string
	b.run(func() {
		var laid *report.Pages
		if opts.For == report.Customer {
			// The same samples as the command line takes, so that both give the
			// same page.
			if opts.Ranges, err = sizing.Ranges(context.Background(), job, rangeSamples, rangeSeed, nil); err != nil {
				return
			}
		}
		if laid, err = report.New(job, study, opts); err != nil {
			return
		}
		var data bytes.Buffer
		if err = laid.Write(&data); err == nil {
			warnings = laid.Warnings
			err = maybe.WriteFile(path, data.Bytes(), 0o644)
		}
	}, func() {
		if err != nil {
			b.tell(filepath.Base(path)+" cannot be written", err)
			return
		}
		b.ask("The pages are written", strings.Join(append([]string{path}, warnings...), "\n"), answer{"Close", nil})
	})
}
