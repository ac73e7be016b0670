package session

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestDeps keeps the session free of the toolkit, of charts and of the disk.
func TestDeps(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{join .Deps "\n"}}`, ".").Output()
	require.NoError(t, err)
	for _, forbidden := range []struct{ prefix, why string }{
		{"fyne.io/", "the session runs without a window"},
		{"gonum.org/v1/plot", "charts are drawn from the Study, not in the session"},
		{"returnbench/plots", "charts are drawn from the Study, not in the session"},
		{"returnbench/sizing/jobfile", "the disk is reached through an injected Store"},
		{"returnbench/gui", "the session is below every screen"},
	} {
		for dep := range strings.SplitSeq(string(out), "\n") {
			require.False(t, strings.HasPrefix(dep, forbidden.prefix), "imports %s: %s", dep, forbidden.why)
		}
	}
}
