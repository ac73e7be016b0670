package export

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"returnbench/assets"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

func rangedDocument(t testing.TB, name string, workers int) Document {
	t.Helper()
	data, err := assets.Open(name)
	require.NoError(t, err)
	job, err := jobfile.Read(data)
	require.NoError(t, err)
	options, err := sizing.Sampling{Samples: 30, Seed: 5, Workers: workers}.Ranges(context.Background(), job)
	require.NoError(t, err)
	return Document{Study: studyOf(t, name), Ranges: NewRanges(options, 30, 5)}
}

// forms are the ways in which a document is written, with its name.
func forms(t testing.TB, d Document) map[string]string {
	t.Helper()
	out := map[string]string{}
	var b bytes.Buffer
	require.NoError(t, d.JSON(&b, units.IP))
	out["json"] = b.String()
	b.Reset()
	require.NoError(t, d.CSV(&b, units.IP))
	out["csv"] = b.String()
	b.Reset()
	require.NoError(t, d.Summary(&b, units.IP))
	out["text"] = b.String()
	return out
}

// TestRanges_Forms: the ranges stand in every form at full precision,
// the same with any number of workers, and nowhere without being asked for.
func TestRanges_Forms(t *testing.T) {
	d := rangedDocument(t, "two-returns", 1)
	got := forms(t, d)
	require.Equal(t, got, forms(t, rangedDocument(t, "two-returns", 3)), "the same bytes")
	for name, text := range forms(t, Document{Study: d.Study}) {
		require.NotContains(t, text, `"ranges"`, name)
		require.NotContains(t, text, "30 samples", name)
		require.NotEqual(t, text, got[name])
	}

	var doc map[string]any
	require.NoError(t, json.Unmarshal([]byte(got["json"]), &doc))
	require.EqualValues(t, 30, at(t, doc, "ranges.samples"))
	require.EqualValues(t, sizing.RangeShare, at(t, doc, "ranges.share"))
	for i, r := range d.Ranges.Options {
		require.Equal(t, r.Name, at(t, doc["ranges"].(map[string]any)["options"].([]any)[i], "name"))
	}
	sameQuantity(t, at(t, doc, "ranges.options.2.airflow.low"), d.Ranges.Options[2].Airflow.Low, units.IP)
	require.Equal(t, d.Ranges.Findings[0].In(units.IP), at(t, doc, "ranges.findings.0.text"))

	parts := strings.Split(got["csv"], "\n\n")
	require.Len(t, parts, 3)
	rows, err := csv.NewReader(strings.NewReader(parts[2])).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+len(d.Ranges.Options))
	require.Equal(t, []string{"option", "airflow from, cfm", "airflow to, cfm"}, rows[0][:3])
	last := len(rows[0]) - 5
	require.Equal(t, []string{"airflow against today", "watts against today", "filter drop against today", "annual cost against today"}, rows[0][last:last+4])
	for i, r := range d.Ranges.Options {
		if r.Kind != sizing.KindOption {
			require.Equal(t, []string{"", "", "", "", ""}, rows[1+i][last:])
			continue
		}
		require.Equal(t, string(r.MoreAir.Claim()), rows[1+i][last])
		require.Equal(t, string(r.CheaperAYear.Claim()), rows[1+i][last+3])
	}

	flat := strings.Join(strings.Fields(got["text"]), " ")
	require.Contains(t, flat, "90 % of 30 samples (seed 5)")
	require.Contains(t, flat, d.Ranges.Findings[0].In(units.IP))
}

func TestRanges_Workbook(t *testing.T) {
	d := rangedDocument(t, "two-returns", 2)
	var b bytes.Buffer
	require.NoError(t, d.XLSX(&b, units.SI, About{}))
	f, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	rows, err := f.GetRows("Ranges")
	require.NoError(t, err)
	require.Len(t, rows, 1+len(d.Ranges.Options))
	require.Equal(t, "airflow from, L/s", rows[0][1])
}

// TestRanges_Unsolved: samples without a solution are reported in every form.
func TestRanges_Unsolved(t *testing.T) {
	d := rangedDocument(t, "one-inch-slot", 1)
	const note = "2 of 30 samples have no solution and are left out."
	for _, text := range forms(t, d) {
		require.NotContains(t, text, "no solution")
	}
	for i := range d.Ranges.Options {
		d.Ranges.Options[i].Samples, d.Ranges.Options[i].Unsolved = 28, 2
	}
	got := forms(t, d)
	require.Contains(t, strings.Join(strings.Fields(got["text"]), " "), note)
	require.Contains(t, got["json"], `"unsolved": 2`)
	require.Equal(t, note, sizing.UnsolvedNote(d.Ranges.Options).String())
	d.Ranges.Options[0].Samples, d.Ranges.Options[0].Unsolved = 29, 1
	require.Equal(t, "1 of 30 samples has no solution and is left out.", sizing.UnsolvedNote(d.Ranges.Options).String())
}
