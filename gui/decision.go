package gui

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/gui/form"
	"returnbench/gui/session"
	"returnbench/gui/strip"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// decision fills the strip over every place: today's figures beside those of the
// proposal, and the next thing to do, or what keeps the figures from being those
// of the job as it stands.
type decision struct {
	bench  *Bench
	strip  *strip.Strip
	chosen string // option that the person chose to see; empty: the one recommended
	action func()
}

const recommendedNote = " (recommended)"

func newDecision(b *Bench) *decision {
	d := &decision{bench: b, strip: strip.New()}
	d.strip.OnChosen = func(choice string) { d.choose(strings.TrimSuffix(choice, recommendedNote)) }
	d.strip.OnAction = func() {
		if d.action != nil {
			d.action()
		}
	}
	return d
}

// choose takes an option for the proposal; the one recommended needs no choice.
func (d *decision) choose(name string) {
	d.chosen = name
	if s := d.bench.session.Study(); s != nil && s.Recommendation.Option == name {
		d.chosen = ""
	}
	d.bench.refresh()
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
		c.Sentence = "Enter the cooling capacity or the design airflow. The first answer follows at once."
	} else {
		proposal := d.proposal(study)
		c.Figures = strip.Figures(study, proposal, s.Ranges(), sys)
		c.Choices, c.Chosen = choices(study, proposal)
		d.advise(&c, study, proposal)
	}
	if words, lead := d.trouble(); words != "" {
		c.Severity, c.Sentence, c.Why, c.Action, d.action = sizing.Caution, words, "", "", lead
		if lead != nil {
			c.Action = "Show"
		}
	}
	if waits := len(s.Errors()) > 0 && len(s.Told()) == 0 && study != nil; waits && !s.Solving() {
		c.Why = "These numbers are from before. They change when the field or row under way is complete."
	}
	d.strip.Set(c)
	if o := d.strip.Object(); o.Size().Height > 0 && o.MinSize().Height != o.Size().Height {
		d.bench.root.Refresh() // numbers wider than usual took another row
	}
}

// choices are the options of the job, the recommended one first and said to be so.
func choices(study *sizing.Study, proposal *sizing.OptionResult) (list []string, chosen string) {
	call := func(name string) string {
		if name == study.Recommendation.Option {
			return name + recommendedNote
		}
		return name
	}
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

// advise says what to do next, and why.
func (d *decision) advise(c *strip.Content, study *sizing.Study, proposal *sizing.OptionResult) {
	sys, r := d.bench.session.Units(), &study.Recommendation
	c.Severity, c.Sentence, c.Why = r.Next.Severity, r.Next.In(sys), r.Why.Lead(sys)
	c.Action, d.action = "Problems", func() { d.bench.goTo(problemsPlace) }
	switch {
	case proposal == nil && len(c.Choices) == 0:
		c.Action, d.action = "Suggested sizes", func() { d.bench.enter("sizes") }
	case proposal != nil && proposal.Name != r.Option:
		c.Severity, c.Sentence = proposal.Verdict, chosenWords(proposal, sys)
		c.Why = "Recommended: " + r.Option + ". " + c.Why
		if r.Option == "" {
			c.Why = r.Why.Lead(sys)
		}
	}
}

// chosenWords sum up an option that is not the recommended one; Problems has the
// whole of it.
func chosenWords(o *sizing.OptionResult, sys units.Locale) string {
	n := o.Counts
	problems, adds := "problems", ""
	if n.Removed+n.Lessened+n.Left == 1 {
		problems = "problem"
	}
	if n.Added > 0 {
		adds = fmt.Sprintf("; it adds %d", n.Added)
	}
	return fmt.Sprintf("%s: %s clean, %s dirty. Of today's %d %s it removes %d, lessens %d and leaves %d%s.",
		o.Name, o.Clean.Airflow.Show(sys), o.Loaded.Airflow.Show(sys), n.Removed+n.Lessened+n.Left, problems, n.Removed, n.Lessened, n.Left, adds)
}

// trouble says what keeps the figures from being those of the job as it stands,
// and why the job would not outlive the program; lead leads to what is to be put
// right.
func (d *decision) trouble() (words string, lead func()) {
	words, lead = d.resultFault()
	if f := d.bench.session.KeepFault(); f != nil {
		words = strings.TrimSpace(words + " This work has no recovery copy: " + f.Error() + ". Save it.")
	}
	return words, lead
}

// resultFault says what keeps the job from a result. A field that is still typed
// into is not spoken of.
func (d *decision) resultFault() (string, func()) {
	s := d.bench.session
	if f := s.Fault(); f != nil {
		return "No result: " + f.Error(), nil
	}
	if left := leftUnread(s); len(left) > 0 {
		return unreadWords(left), func() { d.bench.showPath(left[0].Path) }
	}
	faults := s.Told()
	if len(faults) == 0 || s.Blank() {
		return "", nil
	}
	first := faults[0]
	count := "1 field cannot be used"
	if len(faults) > 1 {
		count = fmt.Sprintf("%d fields cannot be used", len(faults))
	}
	if s.Study() != nil {
		count += "; the figures are from before"
	}
	return count + ". " + d.bench.words(s.Peek(), first.Path) + ": " + form.SentenceIn(first, s.Units()), func() { d.bench.showPath(first.Path) }
}

// unreadWords say what was typed that nobody can read, once its field is left.
func unreadWords(left []session.Unread) string {
	text := "1 field cannot be read: the figures and the file keep its value from before. "
	if n := len(left); n > 1 {
		text = fmt.Sprintf("%d fields cannot be read: the figures and the file keep their values from before. ", n)
	}
	return text + left[0].Name + ": " + left[0].Fault
}

// leftUnread are the texts that cannot be read and are not being typed now.
func leftUnread(s *session.Session) []session.Unread {
	return slices.DeleteFunc(slices.Clone(s.Unread()), func(u session.Unread) bool { return u.Typing })
}
