package gui

import (
	"slices"
	"strings"

	"returnbench/gui/findings"
	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/gui/strip"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// decision fills the strip over every place: today's figures beside those of the
// proposal, and the next thing to do, or the reason why the figures are not
// those of the present job.
type decision struct {
	bench  *Bench
	strip  *strip.Strip
	chosen string // option that the person chose to see; empty: the one recommended
	action func()
}

func newDecision(b *Bench) *decision {
	d := &decision{bench: b, strip: strip.New()}
	d.strip.OnChosen = func(choice string) { d.choose(d.named(choice)) }
	d.strip.OnAction = func() {
		if d.action != nil {
			d.action()
		}
	}
	return d
}

// choose makes an option the proposal; the recommended one is the default.
func (d *decision) choose(name string) {
	d.chosen = name
	if s := d.bench.session.Study(); s != nil && s.Recommendation.Option == name {
		d.chosen = ""
	}
	d.bench.refresh()
}

// named is the option of a choice.
func (d *decision) named(choice string) string {
	study := d.bench.session.Study()
	if study == nil {
		return choice
	}
	for i := range study.Options {
		if o := &study.Options[i]; o.Kind == sizing.KindOption && choiceOf(study, o.Name) == choice {
			return o.Name
		}
	}
	return choice
}

// choiceOf is the name of an option in the list of choices.
func choiceOf(study *sizing.Study, option string) string {
	if option == study.Recommendation.Option {
		return lang.T("{option} (recommended)", "option", option)
	}
	return option
}

// proposal is the option shown beside today; nil: none.
func (d *decision) proposal(s *sizing.Study) *sizing.OptionResult {
	if o := s.Option(d.chosen); o != nil && o.Kind == sizing.KindOption {
		return o
	}
	return s.Recommended()
}

// Refresh reads the Study again.
func (d *decision) Refresh() {
	s := d.bench.session
	study, sys := s.Study(), s.Units()
	c := strip.Content{Dim: s.Stale()}
	d.action = nil
	if study == nil {
		c.Figures = strip.Figures(nil, nil, nil, sys)
		c.Sentence = lang.T("Enter the cooling capacity or the design airflow. The first answer follows at once.")
	} else {
		proposal := d.proposal(study)
		c.Figures = strip.Figures(study, proposal, s.Ranges(), sys)
		c.Choices, c.Chosen = choices(study, proposal)
		d.advise(&c, study, proposal)
	}
	if words, action := d.trouble(); words != "" {
		c.Severity, c.Sentence, c.Short, c.Why, c.Action, d.action = sizing.Caution, words, "", "", "", action
		if action != nil {
			c.Action = lang.T("Show")
		}
	}
	if waits := len(s.Errors()) > 0 && len(s.ShownFaults()) == 0 && study != nil; waits && !s.Solving() {
		c.Why = lang.T("These numbers are from before. They change when the field or row under way is complete.")
	}
	d.strip.Set(c)
	if o := d.strip.Object(); o.Size().Height > 0 && o.MinSize().Height != o.Size().Height {
		d.bench.root.Refresh() // wide numbers may need another row
	}
}

// choices are the options of the job, the recommended one first and marked as
// such.
func choices(study *sizing.Study, proposal *sizing.OptionResult) (list []string, chosen string) {
	call := func(name string) string { return choiceOf(study, name) }
	for i := range study.Options {
		if o := &study.Options[i]; o.Kind == sizing.KindOption {
			list = append(list, call(o.Name))
		}
	}
	slices.SortStableFunc(list, func(a, b string) int {
		switch recommended := call(study.Recommendation.Option); {
		case a == recommended && b != recommended:
			return -1
		case b == recommended && a != recommended:
			return 1
		}
		return 0
	})
	if proposal != nil {
		chosen = call(proposal.Name)
	}
	return list, chosen
}

// shortName is how the strip calls an option; the list of choices beside it has the
// name whole.
func shortName(option string, sys units.Locale) string {
	return widgets.ShortName(sizing.OptionName(option).Show(sys))
}

// inShort writes sentences with the names of options shortened.
func inShort(words message.Sentences, sys units.Locale) string {
	return words.Map(func(a any) any {
		if name, ok := a.(sizing.OptionName); ok {
			return shortName(string(name), sys)
		}
		return a
	}).In(sys)
}

// advise writes what to do next, and why.
func (d *decision) advise(c *strip.Content, study *sizing.Study, proposal *sizing.OptionResult) {
	sys, r := d.bench.session.Units(), &study.Recommendation
	c.Severity, c.Sentence, c.Why = r.Next.Severity, inShort(r.Next.Words(), sys), inShort(r.Why.Wrong, sys)
	c.Short = shortNext(study, sys)
	c.Action, d.action = lang.T("Problems"), func() { d.bench.goTo(problemsPlace) }
	switch {
	case proposal == nil && len(c.Choices) == 0:
		c.Action, d.action = lang.T("Suggested sizes"), func() { d.bench.enter("sizes") }
	case proposal != nil && proposal.Name != r.Option:
		c.Severity, c.Sentence, c.Short = proposal.Verdict, chosenWords(proposal, study.Today(), sys), ""
		c.Why = lang.T("Recommended: {option}.", "option", shortName(r.Option, sys)) + " " + c.Why
		if r.Option == "" {
			c.Why = inShort(r.Why.Wrong, sys)
		}
	}
}

// shortNext is the next thing to do, whole, after the number of today's problems and the
// name of the worst in place of its figures. Empty where no problem is told of.
func shortNext(study *sizing.Study, sys units.Locale) string {
	problems, lost := map[string]bool{}, false
	for _, f := range study.Findings {
		lost = lost || f.Code == sizing.CodeUnexplained
		for _, m := range f.Wrong {
			problems[m.In(sys)] = true
		}
	}
	next := study.Recommendation.Next.Words()
	action := slices.DeleteFunc(slices.Clone(next), func(m message.Message) bool { return problems[m.In(sys)] })
	if len(action) == 0 || len(action) == len(next) && !lost {
		return ""
	}
	if lost { // it comes first of all that there is to do
		for _, p := range study.Today().Clean.Parts {
			if p.Name == sizing.PartUnexplained {
				action[0] = message.New("First find the unexplained loss of {loss} in the return.", "loss", p.Drop)
			}
		}
	}
	problem := message.New("{count} problems. Worst: {problem}.", "count", findings.Problems(study), "problem", findings.Worst(study))
	return inShort(append(message.Sentences{problem}, action...), sys)
}

// chosenWords sum up an option that is not the recommended one; Problems shows
// all details.
func chosenWords(o, today *sizing.OptionResult, sys units.Locale) string {
	n := o.Counts
	args := []any{"option", shortName(o.Name, sys), "clean", o.Clean.Airflow, "dirty", o.Loaded.Airflow, "cost", sizing.CostPoints(o, today),
		"count", n.Removed + n.Lessened + n.Left, "removed", n.Removed, "lessened", n.Lessened, "left", n.Left}
	if n.Added > 0 {
		return message.Text(sys, "{option}: {clean} clean, {dirty} dirty; {cost}. Of today's {count} problems it removes {removed}, lessens {lessened} and leaves {left}; it adds {added}.", append(args, "added", n.Added)...)
	}
	return message.Text(sys, "{option}: {clean} clean, {dirty} dirty; {cost}. Of today's {count} problems it removes {removed}, lessens {lessened} and leaves {left}.", args...)
}

// trouble is why the figures are not those of the present job, or why the job
// would be lost with the program; lead opens the place where that is corrected.
func (d *decision) trouble() (words string, action func()) {
	words, action = d.resultFault()
	if f := d.bench.session.KeepFault(); f != nil {
		words = strings.TrimSpace(words + " " + d.bench.say("This work has no recovery copy: {fault}. Save it.", "fault", f))
	}
	return words, action
}

// resultFault is why the job has no result. A field that is being typed into is
// not reported.
func (d *decision) resultFault() (string, func()) {
	s := d.bench.session
	if f := s.Fault(); f != nil {
		return d.bench.say("No result: {fault}", "fault", f), nil
	}
	if left := leftUnread(s); len(left) > 0 {
		return unreadWords(left), func() { d.bench.showPath(left[0].Path) }
	}
	faults := s.ShownFaults()
	if len(faults) == 0 || s.Blank() {
		return "", nil
	}
	first := faults[0]
	var text message.ID = "{count} fields cannot be used. {field}: {fault}"
	if s.Study() != nil {
		text = "{count} fields cannot be used; the figures are from before. {field}: {fault}"
	}
	field, fault := d.bench.words(s.Peek(), first.Path), form.SentenceIn(first, s.Units())
	return d.bench.say(text, "count", len(faults), "field", field, "fault", fault), func() { d.bench.showPath(first.Path) }
}

// unreadWords report typed texts that cannot be read, once their field is left.
func unreadWords(left []session.Unread) string {
	return lang.T("{count} fields cannot be read: the figures and the file keep their values from before. {field}: {fault}",
		"count", len(left), "field", left[0].Name, "fault", left[0].Fault)
}

// leftUnread are the texts that cannot be read and are not being typed now.
func leftUnread(s *session.Session) []session.Unread {
	return slices.DeleteFunc(slices.Clone(s.Unread()), func(u session.Unread) bool { return u.Typing })
}
