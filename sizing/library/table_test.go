package library

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

func TestTablesComeBack_Identity(t *testing.T) {
	for _, item := range examples() {
		kind := item.Kind()
		var out bytes.Buffer
		err := WriteTable(&out, kind, []Item{item})
		if kind == Templates {
			assert.ErrorContains(t, err, "whole job")
			_, err = ReadTable(&out, kind)
			assert.ErrorContains(t, err, "whole job")
			continue
		}
		require.NoError(t, err)
		back, err := ReadTable(&out, kind)
		require.NoError(t, err, "%s", kind)
		assert.Equal(t, []Item{item}, back)
	}
}

// Any filters and any tables of blowers come back from a table as they went.
func TestRandomTablesComeBack_Identity(t *testing.T) {
	words := rapid.OneOf(rapid.StringMatching(`[=+@'-][A-Za-z0-9()" ,;]{0,12}`), rapid.StringMatching(`[A-Za-z][A-Za-z0-9 ,;"'=]{0,20}[a-z]`))
	rapid.Check(t, func(t *rapid.T) {
		var items []Item
		seen := map[string]bool{}
		for range rapid.IntRange(1, 5).Draw(t, "items") {
			name := strings.TrimSpace(words.Draw(t, "name"))
			if name == "" || seen[name] {
				continue
			}
			seen[name] = true
			b := Blower{Name: name}
			b.Plate.Maker = strings.TrimSpace(words.Draw(t, "maker"))
			for i := range rapid.IntRange(0, 3).Draw(t, "taps") {
				tap := blower.Tap{Name: strings.Repeat("t", i+1)}
				airflow := rapid.Float64Range(1500, 2000).Draw(t, "airflow")
				for k := range rapid.IntRange(2, 6).Draw(t, "points") {
					tap.Points = append(tap.Points, blower.Point{ExternalStatic: units.Pressure(k) * 0.1 * units.InchWater, Airflow: units.Flow(airflow-float64(100*k)) * units.CFM})
				}
				b.Equipment.Blower.Taps = append(b.Equipment.Blower.Taps, tap)
			}
			items = append(items, Item{Blower: &b, Source: strings.TrimSpace(words.Draw(t, "source"))})
		}
		var out bytes.Buffer
		require.NoError(t, WriteTable(&out, Blowers, items))
		text := out.String()
		back, err := ReadTable(&out, Blowers)
		require.NoError(t, err, "%s", text)
		require.Len(t, back, len(items))
		for i := range items {
			require.Equal(t, items[i], back[i], "%s", text)
		}
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		for _, cell := range rows[1] {
			if cell != "" {
				require.False(t, strings.ContainsRune("=@", rune(cell[0])), "a spreadsheet takes %q for a formula", cell)
			}
		}
	})
}

func TestFormulaIsGuarded(t *testing.T) {
	var out bytes.Buffer
	name := `=HYPERLINK("http://example.invalid","x")`
	require.NoError(t, WriteTable(&out, Filters, []Item{FilterOf(filter.Filter{Name: name})}))
	assert.Contains(t, out.String(), `"'=HYPERLINK(`)
	back, err := ReadTable(&out, Filters)
	require.NoError(t, err)
	assert.Equal(t, name, back[0].Name())
}

func TestTableAsPeopleType(t *testing.T) {
	text := "\ufeffname;width [in];height [in];depth [in];merv;price [$];rating[].face_velocity [fpm];rating[].drop [in. w.c.]\r\n" +
		"Pleat A;20;25;1;8;6.50;300;0.14\r\n" +
		";;;;;;450;0.23\r\n" +
		";;;;;;;\r\n" +
		"Pleat B;16 in;400 mm;1;11;7;300;30 Pa\r\n"
	items, err := ReadTable(strings.NewReader(text), Filters)
	require.NoError(t, err)
	require.Len(t, items, 2)
	assert.Equal(t, []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.14 * units.InchWater}, {FaceVelocity: 450 * units.FPM, Drop: 0.23 * units.InchWater}}, items[0].Filter.Rating)
	assert.InDelta(t, 0.4, items[1].Filter.Height.SI(), 1e-12)
}

func TestTableFaultsAreAllNamed(t *testing.T) {
	for text, says := range map[string][]string{
		"":                        {"empty"},
		"widht,name\n1,2\n":       {`column 1: "widht"`, `"width"`},
		"name,name\n":             {"name again"},
		"width\n20 in\n":          {`no column "name"`},
		"name,merv [in]\nA,8\n":   {"merv has no unit"},
		"name,width [fpm]\nA,8\n": {`"fpm" is not a unit of length`},
		"name,width\nA,20\n":      {"line 2: width"},
		"name,width,height\nA,twenty,25 in\nB,20 in,x\n": {"line 2: width", "line 3: height"},
		"name,merv\nA,19\n":           {`line 2: "A": merv`, "ASHRAE 52.2"},
		"name,merv\n,8\n":             {"line 2: the row belongs to no item"},
		"name\nA,B\n":                 {"2 cells under 1 headings"},
		"name,bracing\nA,glue\n":      {"line 2: bracing", "glue"},
		"name,width\n\"A,20 in\n":     {"line"},
		"name\nA\xff\n":               {"UTF-8"},
		"name,efficiency\nA,0.1; x\n": {"line 2: efficiency"},
	} {
		_, err := ReadTable(strings.NewReader(text), Filters)
		require.Error(t, err, "%q", text)
		for _, s := range says {
			assert.ErrorContains(t, err, s, "%q", text)
		}
	}
}

func FuzzReadTable(f *testing.F) {
	f.Add("name,width\nA,20 in\n", 0)
	f.Add("name,equipment.blower.taps[].name,equipment.blower.taps[].points[].airflow\nA,high,1000 cfm\n,,900 cfm\n", 1)
	f.Add("of,width,height\ngrille,20 in,20 in\n", 4)
	f.Add("name,efficiency\nA,0.1; 0.2\n", 0)
	f.Fuzz(func(t *testing.T, text string, n int) {
		kind := Kinds()[(n%len(Kinds())+len(Kinds()))%len(Kinds())]
		items, err := ReadTable(strings.NewReader(text), kind)
		if err != nil {
			return
		}
		var out bytes.Buffer
		require.NoError(t, WriteTable(&out, kind, items))
	})
}
