package gui

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestDeps keeps the screens apart and the window free of a display: what a
// screen shares lies below it, and only the program imports the toolkit's app.
func TestDeps(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./...").Output()
	require.NoError(t, err)
	shared := []string{"session", "form", "lang", "widgets", "fields", "parse", "blowertable", "blowertable/paste", "chart", "airpath", "table", "notices", "look", "outcome", "guitest"}
	const gui = "returnbench/gui"
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		from := words[0]
		for _, to := range words[1:] {
			require.NotEqual(t, "fyne.io/fyne/v2/app", to, "%s: the window must be drawn without a display", from)
			if from == gui {
				continue
			}
			require.NotEqual(t, gui, to, "%s: what is in the shell does not belong to a screen", from)
			if name, in := strings.CutPrefix(to, gui+"/"); in {
				require.True(t, slices.Contains(shared, name), "%s imports the screen %s", from, to)
			}
		}
	}
}
