package report

import (
	"fmt"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// port is a test port to drill, numbered along the air.
type port struct {
	sizing.Port
	number int
	name   string // as the tables call it
	where  string
}

// The places of ports in words. Common practice, no source.
var portPlaces = map[message.ID]message.ID{
	sizing.PortReturn: "Side of the return plenum, a hand's width before the filter, away from where a duct blows in.",
	sizing.PortInlet:  "Between filter and blower, in plain sheet metal, clear of the blower's door and wiring.",
	sizing.PortOutlet: "Between furnace and coil, only where the wall is plain sheet metal: never into the heat exchanger, the coil, its pan or its refrigerant line.",
	sizing.PortSupply: "Supply plenum, a hand's width past the coil or the equipment, before the first branch.",
}

// ports are those that can be drilled in this house: there is none past a
// filter where there is no central one, and none inside the equipment's own
// cabinet.
func (d *document) ports() []port {
	var out []port
	for _, q := range d.plan.option.Clean.Ports {
		switch {
		case q.Name == sizing.PortInlet && d.plan.central() == nil:
			continue
		case q.Name == sizing.PortOutlet && !d.coilOutside():
			continue
		}
		name := q.Name
		where := portPlaces[name]
		switch {
		case q.Name == sizing.PortReturn && d.plan.central() == nil:
			name, where = "return plenum", "Side of the return plenum, past the ducts that end in it, clear of the blower's door and wiring."
		case q.Name == sizing.PortSupply && !d.part(sizing.PartCoil) && d.job.Equipment.Kind == sizing.Furnace:
			name = "supply plenum"
		}
		out = append(out, port{q, len(out) + 1, d.say(name), d.say(where)})
	}
	return out
}

// coilOutside reports whether the coil is separate from the equipment, with
// room for a port before it.
func (d *document) coilOutside() bool {
	if d.job.Equipment.Kind == sizing.AirHandler {
		return false
	}
	return d.part(sizing.PartCoil)
}

func (d *document) part(name sizing.PartName) bool {
	for _, p := range d.plan.option.Clean.Parts {
		if p.Name == name {
			return true
		}
	}
	return false
}

func (d *document) testPorts(f *flow) {
	ports := d.ports()
	if len(ports) == 0 {
		return
	}
	f.orderHeading(d.say("Where to drill the test ports"))
	from := len(f.rows)
	f.figure(115, func(y float64) { d.airpath(f, ports, y) })
	f.keepAll(from)
	f.rows[len(f.rows)-1].keep = true
	for _, q := range ports {
		f.item(f.drawn(), fmt.Sprint(q.number), q.where)
	}
	f.paragraph(f.drawn(), d.say("Seen from the side, not to scale. With the power off: a hole of 3/8 in (10 mm), the tip of the probe across the air and facing it, a plug afterwards. Look behind every wall before drilling. Common practice, no source."))
}

// airpath draws the path of the air from left to right, not to scale, with the
// ports where they are drilled.
func (d *document) airpath(f *flow, ports []port, y float64) {
	s := d.sheet
	mid := y + 59
	x := f.x
	place := map[message.ID]float64{}
	central := d.plan.central() != nil
	machine := d.machine()
	// The width that the parts leave free is divided among the ducts between
	// them.
	fixed, ducts := returnsLong+machine.long+roomsLong, 2
	if central {
		fixed, ducts = fixed+filterLong, ducts+1
	}
	if d.coilOutside() {
		fixed, ducts = fixed+coilLong, ducts+1
	}
	long := min((f.width-fixed)/float64(ducts), 120)
	x = d.drawReturns(x, mid)
	x, place[sizing.PortReturn] = d.drawDuct(x, long, mid, d.say("return plenum"))
	if central {
		x = d.drawFilter(x, mid)
		x, place[sizing.PortInlet] = d.drawDuct(x, long, mid, "")
	}
	x = d.drawMachine(x, mid, machine)
	if d.coilOutside() {
		x, place[sizing.PortOutlet] = d.drawDuct(x, long, mid, "")
		x = d.drawCoil(x, mid)
	}
	end, middle := d.drawDuct(x, long, mid, d.say("supply plenum"))
	place[sizing.PortSupply] = middle
	s.line(black, 1, nil, end+4, mid, end+24, mid)
	s.arrow(black, 7, end+30, mid, 1, 0)
	t := style{size: 8}
	s.put(t, end+2, mid+14, d.say("rooms"))
	for _, q := range ports {
		s.drawPort(q.number, place[q.Name], mid-pathHalf)
	}
	s.pen(black, 0.5, nil)
}

const (
	pathHalf    = 26.0 // half the height of the duct in the drawing
	returnsLong = 128.0
	roomsLong   = 34.0
	filterLong  = 16.0
	coilLong    = 34.0
)

// machine is the box that holds the blower.
type machine struct {
	long       float64
	name, more message.ID
}

func (d *document) machine() machine {
	switch {
	case d.job.Equipment.Kind == sizing.AirHandler:
		return machine{108, "air handler", "with its coil"}
	case d.coilOutside(), d.job.Equipment.Kind == sizing.Furnace:
		return machine{74, "furnace", ""}
	}
	return machine{108, "furnace", "with the coil"}
}

// drawReturns draws up to three returns with their grilles.
func (d *document) drawReturns(x, mid float64) float64 {
	s := d.sheet
	names := make([]string, 0, 3)
	for i, b := range d.plan.returns {
		if i == 2 && len(d.plan.returns) > 3 {
			names = append(names, d.say("{count} more", "count", len(d.plan.returns)-2))
			break
		}
		names = append(names, b.name)
	}
	if len(names) == 0 {
		names = []string{d.say("rooms")}
	}
	const long, step = returnsLong, 34.0
	for i, name := range names {
		y := mid + step*(float64(i)-float64(len(names)-1)/2)
		s.line(black, 2, nil, x+2, y-11, x+2, y+11)
		for k := -2; k <= 2; k++ {
			s.line(black, 0.6, nil, x+2, y+4*float64(k), x+7, y+4*float64(k)+2)
		}
		t := style{size: 8}
		end := x + long - 14
		s.line(black, 0.8, nil, x+9, y-8, end, y-8)
		s.line(black, 0.8, nil, x+9, y+8, end, y+8)
		s.line(black, 0.8, nil, end, y, x+long, mid)
		if d.hasGrilleFilter(name) {
			s.hatch(x+10, y-8, 5, 16)
		}
		text, at := s.cutLines(t, name, long-34, 2), y+2.5
		if len(text) > 1 {
			t.size, at = 7, y-1
			text = s.cutLines(t, name, long-34, 2)
		}
		for k, line := range text {
			s.centred(t, x+16+(long-34)/2, at+7*float64(k), line)
		}
	}
	return x + long
}

func (d *document) hasGrilleFilter(name string) bool {
	for _, l := range d.plan.places {
		if l.behind == name {
			return true
		}
	}
	return false
}

// drawDuct draws a piece of the main path and gives its end and its middle.
func (d *document) drawDuct(x, long, mid float64, name string) (end, middle float64) {
	s := d.sheet
	s.line(black, 1, nil, x, mid-pathHalf, x+long, mid-pathHalf)
	s.line(black, 1, nil, x, mid+pathHalf, x+long, mid+pathHalf)
	t := style{size: 8}
	above, below := name, ""
	if i := strings.LastIndexByte(name, ' '); i >= 0 {
		above, below = name[:i], name[i+1:]
	}
	s.centred(t, x+long/2, mid-1, above)
	s.centred(t, x+long/2, mid+9, below)
	return x + long, x + long/2
}

func (d *document) drawFilter(x, mid float64) float64 {
	s := d.sheet
	const long = filterLong
	s.hatch(x, mid-pathHalf-3, long, 2*pathHalf+6)
	s.centred(style{size: 8}, x+long/2, mid+pathHalf+14, d.say("filter"))
	return x + long
}

// hatch draws a filter: a frame with its pleats.
func (s *sheet) hatch(x, y, w, h float64) {
	s.fill(shade{255, 255, 255}, x, y, w, h)
	s.box(black, 1, nil, x, y, w, h)
	n := max(int(h/7), 2)
	for i := range n {
		a, b := y+h*float64(i)/float64(n), y+h*(float64(i)+0.5)/float64(n)
		s.line(blue, 0.7, nil, x, a, x+w, b)
		s.line(blue, 0.7, nil, x+w, b, x, y+h*float64(i+1)/float64(n))
	}
}

func (d *document) drawMachine(x, mid float64, m machine) float64 {
	s, long := d.sheet, m.long
	const over = 8
	s.fill(pale, x, mid-pathHalf-over, long, 2*(pathHalf+over))
	s.box(black, 1.2, nil, x, mid-pathHalf-over, long, 2*(pathHalf+over))
	s.pdf.SetFillColor(255, 255, 255)
	s.pdf.Circle(x+24, mid, 15, "FD")
	t := style{size: 8}
	inCircle, blower := s.fit(t, d.say("blower"), 27, 6)
	s.centred(inCircle, x+24, mid+2.5, blower)
	s.centred(t, x+long/2, mid+pathHalf+over+11, d.say(m.name))
	s.centred(t, x+long/2, mid+pathHalf+over+21, d.say(m.more))
	return x + long
}

func (d *document) drawCoil(x, mid float64) float64 {
	s := d.sheet
	const long = coilLong
	s.box(black, 1.2, nil, x, mid-pathHalf-8, long, 2*(pathHalf+8))
	s.line(black, 1, nil, x+6, mid+pathHalf, x+long/2, mid-pathHalf)
	s.line(black, 1, nil, x+long/2, mid-pathHalf, x+long-6, mid+pathHalf)
	s.centred(style{size: 8}, x+long/2, mid+pathHalf+19, d.say("coil"))
	return x + long
}

// drawPort puts a number over the hole at the top of the path.
func (s *sheet) drawPort(number int, x, top float64) {
	s.line(black, 1, nil, x, top+5, x, top-14)
	s.pdf.SetFillColor(0, 0, 0)
	s.pdf.Circle(x, top-22, 8.5, "F")
	s.pdf.Circle(x, top, 1.8, "F")
	s.centred(style{size: 9.5, bold: true, ink: shade{255, 255, 255}}, x, top-18.6, fmt.Sprint(number))
}
