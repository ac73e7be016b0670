package compare

import (
	"slices"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// preset is a choice of figures for who looks at them.
type preset struct {
	title message.ID
	keys  []string // of measures; nil: all
}

// presets begin with the one that a person sees first: what an owner asks.
var presets = []preset{
	{"Customer", []string{"airflow", "installed_merv", "leak", "filters_per_year", "annual_cost", "ten_year_cost"}},
	{"Technician", []string{
		"airflow", "airflow_loaded", "external_static", "external_static_loaded", "filter_drop", "filter_drop_loaded",
		"return_static", "blower_power", "blower_power_loaded", "temperature_rise", "face_velocity", "life", "verdict",
	}},
	{"All figures", nil},
}

// without are the keys that a preset leaves out. It is never nil, which in a
// view stands for the first preset.
func (p preset) without() []string {
	out := []string{}
	if p.keys == nil {
		return out
	}
	for _, m := range sizing.Measures() {
		if !slices.Contains(p.keys, m.Key) {
			out = append(out, m.Key)
		}
	}
	return out
}

// presetOf is the title of the preset that leaves out just these keys, as it is
// listed; empty: a choice of a person's own.
func presetOf(without []string) string {
	out := slices.Clone(without)
	slices.Sort(out)
	for _, p := range presets {
		want := p.without()
		slices.Sort(want)
		if slices.Equal(out, want) {
			return lang.T(p.title)
		}
	}
	return ""
}

func presetTitles() []string {
	var out []string
	for _, p := range presets {
		out = append(out, lang.T(p.title))
	}
	return out
}
