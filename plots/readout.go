package plots

import (
	"math"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// ReadoutLine is a line of FanAndSystem that a pointer can read.
type ReadoutLine struct {
	Label  string // "Today, clean"
	Points []sizing.CurvePoint
}

// Hit is the point of a line nearest to the pointer.
type Hit struct {
	Label    string
	Point    sizing.CurvePoint // between the points of the line
	X, Y     float64           // its pixel
	Distance float64           // from the pointer, in pixels
}

// Show writes the hit for a read-out: "Today, clean: 1043 cfm, 0.620 in. w.c.".
func (h Hit) Show(sys units.System) string {
	return h.Label + ": " + h.Point.Airflow.Show(sys) + ", " + h.Point.Static.Show(sys)
}

// FanAndSystemLines are the lines of FanAndSystem as far as they are drawn.
func FanAndSystemLines(s *sizing.Study) []ReadoutLine {
	var out []ReadoutLine
	for _, t := range s.Blower.Taps {
		out = append(out, ReadoutLine{"Blower, tap " + t.Name, t.Curve})
	}
	for i := range s.Options {
		o := &s.Options[i]
		out = append(out, ReadoutLine{o.Name + stateWord(o, false), upTo(o.SystemClean, o.Clean.Airflow*pastPoint)})
		if !noFilter(o) {
			out = append(out, ReadoutLine{o.Name + stateWord(o, true), upTo(o.SystemLoaded, o.Loaded.Airflow*pastPoint)})
		}
	}
	return out
}

// upTo cuts a curve, ordered by airflow, at an airflow.
func upTo(curve []sizing.CurvePoint, most units.Flow) []sizing.CurvePoint {
	if !(most > 0) {
		return curve
	}
	var out []sizing.CurvePoint
	for i, p := range curve {
		if p.Airflow > most {
			if i > 0 {
				a := curve[i-1]
				out = append(out, mix(a, p, float64(most-a.Airflow)/float64(p.Airflow-a.Airflow)))
			}
			break
		}
		out = append(out, p)
	}
	return out
}

// Nearest finds the line nearest to a pixel, as it is drawn by t. Only what
// lies in the chart counts. It is false where no line does.
func Nearest(lines []ReadoutLine, t Transform, px, py float64) (Hit, bool) {
	best := Hit{Distance: math.Inf(1)}
	if !t.Valid() {
		return best, false
	}
	look := Look{Units: t.Units}
	for _, l := range lines {
		for i, p := range l.Points {
			a := l.Points[max(i-1, 0)]
			ax, ay := t.DataToPixel(look.in(a.Airflow), look.in(a.Static))
			bx, by := t.DataToPixel(look.in(p.Airflow), look.in(p.Static))
			share := nearestShare(ax, ay, bx, by, px, py)
			x, y := ax+share*(bx-ax), ay+share*(by-ay)
			if d := math.Hypot(x-px, y-py); d < best.Distance && t.Inside(x, y) {
				best = Hit{Label: l.Label, Point: mix(a, p, share), X: x, Y: y, Distance: d}
			}
		}
	}
	return best, !math.IsInf(best.Distance, 0)
}

// nearestShare is how far along a piece of line its point nearest to p lies,
// 0 to 1.
func nearestShare(ax, ay, bx, by, px, py float64) float64 {
	dx, dy := bx-ax, by-ay
	long := dx*dx + dy*dy
	if !(long > 0) {
		return 0
	}
	return min(max(((px-ax)*dx+(py-ay)*dy)/long, 0), 1)
}

func mix(a, b sizing.CurvePoint, share float64) sizing.CurvePoint {
	between := func(x, y float64) float64 { return x + share*(y-x) }
	return sizing.CurvePoint{
		Airflow: units.Flow(between(float64(a.Airflow), float64(b.Airflow))),
		Static:  units.Pressure(between(float64(a.Static), float64(b.Static))),
		Power:   units.Power(between(float64(a.Power), float64(b.Power))),
	}
}
