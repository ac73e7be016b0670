package homes

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// sample is a cell that a column accepts.
func sample(c column) string {
	kind := c.Kind.String()
	switch {
	case kind == "points":
		return "1400 @ 0.1 @ 450; 500 L/s @ 120 Pa @ 400 W"
	case kind == "nominal size":
		return "20x25x2"
	case kind == "whole number":
		return "7"
	case kind == "number":
		return "0.8"
	case kind == "yes or no":
		return "yes"
	case strings.HasPrefix(kind, "one of "):
		words := strings.Split(strings.TrimPrefix(kind, "one of "), ", ")
		return words[len(words)-1]
	case strings.HasPrefix(kind, "any of "):
		return "ifgc title_24_part_6"
	case c.kind != nil:
		return "7 " + c.kind.Units[0].Name
	}
	return "words"
}

// TestColumns: every column has a name of its own, says what it means,
// and its cell reaches the job at the path that faults are found by.
func TestColumns(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range columns {
		require.False(t, seen[c.Name], c.Name)
		seen[c.Name] = true
		assert.Equal(t, snake(c.Name), c.Name)
		assert.NotEmpty(t, c.Text, c.Name)

		cells, names := []string{sample(c)}, []string{c.Name}
		for _, needed := range [][2]string{{"slot", "16x25x1"}, {"option_merv", "8"}, {"option_2_merv", "8"}, {"option_3_merv", "8"}, {"option_4_merv", "8"}, {"return_drop", "5 Pa"}} {
			built := strings.HasPrefix(c.Name, "return_grille") || strings.HasPrefix(c.Name, "return_duct")
			if needed[0] != c.Name && !strings.HasPrefix(c.Name, "slot_") && !(built && needed[0] == "return_drop") {
				names, cells = append(names, needed[0]), append(cells, needed[1])
			}
		}
		h, err := readHeading(names)
		require.NoError(t, err, c.Name)
		with, faults := h.read(cells)
		require.Empty(t, faults, c.Name)
		cells[0] = ""
		without, faults := h.read(cells)
		require.Empty(t, faults, c.Name)
		a, err := json.Marshal(with.Job)
		require.NoError(t, err)
		b, err := json.Marshal(without.Job)
		require.NoError(t, err)
		assert.NotEqual(t, string(b), string(a), "%s reaches the job", c.Name)
		path := c.path
		for i, p := range with.filterPaths {
			path = strings.Replace(path, p, fmt.Sprintf("filters[%d]", i), 1)
		}
		for i, p := range with.optionPaths {
			path = strings.Replace(path, p, fmt.Sprintf("options[%d]", i), 1)
		}
		assert.NotNil(t, at(t, a, path), "%s: the job has %s", c.Name, path)
		assert.Equal(t, c.Name, with.columnAt(path, h.uses))
	}
	assert.Len(t, Columns(), len(columns))
}

// at follows a path such as filters[0].merv through a document.
func at(t *testing.T, document []byte, path string) any {
	var v any
	require.NoError(t, json.Unmarshal(document, &v))
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		switch w := v.(type) {
		case map[string]any:
			v = w[step]
		case []any:
			var i int
			_, err := fmt.Sscan(step, &i)
			require.NoError(t, err)
			if i >= len(w) {
				return nil
			}
			v = w[i]
		default:
			return nil
		}
	}
	return v
}

// TestColumnDefaults holds what the columns say of empty cells against
// what the engine assumes.
func TestColumnDefaults(t *testing.T) {
	study, err := sizing.Solve(sizing.Job{Schema: sizing.Schema, Equipment: sizing.Equipment{CoolingCapacity: 3 * units.Ton}})
	require.NoError(t, err)
	assumed := map[string]string{}
	for _, a := range study.Assumptions {
		assumed[a.Path] = a.Text.String()
	}
	for name, value := range map[string]string{
		"target_face_velocity": "300 fpm", "airflow_per_capacity": "400 cfm/ton", "heating_indoor": "68", "indoor_dry_bulb": "75", "power_price": "0.17",
		"cooling_hours": "1000 h", "change_months": "12 month", "rated_external_static": "0.5", "rise_high": "60", "duct_velocity": "700 fpm",
		"filter_merv": "8",
	} {
		c, err := columnNamed(name)
		require.NoError(t, err)
		path := c.path
		if name == "filter_merv" {
			path = "slot.filter"
		}
		assert.Contains(t, c.Text, "empty: ", name)
		assert.Contains(t, c.Text, value, name)
		assert.Contains(t, assumed[path], value, name)
	}
}

// TestSize_Identity reads nominal sizes as the trade writes them.
func TestSize_Identity(t *testing.T) {
	c, err := columnNamed("slot")
	require.NoError(t, err)
	for text, want := range map[string][3]units.Length{
		"16x25x1":             {16 * units.Inch, 25 * units.Inch, units.Inch},
		"16 X 25 x 1 in":      {16 * units.Inch, 25 * units.Inch, units.Inch},
		"16×25":               {16 * units.Inch, 25 * units.Inch, 0},
		"15 3/4x24 1/2x3/4\"": {15.75 * units.Inch, 24.5 * units.Inch, 0.75 * units.Inch},
		"500x625x25 mm":       {500 * units.Millimetre, 625 * units.Millimetre, 25 * units.Millimetre},
	} {
		h := &home{}
		require.NoError(t, c.set(h, text, ""), text)
		assert.InDelta(t, want[0].SI(), h.Slot.Width.SI(), 1e-12, text)
		assert.InDelta(t, want[1].SI(), h.Slot.Height.SI(), 1e-12, text)
		assert.InDelta(t, want[2].SI(), h.Slot.Depth.SI(), 1e-12, text)
	}
	for _, text := range []string{"16", "16x", "x25", "16x25x1x2", "a16x25", "16x0x1", "16x25 kg", "1/0x25"} {
		assert.Error(t, c.set(&home{}, text, ""), text)
	}
}

// TestReturnDrop_Identity: a return known by one drop takes just that at that
// airflow, and by the square of the airflow elsewhere.
func TestReturnDrop_Identity(t *testing.T) {
	h, err := readHeading([]string{"cooling_capacity", "return_drop", "return_airflow"})
	require.NoError(t, err)
	with, faults := h.read([]string{"3 ton", "0.2 in. w.c.", "1000 cfm"})
	require.Empty(t, faults)
	study, err := with.solve()
	require.NoError(t, err)
	clean := study.Today().Clean
	q := clean.Airflow.In(1000 * units.CFM)
	want := 0.2 * q * q * study.Air.DensityRatio
	require.Equal(t, sizing.PartReturn, clean.Parts[0].Name)
	assert.InEpsilon(t, want, clean.Parts[0].Drop.In(units.InchWater), 1e-3)
	open, faults := h.read([]string{"3 ton", "0.2 in. w.c.", ""})
	require.Empty(t, faults)
	assert.InDelta(t, 1200, open.Returns[0].Grille.Rating[0].Airflow.In(units.CFM), 1e-9)
}
