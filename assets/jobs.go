package assets

import (
	"embed"
	"fmt"
	"path"
	"slices"
	"strings"

	"returnbench/sizing/message"
)

// Example is a ready job: an invented house with a question.
type Example struct {
	Name     string // for Open and for the command line: "one-inch-slot"
	Title    message.ID
	Question message.ID
	File     string // "one-inch-slot.job.json"
}

const suffix = ".job.json"

//go:embed jobs
var jobs embed.FS

var examples = []Example{
	{
		Name:     "one-inch-slot",
		Title:    "A fine filter in a one-inch slot",
		Question: "Three tons on a 20x20x1 slot: what does the filter take, and what is the least that has to change?",
	},
	{
		Name:     "constant-airflow",
		Title:    "A blower that hides its filter",
		Question: "The airflow never falls: how many watts does the filter cost, and does a deeper cabinet pay?",
	},
	{
		Name:     "two-returns",
		Title:    "Two filter grilles in stud bays",
		Question: "Two returns in parallel: which one is too small, and does the wall have room for what it needs?",
	},
	{
		Name:     "metric-altitude",
		Title:    "Thin air, in SI units",
		Question: "At 1800 m a litre of air carries less heat: does the furnace stay inside its temperature rise?",
	},
}

// Examples lists the ready jobs, the one to begin with first.
func Examples() []Example {
	out := slices.Clone(examples)
	for i := range out {
		out[i].File = out[i].Name + suffix
	}
	return out
}

// Open gives the text of a ready job by its name or its file's name.
func Open(name string) ([]byte, error) {
	file := strings.TrimSuffix(name, suffix) + suffix
	data, err := jobs.ReadFile(path.Join("jobs", file))
	if err != nil {
		return nil, fmt.Errorf("no example %q; there are %s", name, strings.Join(names(), ", "))
	}
	return data, nil
}

func names() []string {
	out := make([]string, len(examples))
	for i, e := range examples {
		out[i] = e.Name
	}
	return out
}
