package gui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// rangeRest is the pause after an edit before its ranges are calculated: longer
// than between two keys of one number.
const rangeRest = 400 * time.Millisecond

// rangeSteps is the time between two reports of progress; short work reports
// none.
const rangeSteps = 250 * time.Millisecond

// sampled are the ranges that window, pages and command line share.
func sampled(ctx context.Context, job sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
	return sizing.Sampling{Samples: sizing.UsualSamples, Seed: sizing.UsualSeed, Done: done}.Ranges(ctx, job)
}

// sampledAtOnce reports no progress: a picture shows none.
func sampledAtOnce(ctx context.Context, job sizing.Job, _ func(int)) ([]sizing.OptionRange, error) {
	return sampled(ctx, job, nil)
}

// rangeFoot is under the column of places: whether ranges are calculated, the
// progress, and a button to cancel.
type rangeFoot struct {
	session  *session.Session
	on       *widget.Check
	state    *widget.Label
	act      *keyButton
	box      *fyne.Container
	updating bool
}

func newRangeFoot(s *session.Session, set func(on bool)) *rangeFoot {
	f := &rangeFoot{session: s}
	f.on = widget.NewCheck(lang.T("Ranges"), func(on bool) {
		if !f.updating {
			set(on)
		}
	})
	f.state = widget.NewLabel("")
	f.state.SizeName = theme.SizeNameCaptionText
	f.act = newKeyButton("Cancel", f.turn)
	f.box = container.NewVBox(widget.NewSeparator(), f.on, f.state, f.act)
	f.Refresh()
	return f
}

// turn cancels the work, or begins it again.
func (f *rangeFoot) turn() {
	if f.session.RangeProgress().State == session.RangesRunning {
		f.session.CancelRanges()
	} else {
		f.session.ResumeRanges()
	}
}

// Object is the foot.
func (f *rangeFoot) Object() fyne.CanvasObject { return f.box }

// Refresh shows the progress of the ranges.
func (f *rangeFoot) Refresh() {
	f.updating = true
	f.on.SetChecked(f.session.Ranging())
	f.updating = false
	words, act := f.words(f.session.RangeProgress())
	if f.state.Text != words {
		f.state.SetText(words)
	}
	if text := lang.T(act); act != "" && f.act.Text != text {
		f.act.SetText(text)
	}
	show := func(o fyne.CanvasObject, visible bool) {
		if o.Visible() == visible {
			return
		}
		if visible {
			o.Show()
		} else {
			o.Hide()
		}
		f.box.Refresh()
	}
	show(f.state, words != "")
	show(f.act, act != "")
}

func (f *rangeFoot) words(p session.RangeProgress) (words string, act message.ID) {
	switch p.State {
	case session.RangesRunning:
		return lang.T("ranges: {percent} %", "percent", p.Percent()), "Cancel"
	case session.RangesReady:
		share, samples := message.Fixed(100*sizing.RangeShare, 0), p.Of-p.Unsolved
		if p.Unsolved > 0 {
			return lang.T("± holds {share} %\nof {samples} samples,\n{unsolved} without solution", "share", share, "samples", samples, "unsolved", p.Unsolved), ""
		}
		return lang.T("± holds {share} %\nof {samples} samples", "share", share, "samples", samples), ""
	case session.RangesCancelled:
		return lang.T("ranges: cancelled"), "Go on"
	case session.RangesFailed:
		return lang.T("ranges: not known,\nsee Problems"), "Try again"
	case session.RangesWaiting:
		return lang.T("ranges: no result yet"), ""
	}
	return "", ""
}

// rangeShower is a screen that shows the progress of the ranges.
type rangeShower interface{ RefreshRanges() }

// refreshRanges brings what tells of the work on the ranges up to date.
func (b *Bench) refreshRanges() {
	b.foot.Refresh()
	b.nav.layOutFoot()
	if s, ok := b.screens[b.at].(rangeShower); ok {
		s.RefreshRanges()
	}
	b.layOut()
}

// SetRanges switches the ranges on or off, in all windows and for later runs.
func (b *Bench) SetRanges(on bool) {
	b.settings.NoRanges = !on
	for _, w := range b.windows {
		w.session.SetRanging(on)
		w.refreshRanges()
	}
	b.keepSettings()
}
