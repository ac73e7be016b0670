package assets

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"

	"returnbench/sizing/filter"
)

//go:embed filters.json
var filtersJSON []byte

// Library is a list of filters and where their figures are from.
type Library struct {
	Source  string          `json:"source"`
	Filters []filter.Filter `json:"filters"`
}

// Filters are generic filters by depth and MERV, to start a job from. They are
// invented: Source says so and goes wherever they are shown.
func Filters() (Library, error) { return readLibrary(filtersJSON) }

func readLibrary(data []byte) (Library, error) {
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	var l Library
	if err := decoder.Decode(&l); err != nil {
		return Library{}, fmt.Errorf("generic filters: %w", err)
	}
	return l, nil
}
