package gui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"returnbench/gui/outcome"
	"returnbench/plots"
	"returnbench/sizing/units"
)

func TestTheChartInViewIsSavedByItsEnding(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	for _, k := range plots.Kinds() {
		b.pane.Show(k.Key)
		c, ok := b.chartInView()
		require.True(t, ok, k.Key)
		for _, format := range plots.Formats() {
			path := filepath.Join(t.TempDir(), "chart."+format)
			b.saveChart(path, c)
			answerWith(t, b, "Close")
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			if format == "svg" {
				require.Contains(t, strings.ReplaceAll(string(data), "&#39;", "'"), string(k.Title))
			}
		}
	}
}

// A chart that is looked at closer is saved so.
func TestThePartInViewIsSaved(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.window.Canvas().Capture()
	whole, _ := b.chartInView()
	b.pane.Chart().ZoomIn()
	part, _ := b.chartInView()
	require.Less(t, part.Plot.X.Max-part.Plot.X.Min, whole.Plot.X.Max-whole.Plot.X.Min)
	b.pane.Show("filter-drop")
	require.True(t, b.pane.Chart().View().IsWhole(), "another chart comes whole")
}

// First sight shows today and the best option alone; an option that is chosen
// takes its place, and every option comes by choice.
func TestTheChartOfBlowerAndSystemShowsFewOptions(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	study := b.session.Study()
	require.Greater(t, len(study.Options), 4)
	named := func() map[string]bool {
		c, ok := b.chartInView()
		require.True(t, ok)
		out := map[string]bool{}
		for i := range study.Options {
			for _, l := range c.Lines {
				if strings.HasPrefix(l.Label, study.Options[i].Name) {
					out[study.Options[i].Name] = true
				}
			}
		}
		return out
	}
	require.Len(t, named(), len(study.Options))
	b.pane.Follow(study.Options[2].Name)
	require.Len(t, named(), len(study.Options))
}

// The chart of pleats is of the filter of the option that is chosen.
func TestTheChartOfPleatsFollowsTheOption(t *testing.T) {
	b := newBench(t)
	job := example(t, "one-inch-slot")
	for i := range job.Filters {
		job.Filters[i].MediaPermeability, job.Filters[i].MediaResistance = 0, units.MediaResistance(80*(i+1))
	}
	b.put(job, "")
	require.Empty(t, b.session.Errors())
	b.pane.Show(plots.PleatCountKey)
	today, _ := b.chartInView()
	b.pane.Follow("four-inch cabinet")
	other, _ := b.chartInView()
	require.NotEqual(t, today.Numbers().Text(), other.Numbers().Text())
}

func TestSaveChartAsksForAName(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	item(t, b, "Save this chart").Action()
	require.True(t, b.busy())
	entry, ok := b.window.Canvas().Focused().(*pathEntry)
	require.True(t, ok)
	require.True(t, strings.HasSuffix(entry.Text, "fan-and-system.png"), entry.Text)
	path := filepath.Join(t.TempDir(), "mine.svg")
	entry.SetText(path)
	press(t, b, fyne.KeyReturn)
	require.FileExists(t, path)
	answerWith(t, b, "Close")

	b.saveChart(filepath.Join(t.TempDir(), "mine.bmp"), mustChart(t, b))
	require.True(t, b.busy(), "an ending that is none is told")
	answerWith(t, b, "Close")
}

func mustChart(t *testing.T, b *Bench) plots.Chart {
	c, ok := b.chartInView()
	require.True(t, ok)
	return c
}

func TestTheNumbersOfTheChartAreCopied(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	item(t, b, "Copy chart data").Action()
	text := b.app.Clipboard().Content()
	lines := strings.Split(text, "\n")
	require.Equal(t, "line\tairflow, cfm\texternal static, in. w.c.\tpower, W", lines[0])
	require.Greater(t, len(lines), 50)
	b.SetUnits(units.SI)
	b.pane.Show("pressure-by-part")
	item(t, b, "Copy chart data").Action()
	require.True(t, strings.HasPrefix(b.app.Clipboard().Content(), "option\tstate\treturn, Pa\t"), b.app.Clipboard().Content())
}

func TestNoChartNoFile(t *testing.T) {
	b := newBench(t)
	for _, label := range []string{"Save this chart", "Copy chart data"} {
		item(t, b, label).Action()
		require.True(t, b.busy(), label)
		answerWith(t, b, "Close")
	}
	b.put(example(t, "one-inch-slot"), "")
	b.pane.Show(outcome.AirpathKey)
	item(t, b, "Save this chart").Action()
	answerWith(t, b, "Close")
	b.goTo("findings")
	item(t, b, "Save this chart").Action()
	answerWith(t, b, "Close")
}
