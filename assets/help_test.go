package assets

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each term has one sentence or two, in the order of the alphabet; the README
// shares the text by leading to it.
func TestTheHelpReadsWhole(t *testing.T) {
	h := ReadHelp("")
	require.NotEmpty(t, h.Places)
	for place, text := range h.Places {
		require.Regexp(t, `[.]$`, text, place)
	}
	var names []string
	for _, term := range h.Terms {
		require.NotEmpty(t, term.Name)
		require.Regexp(t, `[.]$`, term.Text, term.Name)
		require.LessOrEqual(t, strings.Count(term.Text, ". "), 2, term.Name)
		names = append(names, strings.ToLower(term.Name))
	}
	require.True(t, slices.IsSorted(names))
	for _, wanted := range []string{"external static", "face velocity", "merv", "free area", "tap", "temperature rise"} {
		require.Contains(t, names, wanted)
	}
	require.Equal(t, strings.Count(helpText(""), "\n- **"), len(h.Terms))
	require.Equal(t, strings.Count(helpText(""), ":* "), len(h.Numbers))
	require.GreaterOrEqual(t, len(h.Numbers), 15)
	require.Equal(t, len(h.Numbers), len(ReadHelp("es").Numbers))
	for _, number := range append(h.Numbers, ReadHelp("es").Numbers...) {
		require.Regexp(t, `(Rests|Se basa) .*[.]$`, number.Text, number.Name)
	}
	readme, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	require.Contains(t, string(readme), "(assets/help.md)")
}
