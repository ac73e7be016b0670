package gui

import (
	"context"
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
)

// held is a Sample that waits in a queue until the test lets it run.
type held struct{ waiting []func() }

func (h *held) run(work, done func()) { h.waiting = append(h.waiting, func() { work(); done() }) }

func (h *held) next() {
	f := h.waiting[0]
	h.waiting = h.waiting[1:]
	f()
}

// rangingBench solves and samples when the test lets it.
func rangingBench(t testing.TB, sample session.Sample) (*Bench, *held) {
	t.Helper()
	h := &held{}
	b, err := New(test.NewApp(), Options{Dir: t.TempDir(), Run: h.run, Sample: sample})
	require.NoError(t, err)
	for len(h.waiting) > 0 {
		h.next()
	}
	b.put(example(t, "one-inch-slot"), "")
	h.next() // the study
	return b, h
}

func fewSamples(ctx context.Context, job sizing.Job, done func(int)) ([]sizing.OptionRange, error) {
	return sizing.Sampling{Samples: 30, Seed: 1, Workers: 1, Done: done}.Ranges(ctx, job)
}

// helps counts the findings in view that say that an option helps.
func helps(b *Bench) int {
	b.goTo("findings")
	n := 0
	for _, f := range sizing.RangeFindings(b.session.Ranges()) {
		if f.Code == "upgrade_helps" {
			n++
		}
	}
	return n
}

func TestRangesComeAfterTheStudyAndClaimNothingBefore(t *testing.T) {
	b, h := rangingBench(t, fewSamples)
	require.NotNil(t, b.session.Study(), "the study does not wait")
	require.Contains(t, b.foot.state.Text, "0 %")
	require.True(t, b.foot.act.Visible())
	require.Zero(t, helps(b))
	require.Contains(t, b.session.RangeWords(), "no option is called better")
	h.next()
	require.Contains(t, b.foot.state.Text, "±")
	require.False(t, b.foot.act.Visible())
	require.Positive(t, helps(b))
}

func TestRangesAreCancelledFromTheFootAndGoOn(t *testing.T) {
	b, h := rangingBench(t, fewSamples)
	b.foot.turn()
	require.Contains(t, b.foot.state.Text, "cancelled")
	h.next()
	require.Nil(t, b.session.Ranges())
	b.foot.turn()
	h.next()
	require.NotNil(t, b.session.Ranges())
}

func TestRangesSwitchIsRemembered(t *testing.T) {
	b, h := rangingBench(t, fewSamples)
	h.next()
	b.foot.on.SetChecked(false)
	require.Nil(t, b.session.Ranges())
	require.Equal(t, session.RangesOff, b.session.RangeProgress().State)
	later, err := New(test.NewApp(), Options{Dir: b.userFolder.dir, Run: session.InStep, Sample: fewSamples})
	require.NoError(t, err)
	require.False(t, later.session.Ranging())
	require.False(t, later.foot.on.Checked)
	item(t, later, "Ranges").Action()
	require.True(t, later.session.Ranging())
	require.True(t, later.foot.on.Checked)
}

func TestRangesThatFailAreShownInProblems(t *testing.T) {
	b, h := rangingBench(t, func(context.Context, sizing.Job, func(int)) ([]sizing.OptionRange, error) {
		return nil, errors.New("30 of 200 samples have no solution")
	})
	h.next()
	require.Contains(t, b.foot.state.Text, "see Problems")
	require.True(t, strings.Contains(b.session.RangeWords(), "30 of 200"))
	require.Zero(t, helps(b))
}

// The words of the foot are of one line or two; the foot gives both their room.
func TestTheFootHoldsItsWords(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1366, 768))
	b.foot.state.Show()
	b.foot.state.SetText("one")
	b.nav.layOutFoot()
	one := b.foot.box.Size().Height
	b.foot.state.SetText("one\ntwo")
	b.nav.layOutFoot()
	require.Greater(t, b.foot.box.Size().Height, one)
	require.Equal(t, b.foot.box.MinSize().Height, b.foot.box.Size().Height)
}
