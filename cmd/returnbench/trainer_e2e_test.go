//go:build e2e

package main

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

// TestWindow_Trainer: a trainer opens the demonstrations, predicts by key, moves
// the slider by keyboard and with the pointer, reads the explanation, shows it in
// large type, and makes a demonstration of his own of the house in view.
func TestWindow_Trainer(t *testing.T) {
	p := newPerson(newDesk(t), "trainer", "")
	empty := p.sees("empty")
	p.press("ctrl+shift+8")
	asked := p.seesNew(empty, "question")
	p.press("2")
	p.press("ctrl+Next")
	try := p.seesNew(asked, "before-the-move")

	p.press("Right", "Right", "Right")
	keyed := p.seesNew(try, "moved-by-key")
	p.press("Home")
	back := p.seesNew(keyed, "moved-back")
	slider := p.slider()
	size := slider.object.Size().Width
	middle, _ := p.center(slider)
	left := middle - size/2 + theme.IconInlineSize()/2
	p.drags(slider, left, size/2)
	dragged := p.seesNew(back, "moved-by-pointer")

	p.press("ctrl+Next")
	told := p.seesNew(dragged, "explanation")
	p.press("Down", "Down")
	further := p.seesNew(told, "explanation-further-down")
	p.press("ctrl+b")
	large := p.seesNew(further, "large-type")
	p.keepsSize()
	p.press("ctrl+Prior")
	move := p.seesNew(large, "large-type-move")
	p.press("ctrl+b")
	small := p.seesNew(move, "large-type-left")
	p.keepsSize()

	// The house as the pointer left it: far from its first pleats, and not where
	// the keys went.
	p.press("ctrl+shift+8") // the keyboard goes to where the step waits for it
	p.presses("Open this house as a job")
	p.seesNew(small, "house")
	p.press("ctrl+s")
	house := p.saves("class.job.json")
	job := p.job(house, func(j *sizing.Job) error { return nil })
	require.Greater(t, job.Filters[0].Pleats, 30)
	require.Less(t, job.Filters[0].Pleats, 60)

	p.press("ctrl+shift+8")
	p.sees("demonstrations-again")
	p.presses("Make one of the present job ...")
	p.sees("own-demonstration")
	p.enters("Title", "A closer filter")
	p.enters("Question", "What does a tighter pack do?")
	p.chooses("What moves", "Filters, filter 1 (pleated 11, one inch): Pleats in the width")
	p.enters("Called", "Pleats")
	p.enters("From", "20")
	p.enters("To", "60")
	p.enters("In steps of", "10")
	p.enters("Answer 1", "More air comes through.")
	p.enters("Answer 2", "Less air comes through.")
	p.sees("own-demonstration-filled-in")
	p.presses("Save as a demonstration ...")
	p.sees("own-demonstration-name")
	file := p.saves("own.lesson.json")
	var own lesson.Lesson
	p.soon("the demonstration can be read", func() (err error) {
		own, err = jobfile.LoadLesson(file)
		return err
	})
	require.Empty(t, own.Check())
	require.Equal(t, "A closer filter", own.Title)
	require.Equal(t, "What does a tighter pack do?", own.Question)
	require.Equal(t, lesson.Move{Name: "Pleats", Path: "filters[0].pleats", From: "20", To: "60", Step: "10"}, own.Move)
	require.Equal(t, "More air comes through.", own.Predictions[0].Text)
	require.Equal(t, "Less air comes through.", own.Predictions[1].Text)
	require.Equal(t, job.Filters[0].Pleats, own.Job.Filters[0].Pleats)
	require.Contains(t, p.cli("check", house), "no fault found")
	p.sees("own-demonstration-in-the-list")
	p.close()
}

// TestWindow_Second: a second window opens by its keys, has a job of its own, and
// closes alone.
func TestWindow_Second(t *testing.T) {
	d := newDesk(t)
	p := newPerson(d, "second", "")
	empty := p.sees("first-window")
	p.types("3")
	p.press("Tab")
	p.seesNew(empty, "first-window-answers")
	p.queue = append(p.queue, "key", "ctrl+shift+n")
	p.acts()
	var other string
	d.soon("a second window shows", func() error {
		ids, err := d.windows(p.program)
		if err != nil {
			return err
		}
		for _, id := range ids {
			if id != p.id {
				other = id
			}
		}
		if len(ids) != 2 || other == "" {
			return fmt.Errorf("%d windows", len(ids))
		}
		_, err = d.tool("xdotool", "windowactivate", "--sync", other)
		return err
	})
	w := &window{desk: d, program: p.program, id: other}
	blank := w.settled("second-04-new-window")
	w.typed("4")
	w.keys("Tab")
	w.changed(blank, "second-05-new-window-answers")
	w.keys("ctrl+s")
	w.settled("second-06-name")
	file := p.file("other.job.json")
	w.keys("ctrl+a")
	w.typed(file)
	w.keys("Return")
	w.holds(file, 4*units.Ton, 0)
	_, err := d.tool("wmctrl", "-i", "-c", other)
	require.NoError(t, err)
	d.soon("the second window closes alone", func() error {
		ids, err := d.windows(p.program)
		if err == nil && (len(ids) != 1 || ids[0] != p.id) {
			err = fmt.Errorf("the windows are %v", ids)
		}
		return err
	})

	_, err = d.tool("xdotool", "windowactivate", "--sync", p.id)
	require.NoError(t, err)
	p.press("ctrl+s")
	p.sees("first-window-name")
	first := p.saves("first.job.json")
	p.holds(first, 3*units.Ton, 0)
	p.close()
}
