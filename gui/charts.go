package gui

import (
	"context"
	"path/filepath"
	"strings"

	"returnbench/plots"
	"returnbench/sizing/message"
)

// errNoChart: there is nothing to save or copy.
var errNoChart = message.Errorf("no chart is in view: the job has no result yet, or the drawing of the airpath is in view; choose a chart from the list over it")

// chartShown reports whether a chart is in view, alone or beside a form.
func (b *Bench) chartShown() bool {
	_, alone := b.screens[b.at].(*charts)
	return alone || !b.placeInView().wide
}

// chartInView is the chart that a person looks at, dressed for paper.
func (b *Bench) chartInView() (plots.Chart, bool) {
	if !b.chartShown() {
		return plots.Chart{}, false
	}
	return b.pane.ChartInView(plots.Print(b.session.Units()))
}

// askSaveChart asks for the file of the chart in view; its ending decides the
// format: PNG, SVG or PDF.
func (b *Bench) askSaveChart() {
	c, ok := b.chartInView()
	if !ok {
		b.showError("No chart to save", errNoChart)
		return
	}
	q := pathQuestion{title: "Save the chart as PNG, SVG or PDF, by the ending of its name", name: b.plainName() + " " + c.Key + ".png", suffix: ".png"}
	b.askPath(q, func(path string) { b.saveChart(path, c) })
}

// saveChart draws and writes outside the window's thread.
func (b *Bench) saveChart(path string, c plots.Chart) {
	b.session.Tasks().Go(func(context.Context) error { return plots.Save(path, c) }, func(err error) {
		if err != nil {
			b.showError("{file} cannot be written", err, "file", filepath.Base(path))
			return
		}
		b.ask("The chart is written", path, answer{"Close", nil})
	})
}

// copyChart puts the numbers of the chart in view on the clipboard, with tabs
// between them. The toolkit's clipboard takes text and no picture.
func (b *Bench) copyChart() {
	c, ok := b.chartInView()
	if !ok {
		b.showError("No numbers to copy", errNoChart)
		return
	}
	b.app.Clipboard().SetContent(strings.TrimRight(c.Numbers().Text(), "\n"))
	b.pane.Copied()
}
