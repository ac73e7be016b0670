package pages

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/plots/report"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// classDesk has the first two demonstrations, the second in view.
type classDesk struct {
	counter
	list []lesson.Lesson
}

func (d *classDesk) Demonstrations() ([]lesson.Lesson, int) { return d.list, 1 }

type plainModel struct{ system units.Locale }

func (m *plainModel) Units() units.Locale { return m.system }

// TestClassSheet: the demonstration in view is laid out first, another when
// chosen, front and back, in the units of the window.
func TestClassSheet(t *testing.T) {
	d := &classDesk{counter: counter{paper: report.Letter}}
	for _, name := range assets.Lessons()[:2] {
		data, err := assets.OpenLesson(name)
		require.NoError(t, err)
		l, err := jobfile.ReadLesson(data)
		require.NoError(t, err)
		d.list = append(d.list, l)
	}
	test.NewApp()
	m := &plainModel{}
	c := NewClass(m, d)
	w := test.NewWindow(c.Object())
	t.Cleanup(w.Close)
	w.Resize(fyne.NewSize(1100, 700))
	require.True(t, c.save.Disabled())
	d.goOn()
	require.False(t, c.save.Disabled())
	require.Equal(t, 2, c.laid.Count)
	require.Equal(t, d.list[1].Title, c.laid.Title)
	test.Tap(c.save)
	require.Equal(t, c.laid, d.saved)
	before := c.laid
	c.chosen.SetSelectedIndex(0)
	d.goOn()
	require.Equal(t, d.list[0].Title, c.laid.Title)
	require.NotEqual(t, before, c.laid)
	before = c.laid
	m.system = units.SI
	c.Refresh()
	d.goOn()
	require.NotEqual(t, before, c.laid)
	c.paper.SetSelected("A4")
	d.goOn()
	require.Equal(t, report.A4, d.paper)
}
