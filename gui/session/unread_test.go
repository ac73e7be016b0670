package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestUnreadTakesBackTheTypingBeforeIt(t *testing.T) {
	s := New(echo, InStep)
	s.Apply("Design airflow", airflow(1000*units.CFM))
	s.Type("design_airflow", "Design airflow", airflow(1*units.CFM))
	s.Type("design_airflow", "Design airflow", airflow(12*units.CFM))
	s.CannotRead(Unread{Path: "design_airflow", Name: "Design airflow", Text: "12x", Fault: "no", Typing: true})
	require.Equal(t, 1000*units.CFM, s.Job().DesignAirflow)
	require.Equal(t, "12x", s.UnreadAt("design_airflow").Text)

	s.EndTyping()
	require.False(t, s.Unread()[0].Typing)
	s.CannotRead(Unread{Path: "design_airflow", Name: "Design airflow", Text: "12xy", Fault: "no", Typing: true})
	require.False(t, s.Unread()[0].Typing, "once told it stays told")

	require.Equal(t, "Design airflow", s.UndoName())
	s.Undo()
	require.Empty(t, s.Unread())
	require.Equal(t, 1000*units.CFM, s.Job().DesignAirflow)
	s.Undo()
	require.Zero(t, s.Job().DesignAirflow)

	s.CannotRead(Unread{Path: "name", Text: "?", Fault: "no"})
	s.CanRead("name")
	require.Empty(t, s.Unread())
	s.CannotRead(Unread{Path: "name", Text: "?", Fault: "no"})
	s.Load(sizing.Job{}, "")
	require.Empty(t, s.Unread())
}

// A text stays with its thing of a list, wherever that goes.
func TestUnreadFollowsItsThing(t *testing.T) {
	at := func(names ...string) func(*sizing.Job) {
		return func(j *sizing.Job) {
			j.Returns = nil
			for _, n := range names {
				j.Returns = append(j.Returns, sizing.Return{Name: n})
			}
		}
	}
	for _, c := range []struct {
		name string
		to   []string
		want string
	}{
		{"added behind", []string{"a", "b", "c", "d"}, "returns[1].opening_width"},
		{"added before", []string{"x", "a", "b", "c"}, "returns[2].opening_width"},
		{"moved", []string{"b", "a", "c"}, "returns[0].opening_width"},
		{"another removed", []string{"b", "c"}, "returns[0].opening_width"},
		{"changed itself", []string{"a", "B", "c"}, "returns[1].opening_width"},
		{"removed", []string{"a", "c"}, ""},
	} {
		s := New(echo, InStep)
		s.Apply("Returns", at("a", "b", "c"))
		s.CannotRead(Unread{Path: "returns[1].opening_width", Text: "wide", Fault: "no"})
		s.Apply("Change", at(c.to...))
		require.Equal(t, c.want, func() string {
			if len(s.Unread()) == 0 {
				return ""
			}
			return s.Unread()[0].Path
		}(), c.name)
	}
}
