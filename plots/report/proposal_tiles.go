package report

import (
	"fmt"

	"returnbench/sizing/units"
)

// tile is one large number before and after.
type tile struct{ label, before, after, note string }

// tiles are the three numbers that an owner keeps in mind.
func (d *document) tiles(f *flow) {
	const gap, high = 10.0, 74.0
	list := d.tileList()
	wide := (f.width - gap*float64(len(list)-1)) / float64(len(list))
	f.figure(high, func(y float64) {
		for i, t := range list {
			d.drawTile(t, f.x+float64(i)*(wide+gap), y, wide, high)
		}
	})
}

func (d *document) tileList() []tile {
	now, then := d.plan.today, d.plan.option
	list := []tile{
		{d.say("Air with a new filter, {unit}", "unit", flowUnit(d.System)), rounded(now.Clean.Airflow, d.System), rounded(then.Clean.Airflow, d.System),
			d.say("needed: {airflow}", "airflow", about(d.study.DesignAirflow, d.System))},
		{d.say("Months between filter changes"), rounded(now.Life, d.System), rounded(then.Life, d.System), ""},
		{d.say("Filter rating as it sits (MERV)"), fmt.Sprint(now.Efficiency.InstalledMERV), fmt.Sprint(then.Efficiency.InstalledMERV),
			d.say("1 is coarse, 16 is very fine")},
	}
	a, known := d.known(now)
	if b, ok := d.known(then); ok && known {
		list[0].note = d.spanNote(a.Airflow.Low, a.Airflow.High, b.Airflow.Low, b.Airflow.High)
		list[1].note = d.spanNote(a.Life.Low, a.Life.High, b.Life.Low, b.Life.High)
	}
	return list
}

// spanNote is the range of both numbers of a tile.
func (d *document) spanNote(lowA, highA, lowB, highB units.Quantity) string {
	span := func(a, b units.Quantity) string {
		if x, y := rounded(a, d.System), rounded(b, d.System); x != y {
			return x + "–" + y
		}
		return rounded(a, d.System)
	}
	if d.plan.isToday() {
		return d.say("likely {now}", "now", span(lowA, highA))
	}
	return d.say("likely {now}, then {then}", "now", span(lowA, highA), "then", span(lowB, highB))
}

func flowUnit(sys units.Locale) string {
	if sys.System == units.Metric {
		return "L/s"
	}
	return "cfm"
}

func (d *document) drawTile(t tile, x, y, w, h float64) {
	s := d.sheet
	s.fill(pale, x, y, w, h)
	label := style{size: 9.5}
	label, text := s.fit(label, t.label, w-12, 9)
	s.put(label, x+6, y+14, text)
	big := style{size: 25, bold: true}
	number := t.before
	if !d.plan.isToday() {
		number += " → " + t.after
	}
	big, number = s.fit(big, number, w-12, 12)
	s.put(big, x+6, y+45, number)
	note, text := s.fit(style{size: 9.5}, t.note, w-12, 9)
	s.put(note, x+6, y+64, text)
}
