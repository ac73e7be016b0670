package export

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/sizing/units"
)

// A working leads to the number that it is the working of, whatever it tells of
// the number's spread after it.
func TestWorkingsLeadToTheirNumbers(t *testing.T) {
	first := regexp.MustCompile(`-?[0-9.]+`)
	for _, e := range assets.Examples() {
		study := studyOf(t, e.Name)
		tree := document(t, study, units.IP)["study"]
		held := 0
		for _, w := range study.Workings() {
			shown := first.FindString(strings.ReplaceAll(w.Result(units.IP), ",", ""))
			got, err := strconv.ParseFloat(shown, 64)
			if err != nil || !strings.HasPrefix(w.Key, "options[") {
				continue
			}
			path := strings.NewReplacer("[", ".", "]", "").Replace(w.Key)
			want, err := strconv.ParseFloat(first.FindString(text(at(t, tree, path))), 64)
			require.NoError(t, err, w.Key)
			if strings.HasSuffix(w.Result(units.IP), " %") {
				want *= 100
			}
			last := 0.5000001
			if _, digits, found := strings.Cut(shown, "."); found {
				for range digits {
					last /= 10
				}
			}
			assert.InDelta(t, want, got, last, "%s: %q", w.Key, w.Result(units.IP))
			held++
		}
		assert.Greater(t, held, 20, e.Name)
	}
}

func text(v any) string {
	if f, ok := v.(float64); ok {
		return strconv.FormatFloat(f, 'g', -1, 64)
	}
	s, _ := v.(string)
	return s
}
