package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// bands draws how well the blower's curve and today's system curve are known,
// under the lines: the blower's as a pale area, the system's as fine vertical
// strokes, so that the two can be distinguished in gray and where they overlap.
func (f *frame) bands(s *sizing.Study) {
	f.layer = layerGround
	defer func() { f.layer = layerHouse }()
	var notes []any
	ground := func(b sizing.Band) plotter.XYs {
		low, high := f.look.curveLine("", b.Low).Points, f.look.curveLine("", b.High).Points
		if len(low) < 2 || len(low) != len(high) || !(b.Deviation > 0) {
			return nil
		}
		for i := len(high) - 1; i >= 0; i-- {
			low = append(low, high[i])
		}
		return low
	}
	if outline := ground(s.Bands.Blower); outline != nil {
		f.Add(shade{outline: outline, fill: f.look.blend(f.look.Ink, bandShare)})
		notes = append(notes, message.New("blower ± {share} %", "share", bandShareOf(s.Bands.Blower)))
	}
	if len(s.Options) > 1 {
		band := s.Bands.System
		if end := s.Today().Clean.Airflow * pastPoint; end > 0 {
			band.Low, band.High = upTo(band.Low, end), upTo(band.High, end)
		}
		if outline := ground(band); outline != nil {
			f.Add(shade{outline: outline, strokes: f.look.line(f.look.blend(f.look.series(rankToday), 0.45), 0.75, nil)})
			notes = append(notes, message.New("today ± {share} %", "share", bandShareOf(s.Bands.System)))
		}
	}
	if len(notes) > 0 {
		plain, bands := f.notes.heading[0], message.Rows{Mark: ", ", Items: notes}
		f.notes.heading = []string{
			f.look.say("{axis}; bands hold 9 in 10: {bands}", "axis", plain, "bands", bands),
			f.look.say("{axis}; {bands}", "axis", plain, "bands", bands), plain}
	}
}

// upTo is the part of a curve, ordered by airflow, up to an airflow: as far as
// its line is drawn.
func upTo(curve []sizing.CurvePoint, most units.Flow) []sizing.CurvePoint {
	for i, p := range curve {
		if p.Airflow <= most {
			continue
		}
		if i == 0 {
			return nil
		}
		a := curve[i-1]
		share := float64((most - a.Airflow) / (p.Airflow - a.Airflow))
		end := sizing.CurvePoint{Airflow: most, Static: a.Static + units.Pressure(share)*(p.Static-a.Static)}
		return append(curve[:i:i], end)
	}
	return curve
}

// bandShare is the share of ink in the area of a band.
const bandShare = 0.10

// bandShareOf is how wide a band is, in percent: the middle nine tenths reach 1.645
// standard deviations to either side.
func bandShareOf(b sizing.Band) message.Number {
	return message.Fixed(math.Max(1, 164.5*b.Deviation), 0)
}

// blend mixes a share of a color into the ground.
func (l Look) blend(c color.Color, share float64) color.Color {
	r, g, b, _ := c.RGBA()
	r0, g0, b0, _ := l.Background.RGBA()
	mix := func(c, ground uint32) uint8 {
		return uint8(math.Round((float64(c)*share + float64(ground)*(1-share)) / 257))
	}
	return color.RGBA{R: mix(r, r0), G: mix(g, g0), B: mix(b, b0), A: 0xFF}
}

// shade fills an outline, or fills it with vertical strokes, inside the chart.
type shade struct {
	outline plotter.XYs
	fill    color.Color
	strokes draw.LineStyle
}

// strokePace is the distance between vertical strokes.
const strokePace = 4 * vg.Length(1)

// Plot draws the shade.
func (s shade) Plot(c draw.Canvas, p *plot.Plot) {
	line := make([]vg.Point, len(s.outline))
	for i, at := range s.outline {
		line[i] = place(&c, p, at)
	}
	if s.fill != nil {
		if line = c.ClipPolygonXY(line); len(line) > 2 {
			c.FillPolygon(s.fill, line)
		}
		return
	}
	for x := c.Min.X + strokePace/2; x < c.Max.X; x += strokePace {
		if low, high, ok := across(line, x); ok {
			low, high = max(low, c.Min.Y), min(high, c.Max.Y)
			if high > low {
				c.StrokeLine2(s.strokes, x, low, x, high)
			}
		}
	}
}

// across is where a vertical line enters and leaves an outline.
func across(outline []vg.Point, x vg.Length) (low, high vg.Length, ok bool) {
	low, high = vg.Length(math.Inf(1)), vg.Length(math.Inf(-1))
	for i, b := range outline {
		a := outline[(i+len(outline)-1)%len(outline)]
		if (a.X < x) == (b.X < x) {
			continue
		}
		y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		low, high = min(low, y), max(high, y)
	}
	return low, high, high > low
}
