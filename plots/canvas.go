package plots

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"git.sr.ht/~sbinet/gg"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	vgdraw "gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"returnbench/sizing/units"
)

// Canvas draws charts for the window again and again into one picture. It is
// not safe for use by several goroutines at once.
type Canvas struct {
	picture *image.RGBA
	paper   *keptFacesCanvas
	dpi     int
	memory  memory
}

// NewCanvas makes a canvas; the first Render sizes it.
func NewCanvas() *Canvas { return &Canvas{} }

// Render draws a chart. The picture is the canvas's own and is drawn over by
// the next Render. Where there is no room for a chart the picture has a message
// instead and the Transform is not Valid.
func (c *Canvas) Render(chart Chart, look Look, widthPx, heightPx int, dpi float64) (*image.RGBA, Transform) {
	look = look.complete()
	c.prepare(max(widthPx, 1), max(heightPx, 1), dpi)
	clearPicture(c.picture, look.Background)
	vg.Initialize(c.paper)
	edge := look.points(4)
	whole := vgdraw.Crop(vgdraw.New(c.paper), edge, -edge, edge, -edge)
	chart.memory = &c.memory
	drawn, ok := chart.Draw(whole)
	if !ok {
		return c.picture, Transform{Units: look.Units}
	}
	return c.picture, c.transform(drawn, look.Units)
}

// prepare makes picture and drawing context again only when the size changes.
func (c *Canvas) prepare(width, height int, dpi float64) {
	if !(dpi >= 1) || math.IsInf(dpi, 0) {
		dpi = vgimg.DefaultDPI
	}
	d := int(math.Round(dpi))
	if c.picture != nil && c.picture.Rect.Dx() == width && c.picture.Rect.Dy() == height && c.dpi == d {
		return
	}
	c.picture = image.NewRGBA(image.Rect(0, 0, width, height))
	ctx := gg.NewContextForRGBA(c.picture)
	ctx.SetLineCapButt()
	ctx.InvertY()
	c.paper = &keptFacesCanvas{
		Canvas:  vgimg.NewWith(vgimg.UseDPI(d), vgimg.UseImageWithContext(c.picture, ctx)),
		picture: c.picture, faces: map[faceSize]xfont.Face{},
	}
	c.dpi = d
}

func clearPicture(picture *image.RGBA, ground color.Color) {
	draw.Draw(picture, picture.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
}

func (c *Canvas) transform(d Drawn, sys units.Locale) Transform {
	height := float64(c.picture.Rect.Dy())
	dots := func(at vg.Point) Pixel {
		return Pixel{at.X.Dots(float64(c.dpi)), height - at.Y.Dots(float64(c.dpi))}
	}
	low, high := dots(d.Data.Min), dots(d.Data.Max)
	t := Transform{
		Units: sys,
		Area:  Area{MinX: low.X, MaxX: high.X, MinY: high.Y, MaxY: low.Y},
		x:     scaleOf(d.Plot.X), y: scaleOf(d.Plot.Y),
	}
	if d.bars != nil {
		t.Bars = d.bars.pieces(d.Data, d.Plot, dots)
	}
	return t
}

// Area is the part of a picture that holds the data, in pixels from its upper
// left corner.
type Area struct{ MinX, MinY, MaxX, MaxY float64 }

// Transform converts between the data of a chart, in the units of its axes, and
// the pixels of its picture.
type Transform struct {
	Units units.Locale
	Area  Area
	Bars  []BarPiece // of a chart of bars, from the top and from the left
	x, y  scale
}

// scale is the range of an axis; log where equal steps are equal ratios.
type scale struct {
	min, max float64
	log      bool
}

func scaleOf(a plot.Axis) scale {
	_, log := a.Scale.(plot.LogScale)
	return scale{a.Min, a.Max, log}
}

func (s scale) share(v float64) float64 {
	if s.log {
		return math.Log(v/s.min) / math.Log(s.max/s.min)
	}
	return (v - s.min) / (s.max - s.min)
}

func (s scale) value(share float64) float64 {
	if s.log {
		return s.min * math.Pow(s.max/s.min, share)
	}
	return s.min + share*(s.max-s.min)
}

// Valid reports whether a chart was drawn.
func (t Transform) Valid() bool { return t.Area.MaxX > t.Area.MinX && t.Area.MaxY > t.Area.MinY }

// DataToPixel gives the pixel of a point of the chart.
func (t Transform) DataToPixel(x, y float64) (px, py float64) {
	return t.Area.MinX + t.x.share(x)*(t.Area.MaxX-t.Area.MinX), t.Area.MaxY - t.y.share(y)*(t.Area.MaxY-t.Area.MinY)
}

// PixelToData gives the point of the chart under a pixel.
func (t Transform) PixelToData(px, py float64) (x, y float64) {
	return t.x.value((px - t.Area.MinX) / (t.Area.MaxX - t.Area.MinX)), t.y.value((t.Area.MaxY - py) / (t.Area.MaxY - t.Area.MinY))
}

// Inside reports whether a pixel is in the data area.
func (t Transform) Inside(px, py float64) bool {
	return t.Valid() && px >= t.Area.MinX && px <= t.Area.MaxX && py >= t.Area.MinY && py <= t.Area.MaxY
}
