package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the program tells the toolkit is there before the toolkit reads it.
func TestTheToolkitStartsAfterItsVariablesAreSet(t *testing.T) {
	c := program("version")
	c.Env = append(c.Env, "GODEBUG=inittrace=1")
	var trace bytes.Buffer
	c.Stderr = &trace
	require.NoError(t, c.Run())
	at := func(name string) int {
		i := strings.Index(trace.String(), "init "+name+" @")
		require.NotEqual(t, -1, i, name)
		return i
	}
	told := at("returnbench/gui/toolkit")
	require.Less(t, told, at("fyne.io/fyne/v2/internal/cache"))
	require.Less(t, told, at("fyne.io/fyne/v2/lang"))
}
