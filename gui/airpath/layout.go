package airpath

import (
	"returnbench/sizing"

	"fyne.io/fyne/v2"
)

// A drawing is laid out in two steps. lay divides the height into title, test
// ports, airway and words, and the width of the airway into a column for each
// part; all heights follow from the height of a line of text, so that no words
// touch. Then each part is painted into its column (parts.go) and each return
// into a row of the first one (returns.go). A drawing that is given more room
// than its least grows evenly, up to mostScale.

// plan is where things stand in a drawing of a given size.
type plan struct {
	sketch
	a      *Drawing
	c      *sizing.Condition
	line   float32 // height of a line of text
	title  box
	ports  box // strip above the airway
	air    box // the airway with the branches
	legend box // words under it

	branch, filter, blower, coil, supply box // columns of the airway
	duct                                 box
}

// lay divides the room: a title, the ports, the airway, the words.
func (p *plan) lay(size fyne.Size) {
	p.line = p.lineHeight()
	w := size.Width - 2*edge
	p.title = box{edge, edge, w, p.line}
	p.ports = box{edge, p.title.bottom() + 4, w, p.line + 12}
	legend := legendHeight(p.line) + p.a.meanHeight(p.line)
	p.legend = box{edge, size.Height - edge - legend, w, legend}
	p.air = box{edge, p.ports.bottom(), w, p.legend.y - p.ports.bottom() - 4}

	x := p.air.x
	column := func(share float32) box {
		b := box{x, p.air.y, share * w, p.air.h}
		x += b.w
		return b
	}
	p.branch, p.filter, p.blower = column(0.31), column(0.174), column(0.166)
	p.coil, p.supply = column(0.175), column(0.175)
	h := fyne.Min(p.air.h*0.6, w*0.2)
	p.duct = box{p.branch.right() - p.riserWidth(), p.air.midY() - h/2, w, h}
	p.duct.w = p.air.right() - p.duct.x
	p.gather()
}
