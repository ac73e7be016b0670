package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

func TestPaperFaults(t *testing.T) {
	j := least()
	j.Options = []Option{{Name: "deep"}}
	j.Quote = quote.Quote{TaxRate: 7, ValidDays: -2, Lines: []quote.Line{{Price: -1}, {Item: "cabinet", Option: "deeper", Count: -1}}}
	j.Work = quote.Work{CrewHours: 5000 * units.Hour, UnitWidth: 20 * units.Foot}
	var paths []string
	for _, f := range j.Check() {
		paths = append(paths, f.Path)
	}
	assert.Subset(t, paths, []string{"quote.tax_rate", "quote.valid_days", "quote.lines[0].item", "quote.lines[0].price",
		"quote.lines[1].count", "quote.lines[1].option", "work.crew_hours", "work.unit_width"})
	j.Quote = quote.Quote{TaxRate: 0.07, ValidDays: 30, Lines: []quote.Line{{Item: "cabinet", Option: "deep", Price: 650 * units.Dollar}}}
	j.Work = quote.Work{CrewHours: 6 * units.Hour, UnitWidth: 20 * units.Inch}
	assert.Empty(t, j.Check())
}
