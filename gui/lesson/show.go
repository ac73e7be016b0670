package lesson

import (
	"context"
	"path/filepath"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
)

// Step is how far a demonstration has come.
type Step int

// The steps of a demonstration.
const (
	Ask     Step = iota // the question; nothing is reported
	Try                 // the move
	Explain             // what came out, and why
)

// Item is a demonstration of the list.
type Item struct {
	Lesson lesson.Lesson
	Path   string // its file; empty: it comes with the program, or has none yet
	Own    bool
	// Unsaved is true where it is in no file in its present state.
	Unsaved bool
}

// Show is the demonstration in view. It solves away from the window's thread,
// one setting at a time, the one asked for last before all others; what is
// solved is kept, so that going back and forth costs nothing. It never touches
// the job under edit.
type Show struct {
	solve   session.Solve
	tasks   *session.Tasks
	changed func()

	items []Item
	at    int

	settings  []lesson.Setting
	solved    map[int]lesson.SolvedSetting
	position  int // setting asked for
	shown     int // setting last solved of those asked for; -1: none yet
	step      Step
	predicted int          // -1: none
	hands     []int        // raised for each prediction
	part      int          // paragraphs of the explanation in view, less one
	traced    int          // number whose trace is drawn
	visited   map[int]bool // settings that were in view
	decided   bool
	running   bool
	edition   int
	fault     error

	draft *Draft
}

// NewShow lists the ready demonstrations; the first is in view. What of them
// cannot be read is reported by the error, and left out.
func NewShow(solve session.Solve, tasks *session.Tasks) (*Show, error) {
	s := &Show{solve: solve, tasks: tasks, changed: func() {}}
	var fault error
	for _, name := range assets.Lessons() {
		l, err := ready(name, lang.Locale().Language)
		if err != nil {
			fault = message.Errorf("demonstration {name}: {why}", "name", name, "why", err)
			continue
		}
		s.items = append(s.items, Item{Lesson: l})
	}
	s.begin()
	return s, fault
}

// ready is a ready demonstration in the words of a language, or else in its own.
func ready(name, language string) (lesson.Lesson, error) {
	data, err := assets.OpenLesson(name)
	if err != nil {
		return lesson.Lesson{}, err
	}
	l, err := jobfile.ReadLesson(data)
	if err != nil {
		return l, err
	}
	return l.InWords(assets.LessonTexts(name, language))
}

// OnChange is reported every change.
func (s *Show) OnChange(f func()) { s.changed = f }

// Items are all demonstrations of the list.
func (s *Show) Items() []Item { return s.items }

// At is the index of the one in view.
func (s *Show) At() int { return s.at }

// Item is the one in view.
func (s *Show) Item() *Item { return &s.items[s.at] }

// Lesson is what it holds.
func (s *Show) Lesson() *lesson.Lesson { return &s.items[s.at].Lesson }

// Choose puts a demonstration in view, at its question.
func (s *Show) Choose(i int) {
	if i < 0 || i >= len(s.items) {
		return
	}
	s.at = i
	s.begin()
}

// Open adds a demonstration to the list and puts it in view. The one of the
// same file is replaced.
func (s *Show) Open(l lesson.Lesson, path string) {
	at := len(s.items)
	for i, it := range s.items {
		if it.Own && path != "" && it.Path == path {
			at = i
		}
	}
	s.place(at, Item{Lesson: l.Clone(), Path: path, Own: true})
}

func (s *Show) place(at int, it Item) {
	if at == len(s.items) {
		s.items = append(s.items, it)
	} else {
		s.items[at] = it
	}
	s.Choose(at)
}

// Name is what an item is called in the list.
func (it Item) Name() string {
	title, file := it.Lesson.Title, filepath.Base(it.Path)
	switch {
	case it.Path != "" && it.Unsaved:
		return lang.T("{title} ({file}) (not saved)", "title", title, "file", file)
	case it.Path != "":
		return lang.T("{title} ({file})", "title", title, "file", file)
	case it.Unsaved:
		return lang.T("{title} (not saved)", "title", title)
	}
	return title
}

func (s *Show) begin() {
	s.settings, s.fault = s.Lesson().Settings()
	s.solved = map[int]lesson.SolvedSetting{}
	s.position, s.shown = 0, -1
	s.step, s.predicted, s.decided = Ask, -1, false
	s.hands, s.part, s.traced = make([]int, len(s.Lesson().Predictions)), 0, 0
	s.visited = map[int]bool{0: true}
	s.edition++
	s.next()
	s.changed()
}

// Step is how far the demonstration has come.
func (s *Show) Step() Step { return s.step }

// Predicted is the prediction chosen, -1 where there is none.
func (s *Show) Predicted() int { return s.predicted }

// Decided reports whether a prediction was made, or skipped: only then the move
// can be made.
func (s *Show) Decided() bool { return s.decided }

// Predict chooses a prediction; after the first step it stays as it was.
func (s *Show) Predict(i int) {
	if s.step != Ask || i < 0 || i >= len(s.Lesson().Predictions) {
		return
	}
	s.predicted = i
	s.changed()
}

// Hands are how many raised theirs for each prediction.
func (s *Show) Hands() []int { return s.hands }

// Raise counts hands for a prediction, up or down.
func (s *Show) Raise(i, by int) {
	if s.step == Ask && i >= 0 && i < len(s.hands) {
		s.hands[i] = max(0, s.hands[i]+by)
		s.changed()
	}
}

// Part is the part of the explanation in view: what came out with the first of its
// paragraphs, then the others one by one, and last the calculation where there is one.
func (s *Show) Part() int { return s.part }

// parts of the explanation.
func (s *Show) parts() int {
	n := max(1, len(s.Lesson().Explanation))
	if len(s.Lesson().Workings) > 0 {
		n++
	}
	return n
}

// Traced is the number whose trace along the move is drawn.
func (s *Show) Traced() int { return s.traced }

// Trace draws another number along the move.
func (s *Show) Trace(i int) {
	if i >= 0 && i < len(s.Lesson().Numbers) {
		s.traced = i
		s.changed()
	}
}

// Visited are the settings that were in view so far, in order, with where each
// stands: those solved in advance would reveal the result.
func (s *Show) Visited() (at []int, solved []lesson.SolvedSetting) {
	for i := range s.settings {
		if st, ok := s.solved[i]; ok && s.visited[i] {
			at, solved = append(at, i), append(solved, st)
		}
	}
	return at, solved
}

// Reset begins the demonstration again, for the next class.
func (s *Show) Reset() { s.begin() }

// Forward goes to the next step, and through the explanation part by part, so
// that no key skips a paragraph. From the question it is free to go with a
// prediction or without one. The explanation speaks of the whole move, so a
// move that was not made is made then.
func (s *Show) Forward() {
	switch s.step {
	case Ask:
		s.step, s.decided = Try, true
	case Try:
		s.step, s.part = Explain, 0
		if s.position == 0 {
			s.MoveTo(len(s.settings) - 1)
			return
		}
	case Explain:
		if s.part < s.parts()-1 {
			s.part++
			break
		}
		if s.at < len(s.items)-1 {
			s.Choose(s.at + 1)
		}
		return
	}
	s.changed()
}

// Back goes to the step before.
func (s *Show) Back() {
	switch s.step {
	case Ask:
		s.Choose(s.at - 1)
		return
	case Try:
		s.step = Ask
		s.position, s.shown = 0, 0
		if _, ok := s.solved[0]; !ok {
			s.shown = -1
		}
		s.decided = false
	case Explain:
		if s.part > 0 {
			s.part--
			break
		}
		s.step = Try
	}
	s.changed()
}

// Settings are the positions of the move.
func (s *Show) Settings() []lesson.Setting { return s.settings }

// Position is the setting asked for.
func (s *Show) Position() int { return s.position }

// MoveTo makes the move. It is not free before a prediction is made or skipped.
func (s *Show) MoveTo(i int) {
	if !s.decided || i < 0 || i >= len(s.settings) {
		return
	}
	s.position, s.visited[i] = i, true
	if _, ok := s.solved[i]; ok {
		s.shown = i
	}
	s.next()
	s.changed()
}

// Start is the house before the move; false while it is not solved yet.
func (s *Show) Start() (lesson.SolvedSetting, bool) {
	st, ok := s.solved[0]
	return st, ok
}

// Now is the house at the newest setting that is solved.
func (s *Show) Now() (lesson.SolvedSetting, bool) {
	st, ok := s.solved[s.shown]
	return st, ok
}

// End is the house at the end of the move, for the range of the chart.
func (s *Show) End() (lesson.SolvedSetting, bool) {
	st, ok := s.solved[len(s.settings)-1]
	return st, ok
}

// Outcome is the whole move solved; false while it is not yet.
func (s *Show) Outcome() (lesson.Outcome, bool) {
	o := lesson.Outcome{Lesson: s.Lesson()}
	for _, i := range lesson.Samples(len(s.settings)) {
		st, ok := s.solved[i]
		if !ok {
			return o, false
		}
		o.Solved = append(o.Solved, st)
	}
	return o, len(o.Solved) > 0
}

// Fault is why the house of the demonstration cannot be solved.
func (s *Show) Fault() error { return s.fault }

// next solves what is wanted most: the setting asked for, then the ends, then
// what judges the predictions.
func (s *Show) next() {
	if s.running || s.fault != nil || len(s.settings) == 0 {
		return
	}
	todo := append([]int{s.position, 0, len(s.settings) - 1}, lesson.Samples(len(s.settings))...)
	for _, i := range todo {
		if _, ok := s.solved[i]; !ok {
			s.start(i)
			return
		}
	}
}

func (s *Show) start(i int) {
	var (
		l       = s.Lesson().Clone()
		setting = s.settings[i]
		edition = s.edition
		solved  lesson.SolvedSetting
	)
	s.running = true
	s.tasks.Go(func(context.Context) (err error) {
		solved, err = l.Solve(setting, lesson.Solve(s.solve))
		return err
	}, func(err error) {
		s.running = false
		if edition != s.edition { // another demonstration is in view
			s.next()
			return
		}
		if err != nil {
			s.fault = message.Errorf("{move} at {setting}: {why}", "move", l.Move.Name, "setting", setting, "why", err)
			s.changed()
			return
		}
		s.solved[i] = solved
		if _, ok := s.solved[s.position]; ok {
			s.shown = s.position
		}
		s.changed()
		s.next()
	})
}
