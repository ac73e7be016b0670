package lesson

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// sample is a small lesson about the drop of the coil.
func sample() Lesson {
	return Lesson{
		Schema: Schema, Title: "A dearer coil", Question: "The coil takes {setting end}. And the air?",
		Predictions: []Prediction{
			{Text: "more air", Claims: []Claim{{Number: Airflow, Goes: Up}}},
			{Text: "less air", Claims: []Claim{{Number: Airflow, Goes: Down, Least: 0.02}}},
			{Text: "as much", Claims: []Claim{{Number: Airflow, Goes: Level}}},
		},
		Move:    Move{Name: "Coil", Path: "coil.drop", From: "0.1 in. w.c.", To: "0.4 in. w.c.", Step: "0.05 in. w.c."},
		Numbers: []Number{Airflow, BlowerPower}, Workings: []Number{Airflow},
		Explanation: []string{"From {start airflow} to {end airflow}, {change airflow}; at least {least airflow} at {at least airflow}, at most {most airflow} at {at most airflow}; {setting start} to {setting end}."},
		Job: sizing.Job{
			Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Coil: sizing.Part{Drop: 0.2 * units.InchWater},
			Filters: []filter.Filter{{Name: "fine", MERV: 11, Depth: units.Inch}, {Name: "coarse", MERV: 8, Depth: units.Inch}},
			Slot:    sizing.Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Filter: "fine"},
			Options: []sizing.Option{{Name: "coarse filter", Filter: "coarse"}},
		},
	}
}

func run(t *testing.T, l Lesson) Outcome {
	t.Helper()
	require.Empty(t, l.Check())
	o, err := l.Run(sizing.NewSolver().Solve)
	require.NoError(t, err)
	return o
}

func TestTheEngineJudges(t *testing.T) {
	l := sample()
	o := run(t, l)
	require.Len(t, o.Solved, 7)
	require.Equal(t, []bool{false, true, false}, o.Right())
	require.Equal(t, Down, o.Change(Airflow).Goes())

	l.Move.From, l.Move.To = l.Move.To, l.Move.From
	require.Equal(t, []bool{true, false, false}, run(t, l).Right(), "the other way round the other answer is right")
}

// TestSettings_Identity: the settings begin and end where the move says, keep
// even steps, and set the field and nothing else.
func TestSettings_Identity(t *testing.T) {
	l := sample()
	settings, err := l.Settings()
	require.NoError(t, err)
	require.Len(t, settings, 7)
	require.Equal(t, 0.1*units.InchWater, settings[0].Job.Coil.Drop)
	require.Equal(t, 0.4*units.InchWater, settings[6].Job.Coil.Drop)
	require.InDelta(t, 0.25, settings[3].Job.Coil.Drop.In(units.InchWater), 1e-12)
	for _, s := range settings {
		s.Job.Coil.Drop = l.Job.Coil.Drop
		require.Equal(t, l.Job, s.Job)
	}
	require.Equal(t, "0.25 in. w.c.", settings[3].Show(units.IP))
	require.Equal(t, "62.3 Pa", settings[3].Show(units.SI))
}

func TestASwitchBetweenOptionsSharesOneHouse(t *testing.T) {
	l := sample()
	l.Move = Move{Name: "Filter", Choices: []Choice{{Label: "fine", Option: "today"}, {Label: "coarse", Option: "coarse filter"}}}
	l.Question = "From {setting start} to {setting end}?"
	o := run(t, l)
	require.Equal(t, []bool{true, false, false}, o.Right())
	require.Equal(t, "coarse filter", o.End().Result().Name)
	require.Equal(t, "From fine to coarse?", l.Ask(units.IP))
	require.Contains(t, o.End().Working(Airflow).Name.String(), "coarse filter")
}

func TestASwitchOfAField(t *testing.T) {
	l := sample()
	l.Move = Move{Name: "Filter", Path: "slot.filter", Choices: []Choice{{Label: "fine", Value: "fine"}, {Label: "coarse", Value: "coarse"}}}
	require.Equal(t, []bool{true, false, false}, run(t, l).Right())
	l.Move.Choices[1].Value = "none such"
	faults := l.Check()
	require.NotNil(t, faults.At("move.choices[1]"))
	require.Contains(t, faults.At("move.choices[1]").Wanted.String(), "slot.filter")
}

func TestFieldsCanGoAlong(t *testing.T) {
	l := sample()
	l.Job.Filters[0].Pleats, l.Job.Filters[0].Width, l.Job.Filters[0].Height = 20, 16*units.Inch, 25*units.Inch
	l.Job.Filters[0].MediaResistance = 80 * units.PascalSecondPerMetre
	l.Move = Move{Name: "Depth", Path: "filters[0].depth", With: []string{"slot.depth"}, From: "1 in", To: "4 in", Step: "1 in"}
	l.Job.Options = nil
	o := run(t, l)
	require.Equal(t, 4*units.Inch, o.End().Setting.Job.Slot.Depth)
	require.Equal(t, []bool{true, false, false}, o.Right())
}

func TestTheExplanationIsFilledInBothSystems(t *testing.T) {
	o := run(t, sample())
	ip, si := o.Explain(units.IP)[0], o.Explain(units.SI)[0]
	require.Contains(t, ip, o.Start().Condition().Airflow.Show(units.IP))
	require.Contains(t, si, o.End().Condition().Airflow.Show(units.SI))
	require.Contains(t, ip, "% lower")
	require.Contains(t, ip, "0.1 in. w.c. to 0.4 in. w.c.")
	require.NotContains(t, ip+si, "{")
	require.NotContains(t, ip, "..")
}

// TestChange: there and back are opposite, and nothing is level.
func TestChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := quantity(units.Flow(rapid.Float64Range(0.05, 2).Draw(t, "a")))
		b := quantity(units.Flow(rapid.Float64Range(0.05, 2).Draw(t, "b")))
		there, back := Change{a, b}.Goes(), Change{b, a}.Goes()
		if ratio := b.v / a.v; ratio > 1.02 || ratio < 1/1.02 {
			require.NotEqual(t, Level, there)
			require.NotEqual(t, there, back)
		}
		require.Equal(t, Level, Change{a, a}.Goes())
	})
}

func TestChangeInWords(t *testing.T) {
	flow := func(cfm units.Flow) Value { return quantity(cfm * units.CFM) }
	share := func(v float64) Value { return Value{v: v, share: true} }
	warm := func(f float64) Value { return quantity(units.Fahrenheit(f)) }
	for _, c := range []struct {
		from, to Value
		want     string
	}{
		{flow(1000), flow(880), "12 % lower"},
		{flow(1000), flow(1250), "25 % higher"},
		{flow(1000), flow(1004), "hardly changed"},
		{flow(1000), flow(1000), "the same"},
		{flow(100), flow(420), "4.2 times as much"},
		{share(0.02), share(0.15), "13 points higher"},
		{warm(55), warm(51), "4.0 °F lower"},
		{Value{v: 13}, Value{v: 9}, "4 lower"},
	} {
		require.Equal(t, c.want, Change{c.from, c.to}.Words(units.IP))
	}
}

func TestEveryFaultNamesItsField(t *testing.T) {
	for _, c := range []struct {
		spoil func(*Lesson)
		path  string
		want  string
	}{
		{func(l *Lesson) { l.Schema = 2 }, "schema", "1"},
		{func(l *Lesson) { l.Title = " " }, "title", "a text"},
		{func(l *Lesson) { l.Question = strings.Repeat("why ", 100) }, "question", "back of a room"},
		{func(l *Lesson) { l.Question = "It gives {end airflow}?" }, "question", "must not tell"},
		{func(l *Lesson) { l.Predictions = l.Predictions[:1] }, "predictions", "2 to"},
		{func(l *Lesson) { l.Predictions[1].Claims = nil }, "predictions[1].claims", "judged"},
		{func(l *Lesson) { l.Predictions[1].Claims[0].Number = "noise" }, "predictions[1].claims[0].number", "airflow"},
		{func(l *Lesson) { l.Predictions[1].Claims[0].Goes = "sideways" }, "predictions[1].claims[0].goes", "down_then_up"},
		{func(l *Lesson) { l.Move.Path = "coil.dorp" }, "move.path", "drop"},
		{func(l *Lesson) { l.Move.Path = "filters[7].depth" }, "move.path", "filters[1]"},
		{func(l *Lesson) { l.Move.Path = "slot.filter" }, "move.path", "number"},
		{func(l *Lesson) { l.Move.With = []string{"slot.depth"} }, "move.with[0]", "same kind"},
		{func(l *Lesson) { l.Move.From = "much" }, "move.from", "a pressure in"},
		{func(l *Lesson) { l.Move.From = "0 Pa" }, "move.from", "left open"},
		{func(l *Lesson) { l.Move.To = l.Move.From }, "move.to", "another value"},
		{func(l *Lesson) { l.Move.To, l.Move.Step = "40 in. w.c.", "" }, "move.to", "coil.drop"},
		{func(l *Lesson) { l.Move.Step = "2 in. w.c." }, "move.step", "1 to"},
		{func(l *Lesson) { l.Move = Move{Name: "none"} }, "move.path", "choices"},
		{func(l *Lesson) {
			l.Move = Move{Name: "x", Choices: []Choice{{Label: "a", Option: "today"}, {Label: "b", Option: "other"}}}
		}, "move.choices[1].option", "coarse filter"},
		{func(l *Lesson) { l.Chart = "pie" }, "chart", "fan_and_system"},
		{func(l *Lesson) { l.State = "old" }, "state", "loaded"},
		{func(l *Lesson) { l.Numbers = nil }, "numbers", "1 to 4"},
		{func(l *Lesson) { l.Workings = []Number{FrameBow} }, "workings[0]", "working"},
		{func(l *Lesson) { l.Explanation = nil }, "explanation", "paragraph"},
		{func(l *Lesson) { l.Explanation = []string{"it is {sooth airflow}"} }, "explanation[0]", "start"},
		{func(l *Lesson) { l.Explanation = []string{"it is {{start airflow}}"} }, "explanation[0]", "braces"},
		{func(l *Lesson) { l.Job.DesignAirflow = 0 }, "job.design_airflow", "1200 cfm"},
	} {
		l := sample().Clone()
		c.spoil(&l)
		f := l.Check().At(c.path)
		require.NotNil(t, f, "%s: %v", c.path, l.Check())
		require.Contains(t, f.Wanted.String(), c.want)
		require.NotEmpty(t, f.Given)
	}
	require.Empty(t, sample().Check())
}

func TestMovableFieldsCanBeMoved(t *testing.T) {
	job := sample().Job
	numbers, words := Movable(job)
	require.Contains(t, numbers, "coil.drop")
	require.Contains(t, numbers, "site.altitude")
	require.Contains(t, words, "slot.filter")
	require.NotContains(t, words, "name")
	for _, path := range append(numbers, words...) {
		_, err := fieldpath.Find(&job, path)
		require.NoError(t, err, path)
	}
}

// TestClone: a change of the copy leaves the lesson as it was.
func TestClone(t *testing.T) {
	l := sample()
	c := l.Clone()
	require.Equal(t, l, c)
	c.Predictions[0].Claims[0].Goes = Down
	c.Numbers[0] = Life
	c.Explanation[0] = ""
	c.Job.Filters[0].MERV = 1
	require.Equal(t, sample(), l)
}

func FuzzExplain(f *testing.F) {
	for _, s := range []string{"{start airflow}", "{at least filter_drop}", "{setting end}", "{", "{{start airflow}}", "{change }"} {
		f.Add(s)
	}
	l := sample()
	o, err := l.Run(sizing.NewSolver().Solve)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l := sample()
		l.Explanation = []string{text}
		filled := o.Fill(text, units.IP)
		if l.Check() == nil && placeholder.MatchString(filled) {
			t.Fatalf("%q passes the check and stays %q", text, filled)
		}
	})
}

func BenchmarkRun(b *testing.B) {
	l := sample()
	solver := sizing.NewSolver()
	for b.Loop() {
		if _, err := l.Run(solver.Solve); err != nil {
			b.Fatal(err)
		}
	}
}
