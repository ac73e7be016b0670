package lesson

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
)

// Draft is a demonstration that is being made.
type Draft struct {
	lesson lesson.Lesson
	path   string        // its file; empty: none yet
	saved  lesson.Lesson // as it was when the draft began
	at     int           // its place in the list; -1: none yet
	tried  bool          // faults are reported from the first try on
}

// FromJob begins a demonstration of a job. What a class will be asked is left
// open; the rest is proposed.
func FromJob(job sizing.Job) *Draft {
	l := lesson.Lesson{
		Schema: lesson.Schema, Title: job.Name, Job: job.Clone(),
		Predictions: []lesson.Prediction{{Claims: []lesson.Claim{{Number: lesson.Airflow, Goes: lesson.Up}}}, {Claims: []lesson.Claim{{Number: lesson.Airflow, Goes: lesson.Down}}}},
		Numbers:     []lesson.Number{lesson.Airflow, lesson.ExternalStatic, lesson.FilterDrop, lesson.BlowerPower},
		Workings:    []lesson.Number{lesson.Airflow},
		Explanation: []string{lang.T("From {setting start} to {setting end} the airflow goes from {start airflow} to {end airflow}: {change airflow}.")},
	}
	return &Draft{lesson: l, saved: l.Clone(), at: -1}
}

// FromShow begins with the demonstration in view. One that comes with the
// program is copied; it gets a file of its own.
func FromShow(s *Show) *Draft {
	it := s.Item()
	d := &Draft{lesson: it.Lesson.Clone(), path: it.Path, saved: it.Lesson.Clone(), at: -1}
	if it.Own {
		d.at = s.At()
	}
	return d
}

// Dirty reports whether the draft was changed.
func (d *Draft) Dirty() bool { return !reflect.DeepEqual(d.lesson, d.saved) }

// Dirty reports whether a new demonstration is in no file yet.
func (s *Show) Dirty() bool {
	for _, it := range s.items {
		if it.Unsaved {
			return true
		}
	}
	return s.draft != nil && s.draft.Dirty()
}

// finish puts the draft into the list and into view.
func (s *Show) finish(d *Draft, unsaved bool) {
	s.draft = nil
	at := d.at
	if at < 0 {
		at = len(s.items)
	}
	s.place(at, Item{Lesson: d.lesson.Clone(), Path: d.path, Own: true, Unsaved: unsaved})
}

// optionsMove names the move between options of the job in the list of moves.
const optionsMove = "(options of the job)"

// moves are the things that can be moved in the draft's house, as the list
// names them.
func (d *Draft) moves() []string {
	numbers, words := lesson.Movable(d.lesson.Job)
	var out []string
	if len(d.lesson.Job.Options) > 0 {
		out = append(out, optionsMove)
	}
	var paths []string
	for _, path := range append(numbers, words...) {
		written := strings.HasPrefix(path, "readings[") || strings.HasPrefix(path, "options[") || strings.HasSuffix(path, "name")
		cell := strings.Contains(path, ".points[")
		if path == d.lesson.Move.Path || !written && !cell {
			paths = append(paths, path)
		}
	}
	slices.SortStableFunc(paths, func(a, b string) int { return cmp.Compare(groupOf(a), groupOf(b)) })
	return append(out, paths...)
}

// switched reports whether the move is a switch.
func (d *Draft) switched() bool { return len(d.lesson.Move.Choices) > 0 }

// setMove changes what moves and proposes how.
func (d *Draft) setMove(path string) {
	m := &d.lesson.Move
	name := m.Name
	*m = lesson.Move{Name: name}
	if path == optionsMove {
		m.Choices = []lesson.Choice{{Label: lang.T("as today"), Option: sizing.TodayName}}
		for _, o := range d.lesson.Job.Options[:min(3, len(d.lesson.Job.Options))] {
			m.Choices = append(m.Choices, lesson.Choice{Label: o.Name, Option: o.Name})
		}
		return
	}
	m.Path = path
	if _, words := lesson.Movable(d.lesson.Job); contains(words, path) {
		now := lesson.TextAt(d.lesson.Job, path)
		m.Choices = []lesson.Choice{{Label: now, Value: now}, {}}
		return
	}
	m.From = lesson.TextAt(d.lesson.Job, path)
}

// moveKey is the move as the list names it.
func (d *Draft) moveKey() string {
	if d.lesson.Move.Path == "" && d.switched() {
		return optionsMove
	}
	return d.lesson.Move.Path
}

func contains(all []string, one string) bool {
	for _, s := range all {
		if s == one {
			return true
		}
	}
	return false
}
