package homes

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// TestSummary_Identity counts a list again from its cells.
func TestSummary_Identity(t *testing.T) {
	for _, sys := range []units.Locale{units.IP, units.SI} {
		out, s := screened(t, small(t)+strings.SplitAfterN(invented(t, 3, 30), "\n", 2)[0][:0], Options{Units: sys})
		rows := records(t, out)
		column := func(name string) int {
			for i, h := range rows[0] {
				if n, _, _ := strings.Cut(h, " "); n == name {
					return i
				}
			}
			return -1
		}
		verdicts, limits, upgrades, faulty := map[string]int{}, map[string]int{}, map[string]int{}, 0
		for _, r := range rows[1:] {
			if r[len(r)-1] != "" {
				faulty++
				continue
			}
			verdicts[r[column("study_verdict")]]++
			upgrades[r[column("study_upgrade")]]++
			for _, code := range strings.Fields(r[column("study_limits")]) {
				limits[code]++
			}
		}
		assert.Equal(t, len(rows)-1, s.Homes)
		assert.Equal(t, faulty, s.Faulty)
		for _, c := range []struct {
			want map[string]int
			got  []Count
		}{{verdicts, s.Verdicts}, {limits, s.Limits}, {upgrades, s.Upgrades}} {
			got := map[string]int{}
			for _, n := range c.got {
				got[n.Name] = n.Homes
			}
			assert.Equal(t, c.want, got)
		}
		for _, b := range []Bins{s.AirflowPerCapacity, s.ExternalStatic} {
			sum := b.Under + b.Over
			for _, n := range b.Homes {
				sum += n
			}
			assert.Equal(t, s.Homes-s.Faulty, sum, b.Name)
		}
	}
}

func TestBins(t *testing.T) {
	b := Bins{Low: 0, Step: 0.1, Homes: make([]int, 5)}
	for _, cell := range []string{"-0.01", "0", "0.099", "0.1", "0.3", "0.499", "0.5", "7", ""} {
		b.add(cell)
	}
	assert.Equal(t, Bins{Low: 0, Step: 0.1, Homes: []int{2, 1, 0, 1, 1}, Under: 1, Over: 2}, b)
}

// TestTallyBound: a list in which every upgrade has a name of its own
// does not grow the summary.
func TestTallyBound(t *testing.T) {
	ta := newTally(0, units.IP)
	record := make([]string, len(results)+1)
	for i := range 5000 {
		record[ta.upgradeAt] = fmt.Sprint("upgrade ", i)
		ta.count(record)
	}
	s := ta.summary()
	assert.Len(t, s.Upgrades, mostNames+1)
	assert.Equal(t, Count{otherNames, 5000 - mostNames}, s.Upgrades[0])
}

func TestSummaryText_Golden(t *testing.T) {
	s := Summary{Homes: 12, Faulty: 2, Verdicts: []Count{{"stop", 1}, {"caution", 6}, {"good", 3}},
		Limits: []Count{{"static_high", 7}, {"something_new", 1}}, Upgrades: []Count{{DeeperCabinet, 6}, {NoneNeeded, 3}, {NoneHelps, 1}}}
	var b bytes.Buffer
	require.NoError(t, s.Write(&b, units.IP))
	assert.Equal(t, `12 homes: 10 solved, 2 at fault
Verdict on today:
         1   10.0 %  stop
         6   60.0 %  caution
         3   30.0 %  good
Homes that miss a limit today:
         7   70.0 %  static_high: external static over the rated
         1   10.0 %  something_new
The upgrade that helps most:
         6   60.0 %  deeper cabinet
         3   30.0 %  none needed
         1   10.0 %  none helps
`, b.String())
}
