package assets

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

func openLesson(t *testing.T, name string) lesson.Lesson {
	t.Helper()
	data, err := OpenLesson(name)
	require.NoError(t, err)
	l, err := jobfile.ReadLesson(data)
	require.NoError(t, err)
	return l
}

// answers are the effects that each demonstration is there to show: the number,
// which way it goes, and the least size of the change as a share (of a share:
// its difference; of a temperature: K). They are stated here by the physics,
// and the engine has to come to them.
var answers = map[string][]struct {
	number lesson.Number
	goes   lesson.Goes
	least  float64
}{
	"more-pleats":    {{lesson.MediaArea, lesson.Up, 2}, {lesson.MediaVelocity, lesson.Down, 0.5}},
	"finer-media":    {{lesson.FilterDrop, lesson.Up, 0.5}, {lesson.Airflow, lesson.Down, 0.05}, {lesson.SmallCaught, lesson.Up, 0.3}, {lesson.BlowerPower, lesson.Down, 0.02}},
	"deeper-cabinet": {{lesson.FilterDrop, lesson.Down, 0.5}, {lesson.Airflow, lesson.Up, 0.05}, {lesson.MediaArea, lesson.Up, 2}},
	"second-return":  {{lesson.Suction, lesson.Down, 0.25}, {lesson.Airflow, lesson.Up, 0.02}, {lesson.ExternalStatic, lesson.Down, 0.05}},
	"dust":           {{lesson.FilterDrop, lesson.Up, 0.5}, {lesson.Airflow, lesson.Down, 0.1}, {lesson.BlowerPower, lesson.Down, 0.02}, {lesson.CoilAirLeaving, lesson.Down, 1}},
	"motor":          {{lesson.Airflow, lesson.Up, 0.05}, {lesson.ExternalStatic, lesson.Up, 0.05}, {lesson.BlowerPower, lesson.Up, 0.02}},
	"steady-motor":   {{lesson.Airflow, lesson.Level, 0}, {lesson.BlowerPower, lesson.Up, 0.1}},
	"leak":           {{lesson.LeakShare, lesson.Up, 0.1}, {lesson.InstalledMERV, lesson.Down, 0.1}, {lesson.FilterDrop, lesson.Down, 0.02}},
	"altitude":       {{lesson.AirDensity, lesson.Down, 0.2}, {lesson.TemperatureRise, lesson.Up, 0.2}, {lesson.Airflow, lesson.Down, 0.01}},
	"loose-flex":     {{lesson.Suction, lesson.Up, 0.2}, {lesson.Airflow, lesson.Down, 0.01}},
}

func bare(t *testing.T, l lesson.Lesson) lesson.Lesson {
	t.Helper()
	c := l.Clone()
	c.Predictions = nil
	return c
}

// TestLessons: every ready demonstration is listed, reads without a
// fault, says that it is invented, solves along its whole move, changes what it
// shows, and has one right prediction, the one that the engine comes to.
func TestLessons(t *testing.T) {
	files, err := fs.Glob(lessons, "lessons/*")
	require.NoError(t, err)
	require.Len(t, Lessons(), len(files), "every file is listed")
	require.GreaterOrEqual(t, len(files), 8)
	require.Len(t, answers, len(files))
	numbers := regexp.MustCompile(`\d+(\.\d+)? ?(cfm|W|Pa|in\. w\.c\.|fpm|%|month|ft)\b`)
	for _, name := range Lessons() {
		t.Run(name, func(t *testing.T) {
			l := openLesson(t, name)
			require.Contains(t, l.Job.Notes, "invented")
			require.Regexp(t, `\?$`, l.Question)
			settings, err := l.Settings()
			require.NoError(t, err)
			require.GreaterOrEqual(t, len(settings), 2)
			solver := sizing.NewSolver()
			for _, s := range settings {
				_, err := l.Solve(s, solver.Solve)
				require.NoError(t, err, s.Show(units.IP))
			}
			o, err := l.Run(solver.Solve)
			require.NoError(t, err)

			right := 0
			for _, r := range o.Right() {
				if r {
					right++
				}
			}
			require.Equal(t, 1, right, "%v", o.Right())
			for _, a := range answers[name] {
				claims := bare(t, l)
				claims.Predictions = []lesson.Prediction{{Text: "it is so", Claims: []lesson.Claim{{Number: a.number, Goes: a.goes, Least: a.least}}}}
				check := lesson.Outcome{Lesson: &claims, Solved: o.Solved}
				require.Equal(t, []bool{true}, check.Right(), "%s goes %s by %g: %s to %s", a.number, a.goes, a.least,
					o.Start().Value(a.number).Show(units.IP), o.End().Value(a.number).Show(units.IP))
			}

			require.NotEqual(t, points(o.Start()), points(o.End()), "the curve of the house answers")
			require.NotEmpty(t, l.Workings)
			for _, n := range l.Workings {
				for _, s := range []lesson.SolvedSetting{o.Start(), o.End()} {
					w := s.Working(n)
					require.NotNil(t, w, n)
					require.NotEmpty(t, w.Steps)
				}
			}
			for _, n := range l.Numbers {
				require.NotEmpty(t, o.Start().Value(n).Show(units.IP))
				require.NotEqual(t, string(n.Name()), string(n))
			}
			for _, sys := range []units.Locale{units.IP, units.SI} {
				require.NotContains(t, l.Ask(sys), "{")
				for _, p := range o.Explain(sys) {
					require.NotRegexp(t, `[{}]`, p)
				}
			}
			require.NotEqual(t, o.Explain(units.IP), o.Explain(units.SI), "numbers follow the units in use")
			for _, p := range append([]string{l.Question}, l.Explanation...) {
				require.NotRegexp(t, numbers, p, "a number that could drift is typed")
			}
		})
	}
	_, err = OpenLesson("nothing")
	require.ErrorContains(t, err, "more-pleats")
}

// points are what the fan-and-system chart shows of a SolvedSetting: the operating
// point and both curves.
func points(s lesson.SolvedSetting) []sizing.CurvePoint {
	curve := s.Result().SystemClean
	if s.Loaded() {
		curve = s.Result().SystemLoaded
	}
	c := s.Condition()
	out := append([]sizing.CurvePoint{{Airflow: c.Airflow, Static: c.ExternalStatic, Power: c.BlowerPower}}, curve...)
	for _, tap := range s.Study.Blower.Taps {
		out = append(out, tap.Curve...)
	}
	return out
}

// The pleats of the first demonstration have a best count between the ends:
// more media helps until the channels take over.
func TestThePleatsTurn(t *testing.T) {
	l := openLesson(t, "more-pleats")
	o, err := l.Run(sizing.NewSolver().Solve)
	require.NoError(t, err)
	require.Equal(t, []bool{false, false, true, false}, o.Right())
}

// The words of a demonstration in another language are all there, fit a screen and
// name the numbers that the English ones name.
func TestLessonTexts(t *testing.T) {
	folders, err := fs.Glob(lessonTexts, "*")
	require.NoError(t, err)
	require.Equal(t, []string{"lessons-es"}, folders)
	for _, folder := range folders {
		files, err := fs.Glob(lessonTexts, folder+"/*")
		require.NoError(t, err)
		require.Len(t, files, len(Lessons()))
		for _, name := range Lessons() {
			l := openLesson(t, name)
			texts, err := lesson.ReadTexts(LessonTexts(name, strings.TrimPrefix(folder, "lessons-")))
			require.NoError(t, err, name)
			other, err := l.With(texts)
			require.NoError(t, err, name)
			require.Empty(t, other.Check(), name)
			require.NotEqual(t, l.Title, other.Title)
			require.Equal(t, blanks(l.Question), blanks(other.Question), name)
			for i := range l.Explanation {
				require.Equal(t, blanks(l.Explanation[i]), blanks(other.Explanation[i]), "%s: %d", name, i)
				require.NotEqual(t, l.Explanation[i], other.Explanation[i])
			}
			require.Equal(t, l, openLesson(t, name), "the lesson itself stays as it was")
		}
	}
	require.Nil(t, LessonTexts("dust", "none"))
	_, err = openLesson(t, "dust").With(lesson.Texts{})
	require.ErrorContains(t, err, "predictions: 0 texts, want 3")
	_, err = lesson.ReadTexts([]byte(`{"titel": ""}`))
	require.Error(t, err)
}

// blanks are the placeholders of a text, in the order of the alphabet.
func blanks(text string) []string {
	found := regexp.MustCompile(`\{[^{}]*\}`).FindAllString(text, -1)
	slices.Sort(found)
	return found
}
