package form

import (
	"returnbench/gui/blowertable"
	"returnbench/gui/blowertable/paste"
	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// blowerTable is the grid of a blower table as a field.
type blowerTable struct {
	*blowertable.Grid
	label string
}

// cellColumns are the columns of a point's fields.
var cellColumns = map[string]int{
	"external_static": paste.Static, "airflow": paste.Airflow,
	"power": paste.Power, "speed": paste.Speed,
}

// Points adds the rows of a tap. taps takes a pasted table that has a column for
// each tap.
func (b *Builder) Points(path string, label message.ID, at func(*sizing.Job) *[]blower.Point, taps func([]blower.Tap, []string)) {
	name := lang.T(label)
	grid := blowertable.New(blowertable.Options{
		Keyboard: func(cell *fields.Entry) { b.form.focusGained(cell) },
		Unit:     b.model().Units,
		SetTaps:  taps,
		Mark:     &b.form.mark,
		Get:      func() []blower.Point { return get(b, at) },
		Set: func(p []blower.Point) {
			set(b, path, name, at, append([]blower.Point(nil), p...))
		},
	})
	b.ListItem(path+"[0]", "row")
	b.bind(name, &boundField{paths: []string{path}, field: &blowerTable{grid, name},
		engine: func(faults sizing.FieldErrors) { grid.SetFaults(cellFaults(path, faults, b.model().Units())) }})
}

// cellFaults finds the row and column of each fault of a table; a fault of the
// whole table stands at its first cell.
func cellFaults(path string, faults sizing.FieldErrors, sys units.Locale) []blowertable.CellFault {
	var out []blowertable.CellFault
	for _, f := range faults {
		if !fieldpath.Within(f.Path, path) {
			continue
		}
		cell := blowertable.CellFault{Text: SentenceIn(f, sys), Column: cellColumns[fieldpath.Name(f.Path)]}
		for _, row := range fieldpath.Elements(f.Path) {
			if fieldpath.Parent(row) == path {
				cell.Row, _ = fieldpath.Index(row)
			}
		}
		out = append(out, cell)
	}
	return out
}

// Label is that of the whole table.
func (p *blowerTable) Label() string { return p.label }

// labels tells how the cells of a row are called.
func (p *blowerTable) labels(path string, out map[string]Label) {
	for name, column := range cellColumns {
		out[path+"[0]."+name] = Label{Text: lang.T(paste.Title(column))}
	}
}

// SetFault changes nothing: faults have rows.
func (p *blowerTable) SetFault(string) {}

// SetAssumed changes nothing: an assumed table is reported by the screen.
func (p *blowerTable) SetAssumed(string) {}
