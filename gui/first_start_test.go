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
	require.Len(t, b.openList()().Try, 3)
	require.Contains(t, guitest.Words(b.body), "Three things to try")
	b.openList()().Try[0].Open()
	require.Equal(t, problemsPlace, b.at)
	require.NotNil(t, b.session.Study())
	require.Empty(t, b.openList()().Try)

	again, err := New(test.NewApp(), Options{Dir: b.userFolder.dir, Run: session.InStep})
	require.NoError(t, err)
	require.Empty(t, again.openList()().Try, "nor in the next session")
	require.NotContains(t, guitest.Words(again.body), "Three things to try")

	item(t, b, "Three things to try").Action()
	answerWith(t, b, "Show it to a class")
	require.Equal(t, lessonPlace, b.at)
	require.False(t, b.busy())
}

func TestThreeThingsArePutAway(t *testing.T) {
	b := newBench(t)
	b.openList()().HideTry()
	require.Empty(t, b.openList()().Try)
	require.NotContains(t, guitest.Words(b.body), "Three things to try")
}

// Each leads where it says, on a job that solves.
func TestEachThingLeadsSomewhere(t *testing.T) {
	for i, want := range []string{problemsPlace, "compare", lessonPlace} {
		b := newBench(t)
		b.thingsToTry()[i].Open()
		require.Equal(t, want, b.at)
		require.False(t, b.busy())
	}
}
