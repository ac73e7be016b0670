package report

import (
	"slices"

	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

type length = units.Length

// outlineName names what an outline shows.
type outlineName string

// outlineWords are how the legend names the outlines.
var outlineWords = map[outlineName]message.ID{"cut": "cut", "face": "nominal face", "filter": "filter's frame", "cabinet": "cabinet's outside", "stud": "stud"}

// outline is a rectangle of an opening's drawing, all about one center.
type outline struct {
	name          outlineName
	width, height length
	right, down   length // of the center
	ink           shade
	pen           float64
	dash          []float64
	paint         bool
}

// opening is one drawing: what to cut, and what goes into it.
type opening struct {
	title    string
	note     string
	framing  string    // what to check before cutting
	studs    length    // clear between studs; zero: not in a wall, or not known
	outlines []outline // the cut first
}

// openings draws to scale the openings to cut or, where there are none, the
// place of the filter.
func (d *document) openings(f *flow, high float64) {
	list := d.cuts()
	title := d.say("Openings to cut")
	if len(list) == 0 {
		title = d.say("Nothing to cut: check the place that is there")
		list = d.existingPlaces()
	}
	if len(list) == 0 {
		return
	}
	f.orderHeading(title)
	const room = 14.0
	across := min(max(len(list), 2), 3)
	cell := (f.width - room*float64(across-1)) / float64(across)
	n := scaleFor(list, cell-78, high)
	for i := 0; i < len(list); i += across {
		part := list[i:min(i+across, len(list))]
		texts := make([][]string, len(part))
		most := 0
		for k, o := range part {
			texts[k] = f.wrap(f.drawn(), o.note, cell-4)
			most = max(most, len(texts[k]))
		}
		tall := 0.0
		for _, o := range part {
			tall = max(tall, o.size().h*paperScale(n))
		}
		height := 30 + tall + 22 + float64(most)*f.drawn().leading()
		f.figure(height, func(y float64) {
			for k, o := range part {
				d.drawOpening(f, o, texts[k], f.x+float64(k)*(cell+room), y, cell, tall, n)
			}
		})
		f.rows[len(f.rows)-1].keep = i+across >= len(list)
		f.add(row{height: 4, keep: i+across >= len(list)})
	}
	f.paragraph(f.drawn(), d.say("Drawn to scale, 1 : {scale}, seen along the air. Check by measuring before cutting; nothing is cut before the wall is known to be free of wires, pipes and studs that carry load.", "scale", n))
}

// drawn is the size of words beside drawings.
func (f *flow) drawn() style { return style{size: 8.25} }

// cuts are the openings that the work asks for.
func (d *document) cuts() []opening {
	var out []opening
	p := d.plan
	for _, b := range p.returns {
		if !b.isNew || b.Grille.Width == 0 {
			continue
		}
		if b.old != nil && b.old.Grille.Width == b.Grille.Width && b.old.Grille.Height == b.Grille.Height {
			continue
		}
		o := opening{title: d.say("Wall opening, {return}", "return", b.name)}
		o.outlines = []outline{{name: "cut", width: b.Grille.Width, height: b.Grille.Height, ink: black, pen: 1.6, paint: true}}
		o.note = d.say("Cut {size}, width first: a grille is named by its opening and its frame covers the edge.", "size", d.named(b.Grille.Width, b.Grille.Height))
		for _, l := range p.places {
			if l.behind == b.name {
				a := l.actual()
				o.outlines = append(o.outlines, outline{name: "filter", width: a.Width, height: a.Height, ink: blue, pen: 0.9, dash: []float64{4, 2}})
			}
		}
		d.frame(&o, b)
		out = append(out, o)
	}
	if c := p.central(); c != nil && c.newPlace && c.atUnit() && !p.isToday() {
		out = append(out, d.placeDrawing(*c, d.say(c.boxed("Airway of the filter cabinet", "Airway of the filter grille", "Airway of the filter slot"))))
	}
	return out
}

// studWide is a stud's own width: a 2x4 as it measures.
const studWide = 1.5 * units.Inch

// frame describes the position of a wall opening between the studs.
func (d *document) frame(o *opening, b branch) {
	room := b.OpeningWidth
	if room == 0 {
		room = d.job.Limits.WallWidth
	}
	bay := d.job.Limits.StudBay
	o.studs = bay
	switch {
	case bay == 0:
		o.framing = d.say("Find the studs, wires and pipes first. Cut no stud that carries load.")
	case b.Grille.Width <= bay:
		o.framing = d.say("Goes between studs {width} apart. Look for wires and pipes.", "width", d.named(bay))
	default:
		o.framing = d.say("Wider than the {width} between studs: a stud stands in the cut. Frame it with a header, under the local code, before it is cut.", "width", d.named(bay))
	}
	if room > 0 && b.Grille.Width > room {
		o.framing += " " + d.say("Wider than the {width} of wall there is.", "width", d.named(room))
	}
}

// existingPlaces are the existing filter places.
func (d *document) existingPlaces() []opening {
	var out []opening
	for _, l := range d.plan.places {
		out = append(out, d.placeDrawing(l, d.say("Filter place, {place}", "place", l.where)))
	}
	return out
}

// placeDrawing is a filter place: the nominal faces, the frames in them, and where
// it is new the outside of its casing.
func (d *document) placeDrawing(l filterPlace, title string) opening {
	a := l.actual()
	stacked := d.plan.option.Assembly != nil && d.plan.option.Assembly.Stacked
	row := stock.Assembly{Filter: l.size, Count: l.Count, Stacked: stacked}
	whole := row.Faces()
	o := opening{title: title, outlines: []outline{{name: "face", width: whole.Width, height: whole.Height, ink: black, pen: 1.6, paint: true}}}
	for k := range l.Count {
		frame := outline{name: "filter", width: a.Width, height: a.Height, ink: blue, pen: 0.9, dash: []float64{4, 2}}
		off := (length(k) - length(l.Count-1)/2)
		if stacked {
			frame.down = off * l.size.Height
		} else {
			frame.right = off * l.size.Width
		}
		o.outlines = append(o.outlines, frame)
	}
	if l.Count > 1 && l.atUnit() {
		o.note = d.say("Nominal face {face} together, for {filters} filters {size} {standing}; each frame measures {frame}.",
			"face", d.named(whole.Width, whole.Height), "filters", l.Count, "size", l.size.String(), "standing", d.plan.arrangement(), "frame", d.named(sides(a)...))
	} else {
		o.note = d.say("Nominal face {face}, for a filter {size}; its frame measures {frame}.",
			"face", d.named(l.size.Width, l.size.Height), "size", l.size.String(), "frame", d.named(sides(a)...))
	}
	if box := d.plan.option.Assembly; l.Branch < 0 && l.newPlace && box != nil {
		o.outlines = append(o.outlines, outline{name: "cabinet", width: box.Width, height: box.Height, ink: soft, pen: 0.9})
		o.framing = d.say(l.boxed("To the collar of the filter cabinet at hand, no smaller than the face.",
			"To the collar of the filter grille at hand, no smaller than the face.",
			"To the collar of the filter slot at hand, no smaller than the face."))
		o.note += " " + d.say(l.boxed("Cut the duct to the collar of the filter cabinet at hand, no smaller than the face; it takes about {room} of room.",
			"Cut the duct to the collar of the filter grille at hand, no smaller than the face; it takes about {room} of room.",
			"Cut the duct to the collar of the filter slot at hand, no smaller than the face; it takes about {room} of room."), "room", d.named(outside(box)...))
	}
	return o
}

type extent struct{ w, h float64 } // m

func (o opening) size() extent {
	var e extent
	for _, r := range o.outlines {
		e.w, e.h = max(e.w, r.width.SI()), max(e.h, r.height.SI())
	}
	if o.studs > 0 {
		e.w = max(e.w, (o.studs + 2*studWide).SI())
		e.h += (4 * units.Inch).SI() // of stud past the cut
	}
	return e
}

var scales = []int{2, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 40, 50, 75, 100, 200}

// paperScale is points on paper per metre at 1 : n.
func paperScale(n int) float64 { return 72 / 0.0254 / float64(n) }

// scaleFor is the largest scale at which all drawings fit.
func scaleFor(list []opening, w, h float64) int {
	for _, n := range scales {
		fits := true
		for _, o := range list {
			e := o.size()
			fits = fits && e.w*paperScale(n) <= w && e.h*paperScale(n) <= h
		}
		if fits {
			return n
		}
	}
	return 1000
}

func (d *document) drawOpening(f *flow, o opening, note []string, x, y, cell, tall float64, n int) {
	s := d.sheet
	head := style{size: 9, bold: true}
	s.put(head, x, y+head.ascent(), s.cut(head, o.title, cell))
	cx, cy := x+cell/2, y+30+tall/2
	k := paperScale(n)
	for i := len(o.outlines) - 1; i >= 0; i-- {
		r := o.outlines[i]
		w, h := r.width.SI()*k, r.height.SI()*k
		if r.paint {
			s.fill(pale, cx-w/2, cy-h/2, w, h)
		}
	}
	for _, r := range o.outlines {
		w, h := r.width.SI()*k, r.height.SI()*k
		s.box(r.ink, r.pen, r.dash, cx+r.right.SI()*k-w/2, cy+r.down.SI()*k-h/2, w, h)
	}
	if o.studs > 0 {
		d.drawStuds(o, cx, cy, k)
	}
	s.pen(black, 0.5, nil)
	d.dimensions(o, cx, cy, k)
	d.legend(o, x, y+30+tall+11, cell)
	for i, text := range note {
		s.put(f.drawn(), x, y+30+tall+22+float64(i)*f.drawn().leading()+f.drawn().ascent()-2, text)
	}
}

// drawStuds draws the studs at both sides of the bay that the cut is centered in.
func (d *document) drawStuds(o opening, cx, cy, k float64) {
	tall := o.size().h * k
	wide := studWide.SI() * k
	for _, x := range []float64{cx - o.studs.SI()*k/2 - wide, cx + o.studs.SI()*k/2} {
		d.sheet.box(soft, 0.6, []float64{3, 2}, x, cy-tall/2, wide, tall)
	}
}

// dimensions writes the sides of the first outline outside of all others.
func (d *document) dimensions(o opening, cx, cy, k float64) {
	s := d.sheet
	t := style{size: 8.5, bold: true}
	e := o.size()
	cut := o.outlines[0]
	w, h := cut.width.SI()*k, cut.height.SI()*k
	top := cy - e.h*k/2 - 8
	right := cx + e.w*k/2 + 8
	for _, x := range []float64{cx - w/2, cx + w/2} {
		s.line(rule, 0.4, nil, x, top-3, x, cy-h/2-1.5)
	}
	for _, y := range []float64{cy - h/2, cy + h/2} {
		s.line(rule, 0.4, nil, cx+w/2+1.5, y, right+3, y)
	}
	s.line(black, 0.6, nil, cx-w/2, top, cx+w/2, top)
	s.arrow(black, 5, cx-w/2, top, -1, 0)
	s.arrow(black, 5, cx+w/2, top, 1, 0)
	s.centred(t, cx, top-3, measure(cut.width, d.System))
	s.line(black, 0.6, nil, right, cy-h/2, right, cy+h/2)
	s.arrow(black, 5, right, cy-h/2, 0, -1)
	s.arrow(black, 5, right, cy+h/2, 0, 1)
	s.put(t, right+4, cy+3, measure(cut.height, d.System))
}

// legend names the lines, in a row under the drawing.
func (d *document) legend(o opening, x, y, cell float64) {
	s := d.sheet
	t := style{size: 8}
	name := func(o outline) string { return d.say(outlineWords[o.name]) }
	const sample, gap = 15.0, 9.0
	long := -gap
	lines := slices.CompactFunc(slices.Clone(o.outlines), func(a, b outline) bool { return a.name == b.name })
	if o.studs > 0 {
		lines = append(lines, outline{name: "stud", ink: soft, pen: 0.6, dash: []float64{3, 2}})
	}
	for _, r := range lines {
		long += sample + 3 + s.width(t, name(r)) + gap
	}
	x += (cell - long) / 2
	for _, r := range lines {
		s.line(r.ink, r.pen, r.dash, x, y, x+sample, y)
		s.put(t, x+sample+3, y+2.5, name(r))
		x += sample + 3 + s.width(t, name(r)) + gap
	}
}
