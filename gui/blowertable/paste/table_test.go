package paste

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

// TestDeps keeps the toolkit out: the parser is used and tested without a window.
func TestDeps(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", ".").Output()
	require.NoError(t, err)
	require.Contains(t, string(out), "returnbench/sizing/units")
	for dep := range strings.Lines(string(out)) {
		require.NotContains(t, dep, "fyne.io")
	}
}

func TestReadCutsCells(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		head []string
		rows [][]string
	}{
		"tabs":              {"ESP\tcfm\n0.1\t1400\n0.5\t1150\n", []string{"ESP", "cfm"}, [][]string{{"0.1", "1400"}, {"0.5", "1150"}}},
		"semicolons":        {"0,1;1400\n0,5;1150", nil, [][]string{{"0.1", "1400"}, {"0.5", "1150"}}},
		"commas":            {"0.1,1400\n0.5,1150", nil, [][]string{{"0.1", "1400"}, {"0.5", "1150"}}},
		"blanks":            {"ESP  Airflow\n0.1 1,400\n0.5 1,150", []string{"ESP", "Airflow"}, [][]string{{"0.1", "1,400"}, {"0.5", "1,150"}}},
		"carriage returns":  {"0.1\t1400\r\n0.5\t1150\r\n", nil, [][]string{{"0.1", "1400"}, {"0.5", "1150"}}},
		"a column of four":  {"1,400\n1,300\n1,150\n900", nil, [][]string{{"1,400"}, {"1,300"}, {"1,150"}, {"900"}}},
		"two words of head": {"External static  High tap\n0.1 1400\n0.5 1150", []string{"External static", "High tap"}, [][]string{{"0.1", "1400"}, {"0.5", "1150"}}},
	} {
		p := Read(c.text)
		if assert.NotNil(t, p, name) {
			assert.Equal(t, c.head, p.Head, name)
			assert.Equal(t, c.rows, p.Rows, name)
		}
	}
	assert.Nil(t, Read("1400"), "one cell is left to the entry")
	assert.Nil(t, Read("1,400"), "a comma before three digits splits nothing")
}

func TestColumnOrderFollowsTheHeading(t *testing.T) {
	p := Read("Watts\tCFM\tNote\tESP (Pa)\n480\t1400\tnew\t25\n430\t1150\told\t125\n")
	require.Equal(t, []int{Power, Airflow, NoColumn, Static}, p.ColumnOrder())
	require.Equal(t, "Pa", HeadingUnit(p.Head[3], Static))
	require.Nil(t, Read("0.1\t1400\n0.5\t1150\n").ColumnOrder(), "no heading, no order")
}

// A cell of 1,440 past the static is a whole number with a comma before three digits, not
// 1.44; a dash says that the tap does not reach the static.
func TestCellsOfAnAirflowColumn(t *testing.T) {
	p := Read("ESP\tHigh\tLow\n0.1\t1,440\t-\n0.3\t1,345\tn/a\n")
	require.Equal(t, "1440", p.Cell(0, 1))
	require.Empty(t, p.Cell(0, 2))
	require.Empty(t, p.Cell(1, 2))
	require.Empty(t, p.Cell(1, 7), "past the end of a row")
}

func FuzzRead(f *testing.F) {
	f.Add("ESP\tHigh\tLow\n0.1\t1440\t1000\n0.5\t1230\t-\n")
	f.Add("0,1;1400\n0,5;1150")
	f.Add("Static (in. w.c.)  CFM\n0.1 1,400\n")
	f.Fuzz(func(t *testing.T, text string) {
		p := Read(text)
		if p == nil {
			return
		}
		for i := range p.Rows {
			for c := range p.Width() {
				p.Cell(i, c)
			}
		}
		if order := p.ColumnOrder(); order != nil && len(order) != p.Width() {
			t.Fatalf("%d columns in order of %d", len(order), p.Width())
		}
		for _, sys := range []units.Locale{units.IP, units.SI} {
			is, doubt := p.IsTapTable(sys)
			if is && doubt != "" {
				t.Fatalf("a table of taps that is doubted: %s", doubt)
			}
			if taps, fault := p.Taps(sys); fault != "" && taps != nil {
				t.Fatalf("taps beside the fault %s", fault)
			}
		}
	})
}
