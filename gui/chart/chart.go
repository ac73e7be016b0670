package chart

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/plots"
)

// Chart shows a chart, sharp at any scale of the screen, with a read-out: under
// the pointer, or by keyboard: left and right go along a curve, up and down
// change the curve; in a chart of bars they go from piece to piece of a bar, and
// from bar to bar. Moving the read-out does not draw the chart again.
//
// A part of a chart with curves can be looked at closer: by the wheel, by a
// frame drawn with the pointer, by plus and minus; shift and the arrows move
// the part in view, zero shows the whole again. The plot is drawn again each
// time, so it stays sharp.
type Chart struct {
	widget.BaseWidget

	// OnView is called at every change of the part in view.
	OnView func()
	// OnOption is called with the option whose curve is read: its name, or empty.
	OnOption func(name string)

	lookSet func() plots.Look
	source  func() (plots.Chart, bool)

	paper  *plots.Canvas
	raster *canvas.Raster
	frame  *image.RGBA
	at     plots.Transform
	stale  bool
	redraw bool   // with every curve where it is
	option string // whose curve is read
	lines  []plots.ReadoutLine
	view   plots.View

	focused bool
	shift   bool
	hit     plots.Hit
	shown   bool
	curve   int // of the keyboard read-out, or the piece of a bar
	drag    drag

	overlay readout
}

var (
	_ desktop.Cursorable = (*Chart)(nil)
	_ desktop.Hoverable  = (*Chart)(nil)
	_ desktop.Keyable    = (*Chart)(nil)
	_ fyne.Draggable     = (*Chart)(nil)
	_ fyne.Focusable     = (*Chart)(nil)
	_ fyne.Scrollable    = (*Chart)(nil)
	_ fyne.Tappable      = (*Chart)(nil)
)

// New makes an empty chart.
func New() *Chart {
	c := &Chart{paper: plots.NewCanvas(), stale: true, view: plots.WholeView()}
	c.raster = canvas.NewRaster(c.draw)
	c.overlay.build()
	c.ExtendBaseWidget(c)
	return c
}

// SetLook sets the look of the plot, and with it the units of the read-out. Without
// it the chart takes its background from the theme and uses inch-pound units.
func (c *Chart) SetLook(look func() plots.Look) {
	c.lookSet = look
	c.Refresh()
}

func (c *Chart) look() plots.Look {
	if c.lookSet != nil {
		return c.lookSet()
	}
	l := plots.Light(lang.Locale())
	l.Background = look.Of(c.Theme(), theme.ColorNameBackground)
	return l
}

// SetSource sets the function that makes the chart; false for no chart.
func (c *Chart) SetSource(source func() (plots.Chart, bool)) {
	c.source = source
	c.Refresh()
}

// Refresh draws the plot again.
func (c *Chart) Refresh() {
	c.stale = true
	c.BaseWidget.Refresh()
}

// draw gives the picture for a number of real pixels; the last one serves
// again while nothing changed.
func (c *Chart) draw(w, h int) image.Image {
	if !c.stale && !c.redraw && c.frame != nil && c.frame.Rect.Dx() == w && c.frame.Rect.Dy() == h {
		return c.frame
	}
	if c.source == nil || w < 1 || h < 1 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	chart, ok := c.source()
	if !ok {
		return image.NewRGBA(image.Rect(0, 0, w, h))
	}
	c.lines = chart.Lines
	if c.CanZoom() {
		c.view.Set(chart.Plot)
	}
	c.frame, c.at = c.paper.Render(chart, c.look(), w, h, 96*c.pixels(w))
	c.stale, c.redraw = false, false
	return c.frame
}

// pixels is how many real pixels a unit of the widget has.
func (c *Chart) pixels(w int) float64 {
	if width := c.raster.Size().Width; width > 0 {
		return float64(w) / float64(width)
	}
	return 1
}

func (c *Chart) scale() float64 {
	if c.frame == nil {
		return 1
	}
	return c.pixels(c.frame.Rect.Dx())
}

// Readout is the text of the read-out, empty while there is none.
func (c *Chart) Readout() string {
	if !c.shown {
		return ""
	}
	return c.hit.Show()
}

// MouseIn starts the read-out under the pointer.
func (c *Chart) MouseIn(e *desktop.MouseEvent) { c.MouseMoved(e) }

// MouseMoved moves the read-out to the line nearest the pointer, or the piece
// of a bar under it.
func (c *Chart) MouseMoved(e *desktop.MouseEvent) {
	if c.drag.on {
		return
	}
	k := c.scale()
	px, py := float64(e.Position.X)*k, float64(e.Position.Y)*k
	if c.stale || !c.at.Inside(px, py) {
		c.hide()
		return
	}
	if c.HasBars() {
		c.readBarAt(px, py)
		return
	}
	if hit, ok := plots.Nearest(c.lines, c.at, px, py); ok {
		c.curve = hit.Line
		c.show(hit)
	}
}

// MouseOut ends the read-out, unless the keyboard holds it.
func (c *Chart) MouseOut() {
	if !c.focused {
		c.hide()
	}
}

// Tapped takes the keyboard.
func (c *Chart) Tapped(*fyne.PointEvent) {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil {
		cv.Focus(c)
	}
}

// Cursor is a cross.
func (c *Chart) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// FocusGained shows the focus.
func (c *Chart) FocusGained() {
	c.focused = true
	c.overlay.paint(c)
}

// FocusLost ends the read-out.
func (c *Chart) FocusLost() {
	c.focused, c.shift = false, false
	c.hide()
	c.overlay.paint(c)
}

// KeyDown and KeyUp follow the shift key, which no typed key tells of.
func (c *Chart) KeyDown(k *fyne.KeyEvent) { c.shift = c.shift || isShift(k.Name) }

// KeyUp ends the shift.
func (c *Chart) KeyUp(k *fyne.KeyEvent) { c.shift = c.shift && !isShift(k.Name) }

func isShift(k fyne.KeyName) bool { return k == desktop.KeyShiftLeft || k == desktop.KeyShiftRight }

// keyStep is how far a key press moves along a curve, in units of the widget.
const keyStep = 6

// TypedKey moves the read-out along a curve or to another, or from piece to
// piece of bars.
func (c *Chart) TypedKey(k *fyne.KeyEvent) {
	if widgets.HelpKey(c, k) {
		return
	}
	if c.stale || !c.at.Valid() || (len(c.lines) == 0 && !c.HasBars()) {
		return
	}
	if k.Name == fyne.KeyEscape {
		if !c.shown {
			c.ResetZoom()
		}
		c.hide()
		return
	}
	if c.HasBars() {
		c.barByKey(k.Name)
		return
	}
	if c.shift && c.panByKey(k.Name) {
		return
	}
	if !c.shown {
		switch k.Name {
		case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd:
			c.changeCurve(0)
		}
		return
	}
	step := keyStep * c.scale()
	switch k.Name {
	case fyne.KeyRight:
		c.along(step)
	case fyne.KeyLeft:
		c.along(-step)
	case fyne.KeyEnd:
		c.along(math.Inf(1))
	case fyne.KeyHome:
		c.along(math.Inf(-1))
	case fyne.KeyUp:
		c.changeCurve(-1)
	case fyne.KeyDown:
		c.changeCurve(1)
	}
}

// changeCurve goes to the next curve that lies in the chart, near where the
// read-out stands.
func (c *Chart) changeCurve(by int) {
	x, y := c.hit.X, c.hit.Y
	if !c.shown {
		a := c.at.Area
		x, y = (a.MinX+a.MaxX)/2, (a.MinY+a.MaxY)/2
	}
	n := len(c.lines)
	for tries := range n {
		step := by * (tries + 1)
		if by == 0 {
			step = tries
		}
		i := ((c.curve+step)%n + n) % n
		if c.read(i, x, y) {
			return
		}
	}
}

// along moves the read-out by a length of drawn line towards more airflow.
func (c *Chart) along(by float64) {
	if c.curve >= len(c.lines) {
		return
	}
	path := c.lines[c.curve].Path(c.at)
	if len(path) < 2 {
		return
	}
	if path[len(path)-1].X < path[0].X {
		by = -by
	}
	here, total := positionOnPath(path, c.hit.X, c.hit.Y)
	to := pointAt(path, math.Min(math.Max(here+by, 0), total))
	c.read(c.curve, to.X, to.Y)
}

// read shows the point of one curve nearest to a pixel; false where the curve
// is out of view.
func (c *Chart) read(curve int, x, y float64) bool {
	if curve >= len(c.lines) {
		return false
	}
	hit, ok := plots.Nearest(c.lines[curve:curve+1], c.at, x, y)
	if ok {
		hit.Line, c.curve = curve, curve
		c.show(hit)
	}
	return ok
}

// positionOnPath finds how far along a path its point nearest to a point lies, and
// how long the path is.
func positionOnPath(path []plots.Pixel, x, y float64) (here, total float64) {
	best := math.Inf(1)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		long := math.Hypot(dx, dy)
		t := 0.0
		if long > 0 {
			t = math.Min(math.Max(((x-a.X)*dx+(y-a.Y)*dy)/(long*long), 0), 1)
		}
		if d := math.Hypot(a.X+t*dx-x, a.Y+t*dy-y); d < best {
			best, here = d, total+t*long
		}
		total += long
	}
	return here, total
}

// pointAt is the point at a length along a path.
func pointAt(path []plots.Pixel, length float64) plots.Pixel {
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length <= long && long > 0 {
			t := length / long
			return plots.Pixel{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
		}
		length -= long
	}
	return path[len(path)-1]
}

func (c *Chart) show(hit plots.Hit) {
	c.hit, c.shown = hit, true
	c.overlay.paint(c)
	c.reportOption()
}

// reportOption calls OnOption when the option whose curve is read changes.
func (c *Chart) reportOption() {
	name := ""
	if c.shown && !c.onBar() && c.hit.Line < len(c.lines) {
		name = c.lines[c.hit.Line].Option
	}
	if name != c.option {
		c.option = name
		if c.OnOption != nil {
			c.OnOption(name)
		}
	}
}

// Redraw draws the plot again under the read-out, which stays: for a change that
// moves no curve.
func (c *Chart) Redraw() {
	c.redraw = true
	c.raster.Refresh()
}

func (c *Chart) hide() {
	if c.shown {
		c.shown = false
		c.overlay.paint(c)
		c.reportOption()
	}
}

// CreateRenderer lays the read-out over the picture.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer { return &chartRenderer{c: c} }

type chartRenderer struct{ c *Chart }

func (r *chartRenderer) Destroy()           {}
func (r *chartRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 140) }

func (r *chartRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.c.raster, r.c.drag.frame()}, r.c.overlay.objects()...)
}

// Layout leaves the read-out alone while the size stays: the window lays a
// widget out again whenever a text in it changes.
func (r *chartRenderer) Layout(size fyne.Size) {
	if size == r.c.raster.Size() {
		return
	}
	r.c.raster.Resize(size)
	r.c.shown = false
	r.c.overlay.paint(r.c)
}

func (r *chartRenderer) Refresh() {
	r.c.stale = true
	r.c.shown = false
	r.c.raster.Refresh()
	r.c.overlay.paint(r.c)
}
