package form

import (
	"fmt"
	"strings"

	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

// points is the grid of a blower table as a field.
type points struct {
	*widgets.PointGrid
	label string
}

// cellColumns are the columns of a point's fields.
var cellColumns = map[string]int{
	"external_static": widgets.PointStatic, "airflow": widgets.PointAirflow,
	"power": widgets.PointPower, "speed": widgets.PointSpeed,
}

// Points adds the rows of a tap. taps takes a pasted table that has a column for
// each tap.
func (b *Builder) Points(path, label string, at func(*sizing.Job) *[]blower.Point, taps func([]blower.Tap)) {
	grid := widgets.NewPointGrid(widgets.PointGridOptions{
		Keyboard: func(cell *widgets.Entry) { b.form.arrived(cell) },
		Unit:     b.model().Units,
		SetTaps:  taps,
		Get:      func() []blower.Point { return get(b, at) },
		Set: func(p []blower.Point) {
			set(b, path, label, at, append([]blower.Point(nil), p...))
		},
	})
	b.Thing(path+"[0]", "row")
	b.bind(label, &bound{paths: []string{path}, field: &points{grid, label},
		engine: func(faults sizing.FieldErrors) { grid.SetFaults(cellFaults(path, faults, b.model().Units())) }})
}

// cellFaults finds the row and column of each fault of a table; a fault of the
// whole table stands at its first cell.
func cellFaults(path string, faults sizing.FieldErrors, sys units.System) []widgets.CellFault {
	var out []widgets.CellFault
	for _, f := range faults {
		rest, ok := strings.CutPrefix(f.Path, path)
		if !ok {
			continue
		}
		cell := widgets.CellFault{Text: SentenceIn(f, sys)}
		name := ""
		if n, err := fmt.Sscanf(rest, "[%d].%s", &cell.Row, &name); n >= 1 || err == nil {
			cell.Column = cellColumns[name]
		}
		out = append(out, cell)
	}
	return out
}

// Label is that of the whole table.
func (p *points) Label() string { return p.label }

// labels tells how the cells of a row are called.
func (p *points) labels(path string, out map[string]Label) {
	for name, column := range cellColumns {
		out[path+"[0]."+name] = Label{Text: widgets.PointTitle(column)}
	}
}

// SetFault changes nothing: faults have rows.
func (p *points) SetFault(string) {}

// SetAssumed changes nothing: an assumed table is told of by the screen.
func (p *points) SetAssumed(string) {}
