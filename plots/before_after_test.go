package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"returnbench/assets"
	"returnbench/plots/labels"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// sidesOf are the two ends of a ready demonstration.
func sidesOf(t *testing.T, name string) (l lesson.Lesson, before, after Side) {
	t.Helper()
	data, err := assets.OpenLesson(name)
	require.NoError(t, err)
	l, err = jobfile.ReadLesson(data)
	require.NoError(t, err)
	o, err := l.Run(sizing.NewSolver().Solve)
	require.NoError(t, err)
	side := func(word string, s lesson.SolvedSetting) Side {
		return Side{Name: word + ", " + s.Setting.Show(units.IP), Study: s.Study, Option: s.Setting.Option, Loaded: s.Loaded()}
	}
	return l, side("start", o.Start()), side("now", o.End())
}

// Every demonstration's chart is drawn in every look, with a word for each side
// and no word over another.
func TestBeforeAfterIsDrawn(t *testing.T) {
	for _, name := range assets.Lessons() {
		l, before, after := sidesOf(t, name)
		key := strings.ReplaceAll(string(l.Picture()), "_", "-")
		for _, look := range []Look{Light(units.IP), scaled(Dark(units.SI), 2), mono(Print(units.IP))} {
			for _, k := range []string{key, "fan-and-system"} {
				paper := vg.Rectangle{Max: vg.Point{X: px(1100), Y: px(500)}}
				ws := words(t, BeforeAfter(k, before, after, nil, look), paper.Max.X, paper.Max.Y)
				all := ""
				for i, w := range ws {
					all += w.text + "\n"
					require.True(t, labels.Inside(w.box, paper), "%s, %s: %q leaves the paper", name, k, w.text)
					for _, o := range ws[:i] {
						require.False(t, labels.Overlap(shrunk(w.box), shrunk(o.box)), "%s, %s: %q lies on %q", name, k, w.text, o.text)
					}
				}
				if k == "fan-and-system" {
					require.Contains(t, all, "start", name)
					require.Contains(t, all, "now", name)
				}
			}
		}
	}
}

// Every chart that a lesson can name is one of Kinds.
func TestChartsOfLessonsAreKnown(t *testing.T) {
	known := map[string]bool{}
	for _, k := range Kinds() {
		known[k.Key] = true
	}
	for _, c := range lesson.Charts() {
		require.True(t, known[strings.ReplaceAll(string(c), "_", "-")], c)
	}
	require.Len(t, lesson.Charts(), len(known))
}

// The axes keep still while the second side moves within the room, and a
// blower curve that the move leaves alone is drawn once.
func TestBeforeAfterKeepsItsAxes(t *testing.T) {
	_, before, after := sidesOf(t, "second-return")
	room := []Side{before, after}
	still, moved := beforeAfter(before, before, room, Light(units.IP)), beforeAfter(before, after, room, Light(units.IP))
	require.Equal(t, [4]float64{still.X.Min, still.X.Max, still.Y.Min, still.Y.Max}, [4]float64{moved.X.Min, moved.X.Max, moved.Y.Min, moved.Y.Max})
	require.Len(t, BeforeAfter(FanAndSystemKey, before, before, nil, Light(units.IP)).Lines, 2)
	require.Len(t, BeforeAfter(FanAndSystemKey, before, after, nil, Light(units.IP)).Lines, 3)
	_, before, after = sidesOf(t, "altitude")
	require.Len(t, BeforeAfter(FanAndSystemKey, before, after, nil, Light(units.IP)).Lines, 4, "the air moves both curves")
}

func BenchmarkBeforeAfter(b *testing.B) {
	t := &testing.T{}
	_, before, after := sidesOf(t, "altitude")
	canvas := NewCanvas()
	for b.Loop() {
		canvas.Render(BeforeAfter("fan-and-system", before, after, nil, Light(units.IP)), Light(units.IP), 900, 500, 96)
	}
}
