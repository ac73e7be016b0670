package plots

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"returnbench/plots/labels"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// solvedHouses are the demonstration houses as the engine solves them.
func solvedHouses(t testing.TB) map[string]*sizing.Study {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "assets", "jobs", "*.job.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string]*sizing.Study{}
	for _, file := range files {
		job, err := jobfile.Load(file)
		require.NoError(t, err, file)
		out[filepath.Base(file)], err = sizing.Solve(job)
		require.NoError(t, err, file)
	}
	return out
}

func TestSolvedHousesAreDrawn(t *testing.T) {
	for name, s := range solvedHouses(t) {
		for _, look := range []Look{Light(units.IP), scaled(Dark(units.SI), 1.5), mono(Print(units.IP))} {
			for _, k := range All(s, look) {
				paper := vg.Rectangle{Max: vg.Point{X: px(900), Y: px(500)}}
				ws := words(t, k, paper.Max.X, paper.Max.Y)
				for i, w := range ws {
					assert.True(t, labels.Inside(w.box, paper), "%s, %s: %q leaves the paper", name, k.Key, w.text)
					for _, o := range ws[:i] {
						assert.False(t, labels.Overlap(shrunk(w.box), shrunk(o.box)), "%s, %s: %q lies on %q", name, k.Key, w.text, o.text)
					}
				}
			}
		}
		f := fanAndSystem(Of(s), Light(units.IP))
		for _, at := range f.notes.obstacles {
			assert.True(t, f.X.Min < at.at.X && at.at.X < f.X.Max && f.Y.Min < at.at.Y && at.at.Y < f.Y.Max, "%s: an operating point outside the chart", name)
		}
	}
}

// An operating point lies on its own system line: the chart draws the two from
// different fields of the Study.
func TestSolvedPointsLieOnTheirLines(t *testing.T) {
	for name, s := range solvedHouses(t) {
		look := Light(units.IP)
		chart := Kinds()[0].Chart(s, look)
		_, tr := NewCanvas().Render(chart, look, 900, 500, 96)
		lines := chart.Lines
		for _, o := range s.Options {
			px, py := tr.DataToPixel(look.in(o.Clean.Airflow), look.in(o.Clean.ExternalStatic))
			for _, l := range lines {
				if l.Label != look.state(o.Name, stateWord(&o, false)) {
					continue
				}
				hit, ok := Nearest([]ReadoutLine{l}, tr, px, py)
				require.True(t, ok, "%s: %s", name, l.Label)
				assert.Less(t, hit.Distance, 1.5, "%s: %s is off its line", name, l.Label)
			}
		}
	}
}

// Where the gauge found a house is marked on its chart, as read.
func TestMeasuredPointIsDrawn(t *testing.T) {
	s := solvedHouses(t)["one-inch-slot.job.json"]
	r := s.Readings[0]
	require.Positive(t, r.ExternalStatic)
	look := Light(units.IP).complete()
	at := plotter.XY{X: look.in(r.Airflow), Y: look.in(r.ExternalStatic)}
	marks := func(s *sizing.Study) int {
		n := 0
		for _, p := range fanAndSystem(Of(s), look).notes.obstacles {
			if p.at == at {
				n++
			}
		}
		return n
	}
	none := *s
	none.Readings = nil
	assert.Equal(t, marks(&none)+1, marks(s))
}
