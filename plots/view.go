package plots

import (
	"gonum.org/v1/plot"
)

// View is the part of a chart in view, as shares of the whole chart's axes: the
// whole runs from 0 to 1 both ways. Shares stay valid when the units or the
// house change.
type View struct{ Left, Right, Bottom, Top float64 }

// WholeView is the whole chart.
func WholeView() View { return View{0, 1, 0, 1} }

// closest is the smallest share of an axis that can be shown.
const closest = 0.02

// IsWhole reports whether nothing is hidden.
func (v View) IsWhole() bool { return v == WholeView() }

// Zoom makes the view smaller (by under 1) or larger about a point of it, given
// in shares of the view, and keeps it within the chart.
func (v View) Zoom(by, x, y float64) View {
	across, up := v.Right-v.Left, v.Top-v.Bottom
	w, h := min(max(across*by, closest), 1), min(max(up*by, closest), 1)
	left, bottom := v.Left+x*(across-w), v.Bottom+y*(up-h)
	return View{left, left + w, bottom, bottom + h}.within()
}

// Pan moves the view by shares of itself, no further than the chart goes.
func (v View) Pan(x, y float64) View {
	dx, dy := x*(v.Right-v.Left), y*(v.Top-v.Bottom)
	return View{v.Left + dx, v.Right + dx, v.Bottom + dy, v.Top + dy}.within()
}

// Part is the view of a part of this one, between two corners in shares of it.
func (v View) Part(x0, y0, x1, y1 float64) View {
	if x0 > x1 {
		x0, x1 = x1, x0
	}
	if y0 > y1 {
		y0, y1 = y1, y0
	}
	across, up := v.Right-v.Left, v.Top-v.Bottom
	p := View{v.Left + x0*across, v.Left + x1*across, v.Bottom + y0*up, v.Bottom + y1*up}
	p.Left, p.Right = apart(p.Left, p.Right)
	p.Bottom, p.Top = apart(p.Bottom, p.Top)
	return p.within()
}

func apart(lo, hi float64) (float64, float64) {
	if hi-lo >= closest {
		return lo, hi
	}
	middle := (lo + hi) / 2
	return middle - closest/2, middle + closest/2
}

// within moves the view into the chart.
func (v View) within() View {
	v.Left, v.Right = slide(v.Left, v.Right)
	v.Bottom, v.Top = slide(v.Bottom, v.Top)
	return v
}

func slide(lo, hi float64) (float64, float64) {
	const hair = 1e-9 // what rounding leaves
	width := hi - lo
	switch {
	case width >= 1-hair:
		return 0, 1
	case lo < hair:
		return 0, width
	case hi > 1-hair:
		return 1 - width, 1
	}
	return lo, hi
}

// Set gives the axes of a plot that is whole the ranges of the view. The plot
// is drawn again in them, its words and ticks too.
func (v View) Set(p *plot.Plot) {
	if v == (View{}) || v.IsWhole() {
		return
	}
	x, y := scaleOf(p.X), scaleOf(p.Y)
	p.X.Min, p.X.Max = x.value(v.Left), x.value(v.Right)
	p.Y.Min, p.Y.Max = y.value(v.Bottom), y.value(v.Top)
}

// Share gives the place of a pixel in the chart, from 0 to 1 to the right and
// up.
func (t Transform) Share(px, py float64) (x, y float64) {
	return (px - t.Area.MinX) / (t.Area.MaxX - t.Area.MinX), (t.Area.MaxY - py) / (t.Area.MaxY - t.Area.MinY)
}
