package report

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden texts anew")

var anyNumber = regexp.MustCompile(`\d+(?:\.\d+)?`)

// TestText_Golden pins the words of every page and their order. Numbers are
// left out: TestReadBack_Identity holds them against the Study.
func TestText_Golden(t *testing.T) {
	for _, name := range []string{"one-inch-slot", "two-returns", "metric-altitude"} {
		job, s := studied(t, name)
		for _, a := range Audiences() {
			if a == Working && name != "one-inch-slot" {
				continue
			}
			pages := readPages(t, written(t, job, s, testOptions(a, Letter, systemOf(name))))
			got := anyNumber.ReplaceAllString(allText(pages), "#") + "\n"
			file := filepath.Join("testdata", name+"."+string(a)+".txt")
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(file, []byte(got), 0o600))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), got, "%s; go test -run Golden -update writes it anew", file)
		}
	}
}
