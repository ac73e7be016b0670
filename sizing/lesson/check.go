package lesson

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Limits of a lesson: what a class can follow and a screen can show.
const (
	mostPredictions = 6
	mostNumbers     = 4
	mostWorkings    = 6
	mostChoices     = 6
	longestLine     = 240
)

// Check finds every fault of the lesson at once; nil means that it can be
// shown. The paths of faults of its house begin with "job.".
func (l Lesson) Check() sizing.FieldErrors {
	c := &checker{l: &l}
	c.want(l.Schema == Schema, "schema", l.Schema, "{schema}", "schema", Schema)
	c.line("title", l.Title)
	c.line("question", l.Question)
	for _, m := range placeholder.FindAllStringSubmatch(l.Question, -1) {
		b, err := readBlank(m[1])
		c.want(err == nil && b.what == "setting", "question", "{"+m[1]+"}", "no number but {start} and {end}: the question must not tell the answer",
			"start", "{setting start}", "end", "{setting end}")
	}
	c.predictions()
	c.words()
	c.explanation()
	for _, f := range l.Job.Check() {
		c.faults = append(c.faults, f.At("job."+f.Path))
	}
	c.move()
	return c.faults
}

type checker struct {
	l      *Lesson
	faults sizing.FieldErrors
}

func (c *checker) fault(path string, given any, wanted message.ID, args ...any) {
	if given == "" {
		given = message.ID("nothing")
	}
	c.faults = append(c.faults, sizing.NewFieldError(path, given, message.New(wanted, args...)))
}

func (c *checker) want(ok bool, path string, given any, wanted message.ID, args ...any) {
	if !ok {
		c.fault(path, given, wanted, args...)
	}
}

// line checks a text that is required and must fit a screen.
func (c *checker) line(path, text string) {
	c.want(strings.TrimSpace(text) != "", path, "", "a text")
	c.want(len([]rune(text)) <= longestLine, path, message.New("{count} characters", "count", len([]rune(text))), "at most {most}, to be read from the back of a room", "most", longestLine)
}

func oneOf[T ~string](c *checker, path string, v T, all []T) {
	c.want(slices.Contains(all, v), path, quoted(string(v)), "one of {words}", "words", list(all))
}

func quoted(text string) string {
	if text == "" {
		return ""
	}
	return fmt.Sprintf("%q", text)
}

func (c *checker) predictions() {
	n := len(c.l.Predictions)
	c.want(n >= 2 && n <= mostPredictions, "predictions", n, "2 to {most} answers to choose from", "most", mostPredictions)
	for i, p := range c.l.Predictions {
		path := fmt.Sprintf("predictions[%d]", i)
		c.line(path+".text", p.Text)
		c.want(len(p.Claims) > 0, path+".claims", "", "what the answer claims, such as airflow going down, so that it can be judged")
		for k, claim := range p.Claims {
			at := fmt.Sprintf("%s.claims[%d]", path, k)
			oneOf(c, at+".number", claim.Number, Numbers())
			oneOf(c, at+".goes", claim.Goes, Directions())
			c.want(claim.Least >= 0 && claim.Least <= 100, at+".least", claim.Least, "0 or more, as a share")
			c.want(claim.Most == 0 || claim.Most > claim.Least, at+".most", claim.Most, "more than least, or nothing")
		}
	}
}

func (c *checker) words() {
	l := c.l
	if l.State != "" {
		oneOf(c, "state", l.State, States())
	}
	if l.Chart != "" {
		oneOf(c, "chart", l.Chart, Charts())
	}
	c.want(len(l.Numbers) >= 1 && len(l.Numbers) <= mostNumbers, "numbers", len(l.Numbers), "1 to {most} numbers to show large", "most", mostNumbers)
	c.numbers("numbers", l.Numbers)
	c.want(len(l.Workings) <= mostWorkings, "workings", len(l.Workings), "at most {most}", "most", mostWorkings)
	c.numbers("workings", l.Workings)
}

func (c *checker) numbers(path string, all []Number) {
	for i, n := range all {
		at := fmt.Sprintf("%s[%d]", path, i)
		oneOf(c, at, n, Numbers())
		c.want(!slices.Contains(all[:i], n), at, message.New("{name} again", "name", quoted(string(n))), "each number once")
		if f := n.figure(); path == "workings" && f != nil {
			c.want(f.working != "", at, quoted(string(n)), "a number that has a working")
		}
	}
}

func (c *checker) explanation() {
	c.want(len(c.l.Explanation) > 0, "explanation", "", "at least one paragraph")
	for i, p := range c.l.Explanation {
		path := fmt.Sprintf("explanation[%d]", i)
		c.want(strings.TrimSpace(p) != "", path, "", "a text")
		for _, m := range placeholder.FindAllStringSubmatch(p, -1) {
			_, err := readBlank(m[1])
			c.want(err == nil, path, "{"+m[1]+"}", "{why}", "why", err)
		}
		rest := placeholder.ReplaceAllString(p, "")
		c.want(!strings.ContainsAny(rest, "{}"), path, message.ID("a brace without its other half"), "braces round a placeholder only")
	}
}

func (c *checker) move() {
	m := &c.l.Move
	c.line("move.name", m.Name)
	job := c.l.Job
	before := len(c.faults)
	if m.Path == "" {
		c.want(len(m.With) == 0, "move.with", list(m.With), "nothing, since no field moves")
		c.want(len(m.Choices) > 0, "move.path", "", "the path of a field, or choices between options of the job")
	} else {
		c.field("move.path", m.Path)
		for i, p := range m.With {
			c.field(fmt.Sprintf("move.with[%d]", i), p)
		}
	}
	switch {
	case len(m.Choices) > 0:
		c.choices()
	case m.Path != "":
		c.span(&job)
	}
	if len(c.faults) == before && !c.jobIsFaulty() {
		c.ends()
	}
}

func (c *checker) jobIsFaulty() bool {
	return slices.ContainsFunc(c.faults, func(f *sizing.FieldError) bool { return strings.HasPrefix(f.Path, "job.") })
}

// field checks the path of a field that moves.
func (c *checker) field(at, path string) {
	job := c.l.Job
	v, err := fieldpath.Find(&job, path)
	if err != nil {
		c.fault(at, quoted(path), "the path of a field of the job: {wanted}", "wanted", wanted(err))
		return
	}
	if !settable(v) || len(c.l.Move.Choices) == 0 && !v.IsNumber() {
		c.fault(at, quoted(path), "a field that holds a number, or choices of a switch for any other")
		return
	}
	if first, err := fieldpath.Find(&job, c.l.Move.Path); err == nil && settable(first) {
		c.want(first.SameKind(v), at, quoted(path), "a field of the same kind as {path}", "path", c.l.Move.Path)
	}
}

func (c *checker) choices() {
	m := &c.l.Move
	n := len(m.Choices)
	c.want(n >= 2 && n <= mostChoices, "move.choices", n, "2 to {most} positions of the switch", "most", mostChoices)
	for _, f := range []struct{ path, text string }{{"move.from", m.From}, {"move.to", m.To}, {"move.step", m.Step}} {
		c.want(f.text == "", f.path, quoted(f.text), "nothing beside choices")
	}
	for i, choice := range m.Choices {
		path := fmt.Sprintf("move.choices[%d]", i)
		c.line(path+".label", choice.Label)
		if m.Path == "" {
			c.want(choice.Value == "", path+".value", quoted(choice.Value), "nothing, since no field is set")
			known := []string{sizing.TodayName}
			for _, o := range c.l.Job.Options {
				known = append(known, o.Name)
			}
			oneOf(c, path+".option", choice.Option, known)
			continue
		}
		c.want(choice.Option == "", path+".option", quoted(choice.Option), "nothing, since a field is set")
		job := c.l.Job.Clone()
		if v, err := fieldpath.Find(&job, m.Path); err == nil && settable(v) {
			c.value(path+".value", choice.Value, v.Set(choice.Value))
		}
	}
}

// value checks a value of the field that moves; err is the field's own error.
func (c *checker) value(path, text string, err error) {
	var of *fieldpath.Error
	switch {
	case errors.As(err, &of):
		c.fault(path, quoted(text), "a value of {path} (want {wanted})", "path", c.l.Move.Path, "wanted", of.Wanted)
	case err != nil:
		c.fault(path, quoted(text), "a value of {path} ({why})", "path", c.l.Move.Path, "why", err)
	default:
		c.want(text != "", path, "", "a value of {path}", "path", c.l.Move.Path)
	}
}

func (c *checker) span(job *sizing.Job) {
	m := &c.l.Move
	v, err := fieldpath.Find(job, m.Path)
	if err != nil || !v.IsNumber() {
		return
	}
	var ends [2]float64
	bad := false
	for i, f := range []struct{ path, text string }{{"move.from", m.From}, {"move.to", m.To}} {
		n, err := v.Number(f.text)
		if err != nil {
			c.fault(f.path, quoted(f.text), "{wanted}", "wanted", wanted(err))
			bad = true
			continue
		}
		if n == 0 && v.ZeroIsOpen() {
			c.fault(f.path, quoted(f.text), "a value other than zero, which would be taken as left open")
			bad = true
		}
		ends[i] = n
	}
	if bad {
		return
	}
	c.want(ends[0] != ends[1], "move.to", quoted(m.To), "another value than the move starts from")
	if m.Step != "" {
		step, err := stepOf(v, m.Step)
		width := ends[1] - ends[0]
		if width < 0 {
			width = -width
		}
		switch {
		case err != nil:
			c.fault("move.step", quoted(m.Step), "{wanted}", "wanted", wanted(err))
		case !(step > 0) || step > width || width/step > mostSettings:
			c.fault("move.step", quoted(m.Step), "a step that goes 1 to {most} times from {from} to {to}", "most", mostSettings, "from", m.From, "to", m.To)
		}
	}
}

// wanted is what an error of a path, or of a text for its field, asks for.
func wanted(err error) message.Message {
	var of *fieldpath.Error
	var quantity *units.ParseError
	switch {
	case errors.As(err, &of):
		return of.Wanted
	case errors.As(err, &quantity):
		return message.WantedOf(quantity.Kind)
	}
	return message.OfError(err)
}

// ends runs the engine's own check of the house where the move starts and
// where it ends.
func (c *checker) ends() {
	settings, err := c.l.Settings()
	if err != nil || len(settings) == 0 {
		return
	}
	at := []int{0, len(settings) - 1}
	name := func(i int) string { return []string{"move.from", "move.to"}[i] }
	if n := len(c.l.Move.Choices); n > 0 {
		at = at[:0]
		for i := range n {
			at = append(at, i)
		}
		name = func(i int) string { return fmt.Sprintf("move.choices[%d]", i) }
	}
	for i, k := range at {
		for _, f := range settings[k].Job.Check() {
			c.fault(name(i), f.What(), "{wanted} ({path})", "wanted", f.Wanted, "path", f.Path)
		}
	}
}
