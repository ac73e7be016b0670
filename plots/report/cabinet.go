package report

import (
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// taper is a transition beside the cabinet; a side that was not measured is
// zero.
type taper struct {
	part, listText        message.ID // on the list of parts
	lossText, lossUnknown message.ID // of its loss
	fromWidth, fromHeight length
	toWidth, toHeight     length
	piece                 duct.Taper
	measured              bool
}

// sizeWords are what to make, or what to measure first.
func (t taper) sizeWords(d *document) string {
	switch {
	case !t.measured:
		return d.say("measure both ends first")
	case t.piece.Length == 0:
		return d.say("none needed: both ends are {size}", "size", d.named(t.fromWidth, t.fromHeight))
	}
	return d.say("{from} to {to}, {length} long", "from", d.named(t.fromWidth, t.fromHeight), "to", d.named(t.toWidth, t.toHeight), "length", measure(t.piece.Length, d.System))
}

// face is the open section of the casing at the unit.
func (d *document) face() (w, h length) {
	c := d.plan.central()
	if c == nil {
		return 0, 0
	}
	stacked := d.plan.option.Assembly != nil && d.plan.option.Assembly.Stacked
	whole := stock.Assembly{Filter: c.size, Count: c.Count, Stacked: stacked}.Faces()
	return whole.Width, whole.Height
}

// tapers are the transitions before and after a new casing.
func (d *document) tapers() []taper {
	w, h := d.face()
	if w == 0 {
		return nil
	}
	job := d.job.Work
	before := taper{part: "transition, return plenum to cabinet", listText: "before the cabinet",
		lossText: "From return plenum to cabinet takes {drop}.", lossUnknown: "The loss of return plenum to cabinet is not known.",
		fromWidth: job.PlenumWidth, fromHeight: job.PlenumHeight, toWidth: w, toHeight: h}
	after := taper{part: "transition, cabinet to unit", listText: "after the cabinet",
		lossText: "From cabinet to unit takes {drop}.", lossUnknown: "The loss of cabinet to unit is not known.",
		fromWidth: w, fromHeight: h, toWidth: job.UnitWidth, toHeight: job.UnitHeight}
	list := []taper{before, after}
	for i := range list {
		t := &list[i]
		t.measured = t.fromWidth > 0 && t.fromHeight > 0 && t.toWidth > 0 && t.toHeight > 0
		if t.measured {
			t.piece = duct.NewTaper(t.fromWidth, t.fromHeight, t.toWidth, t.toHeight)
		}
	}
	return list
}

// cabinet draws the new casing from the side, with its transitions.
func (d *document) cabinet(f *flow) {
	c := d.plan.central()
	if c == nil || !c.newPlace || d.plan.isToday() || d.plan.option.Assembly == nil {
		return
	}
	f.orderHeading(d.say(c.boxed("The filter cabinet with its transitions", "The filter grille with its transitions", "The filter slot with its transitions")))
	from := len(f.rows)
	f.figure(148, func(y float64) { d.drawCabinet(f, y) })
	f.keepAll(from)
	f.rows[len(f.rows)-1].keep = true
	f.paragraph(style{size: 8.5}, d.taperWords())
}

// taperWords are the lengths and drops of the transitions.
func (d *document) taperWords() string {
	texts := []string{d.say("Each side of a transition runs {slope} along the air for 1 of offset (common practice, no source).", "slope", duct.TaperSlope)}
	missing := false
	var sum units.Pressure
	for _, t := range d.tapers() {
		if !t.measured {
			missing = true
			continue
		}
		if t.piece.Length == 0 {
			continue
		}
		drop, err := t.piece.Drop(d.plan.option.Clean.Airflow, d.study.Air.Density)
		if err != nil {
			texts = append(texts, d.say(t.lossUnknown))
			continue
		}
		sum += drop
		texts = append(texts, d.say(t.lossText, "drop", dropWords(drop, d.System)))
	}
	switch {
	case missing:
		texts = append(texts, d.say("Measure the unit's return opening and the plenum, and enter them in the job for the lengths."))
	case sum > sizing.ReadingMargin(d.plan.option.Clean.ExternalStatic):
		texts = append(texts, d.say("That loss is not in the readings expected: expect so much more suction before the blower, and less air."))
	case sum > 0:
		texts = append(texts, d.say("That loss is not in the readings expected: it is smaller than what they accept."))
	}
	texts = append(texts, d.say("Seen from the side, not to scale; sizes are width x height across the air. Gasket the door; seal both transitions with mastic."))
	return strings.Join(texts, " ")
}

// dropWords writes a small drop, which would round to zero.
func dropWords(p units.Pressure, sys units.Locale) string {
	if p > 0 && p < 0.005*units.InchWater {
		return message.Text(sys, "under {drop}", "drop", about(pick2(sys, 0.01*units.InchWater, 2), sys))
	}
	return about(p, sys)
}

func pick2(sys units.Locale, ip, si units.Pressure) units.Pressure {
	if sys.System == units.Metric {
		return si
	}
	return ip
}

// Parts of the drawing of a casing, in points.
const (
	ductLong  = 78.0
	taperLong = 74.0
	caseLong  = 64.0
	unitLong  = 92.0
)

// drawCabinet draws plenum, transition, casing, transition and unit from left to
// right, along the air.
func (d *document) drawCabinet(f *flow, y float64) {
	s := d.sheet
	w, h := d.face()
	job := d.job.Work
	mid := y + 74
	most := max(h, job.PlenumHeight, job.UnitHeight)
	half := func(v length) float64 {
		if v == 0 {
			v = h * 0.8
		}
		return 46 * float64(v/most)
	}
	plenum, casing, unit := half(job.PlenumHeight), half(h), half(job.UnitHeight)
	x := f.x + (f.width-ductLong-2*taperLong-caseLong-unitLong)/2
	t, bold := style{size: 8.5}, style{size: 8.5, bold: true}
	pair := func(x0, a, x1, b float64) {
		s.line(black, 1, nil, x0, mid-a, x1, mid-b)
		s.line(black, 1, nil, x0, mid+a, x1, mid+b)
	}
	label := func(x float64, name, size string) {
		s.centred(bold, x, y+9, name)
		s.centred(t, x, y+20, size)
	}
	pair(x, plenum, x+ductLong, plenum)
	label(x+ductLong/2, d.say("return plenum"), d.sizeOrBlank(job.PlenumWidth, job.PlenumHeight))
	s.line(black, 1.4, nil, x+8, mid, x+ductLong-20, mid)
	s.arrow(black, 9, x+ductLong-10, mid, 1, 0)
	s.centred(t, x+ductLong/2-6, mid+13, d.say("air"))
	x += ductLong
	list := d.tapers()
	pair(x, plenum, x+taperLong, casing)
	d.drawLong(x, x+taperLong, mid+58, list[0])
	x += taperLong
	s.fill(pale, x, mid-casing-5, caseLong, 2*casing+10)
	s.box(black, 1.4, nil, x, mid-casing-5, caseLong, 2*casing+10)
	s.hatch(x+caseLong/2-9, mid-casing, 18, 2*casing)
	label(x+caseLong/2, d.say(d.plan.central().box()), d.named(w, h))
	depth := d.plan.option.Assembly.Depth
	d.dimension(x, x+caseLong, mid+58, measure(depth, d.System))
	x += caseLong
	pair(x, casing, x+taperLong, unit)
	d.drawLong(x, x+taperLong, mid+58, list[1])
	x += taperLong
	s.box(black, 1.2, nil, x, mid-46, unitLong, 92)
	s.line(black, 2.2, nil, x, mid-unit, x, mid+unit)
	s.pdf.SetFillColor(255, 255, 255)
	s.pdf.Circle(x+46, mid, 20, "FD")
	inCircle, blower := s.fit(t, d.say("blower"), 39, 6)
	s.centred(inCircle, x+46, mid+3, blower)
	label(x+unitLong/2, d.say("unit's return opening"), d.sizeOrBlank(job.UnitWidth, job.UnitHeight))
	s.pen(black, 0.5, nil)
}

func (d *document) sizeOrBlank(w, h length) string {
	if w == 0 || h == 0 {
		return d.say("measure: {width} x {height}", "width", blankLine(4), "height", blankLine(4))
	}
	return d.named(w, h)
}

// drawLong writes the length of a transition below it.
func (d *document) drawLong(x0, x1, y float64, t taper) {
	text := d.say("{length} long", "length", blankLine(5))
	if t.measured {
		text = measure(t.piece.Length, d.System)
		if t.piece.Length == 0 {
			text = d.say("straight")
		}
	}
	d.dimension(x0, x1, y, text)
}

// dimension is a level line with heads at both ends and its words under it.
func (d *document) dimension(x0, x1, y float64, text string) {
	s := d.sheet
	s.line(black, 0.6, nil, x0+1, y, x1-1, y)
	s.arrow(black, 5, x0+1, y, -1, 0)
	s.arrow(black, 5, x1-1, y, 1, 0)
	s.centred(style{size: 8.5, bold: true}, (x0+x1)/2, y+11, text)
}
