package homes

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Summary is the totals of a list of homes. It is counted from the cells that
// were written, so that a resumed run gives the same totals.
type Summary struct {
	Homes  int // rows of the list
	Faulty int // of them not solved

	Verdicts []Count // of today, worst first
	Limits   []Count // missed today, by code, the most frequent first
	Upgrades []Count // the one that helps most, the most frequent first

	AirflowPerCapacity Bins
	ExternalStatic     Bins
}

// Count is how many homes share a word.
type Count struct {
	Name  string
	Homes int
}

// Bins count homes by a number, in the unit of the screening.
type Bins struct {
	Name        message.ID
	Unit        string
	Low, Step   float64 // the first bin is from Low to Low + Step
	Homes       []int
	Under, Over int // outside the bins
}

// tally counts the rows that were written.
type tally struct {
	own                                           int // columns of the list itself
	s                                             Summary
	verdicts, limits, upgrades                    map[string]int
	verdictAt, limitsAt, upgradeAt, perAt, statAt int
}

func newTally(own int, sys units.Locale) *tally {
	t := &tally{own: own, verdicts: map[string]int{}, limits: map[string]int{}, upgrades: map[string]int{},
		verdictAt: own + resultAt(verdictColumn), limitsAt: own + resultAt(limitsColumn), upgradeAt: own + resultAt(upgradeColumn),
		perAt: own + resultAt(perCapacityColumn), statAt: own + resultAt(staticColumn)}
	t.s.AirflowPerCapacity = Bins{Name: "airflow per cooling capacity", Unit: units.CFMPerTon.Kind().Usual(sys).Name, Low: 150, Step: 25, Homes: make([]int, 16)}
	t.s.ExternalStatic = Bins{Name: "external static", Unit: units.Pascal.Kind().Usual(sys).Name, Low: 0, Step: 0.1, Homes: make([]int, 16)}
	if sys.System == units.Metric {
		t.s.AirflowPerCapacity.Low, t.s.AirflowPerCapacity.Step = 20, 3
		t.s.ExternalStatic.Step = 25
	}
	return t
}

// mostNames bounds how many names of upgrades are listed separately.
const mostNames = 200

const otherNames = "other upgrades"

func (t *tally) count(record []string) {
	t.s.Homes++
	if record[len(record)-1] != "" {
		t.s.Faulty++
		return
	}
	t.verdicts[record[t.verdictAt]]++
	for code := range strings.FieldsSeq(record[t.limitsAt]) {
		t.limits[code]++
	}
	name := record[t.upgradeAt]
	if _, known := t.upgrades[name]; !known && len(t.upgrades) >= mostNames {
		name = otherNames
	}
	t.upgrades[name]++
	t.s.AirflowPerCapacity.add(record[t.perAt])
	t.s.ExternalStatic.add(record[t.statAt])
}

func (b *Bins) add(cell string) {
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		return
	}
	// A value on an edge belongs to the bin above; the small term compensates
	// for the rounding of the division.
	i := (v-b.Low)/b.Step + 1e-9
	switch {
	case i < 0:
		b.Under++
	case int(i) >= len(b.Homes):
		b.Over++
	default:
		b.Homes[int(i)]++
	}
}

func (t *tally) summary() Summary {
	s := t.s
	for _, v := range []sizing.Severity{sizing.Stop, sizing.Caution, sizing.Good} {
		if n := t.verdicts[string(v)]; n > 0 {
			s.Verdicts = append(s.Verdicts, Count{string(v), n})
		}
	}
	s.Limits, s.Upgrades = ranked(t.limits), ranked(t.upgrades)
	return s
}

func ranked(homes map[string]int) []Count {
	var out []Count
	for name, n := range homes {
		out = append(out, Count{name, n})
	}
	slices.SortFunc(out, func(a, b Count) int { return cmp.Or(cmp.Compare(b.Homes, a.Homes), cmp.Compare(a.Name, b.Name)) })
	return out
}

// limitWords describe a home that misses a limit.
var limitWords = map[string]message.ID{
	"off_table":          "the blower would run outside its table",
	"frost":              "the coil would frost",
	"frost_risk":         "the coil may frost",
	"supply_cool":        "supply air cool in heating",
	"rise_high":          "temperature rise over the nameplate",
	"rise_low":           "temperature rise under the nameplate",
	"rise_high_assumed":  "temperature rise high by an assumed nameplate",
	"rise_low_assumed":   "temperature rise low by an assumed nameplate",
	"airflow_low":        "airflow per cooling capacity low",
	"airflow_short":      "airflow short of design",
	"airflow_high":       "airflow per cooling capacity high",
	"static_high":        "external static over the rated",
	"face_velocity":      "face velocity over the target",
	"filter_drop":        "clean filter drop over its limit",
	"leak":               "air slips past the filter",
	"duct_velocity":      "air too fast in a return duct",
	"duct_friction":      "a return duct takes more than its limit",
	"undersized_parts":   "parts of the return are too small",
	"reading_off_table":  "measured static outside the blower table",
	"reading_airflow":    "gauge and study differ in airflow",
	"reading_part":       "gauge and study differ in a part",
	"reading_port":       "gauge and study differ at a port",
	"filter_found":       "the filter was found dirty, or of another make",
	"filter_reads_low":   "the filter takes less than a clean one of its make",
	"return_unlike":      "the return takes less than described",
	"unexplained_loss":   "the return takes more than described: look for the loss",
	"inside_handler":     "a port inside the air handler was read",
	"ports_swapped":      "two gauge ports may be swapped",
	"signs_mixed":        "gauge signs mixed up",
	"filter_over_return": "filter drop read over the whole suction",
	"filter_sum":         "gauge readings do not add up",
	"tap_cooling":        "another tap suits cooling, or none does",
	"tap_heating":        "another tap suits heating, or none does",
	"ashrae622_merv":     "MERV under ASHRAE 62.2 (check the official text)",
	"ifgc_return_area":   "return ducts under the fuel gas code (check the official text)",
	"title24_grilles":    "filter grilles under Title 24 (check the official text)",
	"title24_ducts":      "return ducts under Title 24's table (check the official text)",
	"title24_run":        "a return run longer than Title 24's table allows (check the official text)",
	"title24_bends":      "more bends than Title 24's table allows (check the official text)",
	"title24_table_drop": "clean filter drop over what Title 24's table allows (check the official text)",
	"title24_unmeasured": "airflow and watts not known for Title 24 (check the official text)",
	"title24_efficacy":   "fan efficacy over Title 24 (check the official text)",
	"title24_airflow":    "airflow under Title 24 (check the official text)",
	"title24_merv":       "MERV under Title 24 (check the official text)",
	"title24_face":       "filter face under Title 24 (check the official text)",
	"title24_drop":       "clean filter drop over Title 24 (check the official text)",
}

// shownUpgrades is how many names of upgrades are printed.
const shownUpgrades = 12

// upgradeNames are the names that the screening gives.
var upgradeNames = map[string]message.ID{
	LargerSlot: "larger slot", DeeperCabinet: "deeper cabinet", NoneNeeded: "none needed", NoneHelps: "none helps", otherNames: "other upgrades",
}

func (c Count) upgrade(l units.Locale) string {
	if name, ok := upgradeNames[c.Name]; ok {
		return message.Text(l, name)
	}
	return c.Name
}

func (c Count) limit(l units.Locale) string {
	if words, ok := limitWords[c.Name]; ok {
		return message.Text(l, "{code}: {limit}", "code", c.Name, "limit", words)
	}
	return c.Name
}

// Write prints the summary for a person.
func (s Summary) Write(w io.Writer, l units.Locale) error {
	var b strings.Builder
	solved := s.Homes - s.Faulty
	line := func(n int, words string) {
		fmt.Fprintf(&b, "  %8d  %s %%  %s\n", n, l.Mark(fmt.Sprintf("%5.1f", 100*float64(n)/float64(max(solved, 1)))), words)
	}
	say := func(id message.ID, args ...any) { b.WriteString(message.Text(l, id, args...) + "\n") }
	say("{count} homes: {solved} solved, {faulty} at fault", "count", s.Homes, "solved", solved, "faulty", s.Faulty)
	if solved > 0 {
		say("Verdict on today:")
		for _, c := range s.Verdicts {
			line(c.Homes, sizing.Severity(c.Name).Show(l))
		}
		say("Homes that miss a limit today:")
		for _, c := range s.Limits {
			line(c.Homes, c.limit(l))
		}
		if len(s.Limits) == 0 {
			b.WriteString("  " + message.Text(l, "none") + "\n")
		}
		say("The upgrade that helps most:")
		rest := 0
		for i, c := range s.Upgrades {
			if i < shownUpgrades {
				line(c.Homes, c.upgrade(l))
			} else {
				rest += c.Homes
			}
		}
		if rest > 0 {
			line(rest, message.Text(l, "others"))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
