package gui

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/guitest"
	"returnbench/gui/session"
)

// Three things to try are offered on an empty bench until one is tried or they
// are put away, and Help has them again.
func TestThreeThingsAreOfferedOnce(t *testing.T) {
	b := newBench(t)
	require.Len(t, b.shelf()().Try, 3)
	require.Contains(t, guitest.Words(b.body), "Three things to try")
	b.shelf()().Try[0].Open()
	require.Equal(t, problemsPlace, b.at)
	require.NotNil(t, b.session.Study())
	require.Empty(t, b.shelf()().Try)

	again, err := New(test.NewApp(), Options{Dir: b.own.dir, Run: session.InStep})
	require.NoError(t, err)
	require.Empty(t, again.shelf()().Try, "nor in the next session")
	require.NotContains(t, guitest.Words(again.body), "Three things to try")

	item(t, b, "Three things to try").Action()
	answerWith(t, b, "Show it to a class")
	require.Equal(t, lessonPlace, b.at)
	require.False(t, b.busy())
}

func TestThreeThingsArePutAway(t *testing.T) {
	b := newBench(t)
	b.shelf()().PutAway()
	require.Empty(t, b.shelf()().Try)
	require.NotContains(t, guitest.Words(b.body), "Three things to try")
}

// Each leads where it says, on a job that solves.
func TestEachThingLeadsSomewhere(t *testing.T) {
	for i, want := range []string{problemsPlace, "compare", lessonPlace} {
		b := newBench(t)
		b.things()[i].Open()
		require.Equal(t, want, b.at)
		require.False(t, b.busy())
	}
}
