package lesson

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

// slider is the toolkit's, with keys to its ends and to the steps of the
// demonstration.
type slider struct {
	widget.Slider
	keys func(fyne.KeyName) bool // true: the key was taken
}

var _ fyne.Focusable = (*slider)(nil)

func newSlider(positions int, moved func(int)) *slider {
	s := &slider{}
	s.Min, s.Max, s.Step = 0, float64(max(positions-1, 1)), 1
	s.Orientation = widget.Horizontal
	s.OnChanged = func(v float64) { moved(int(v + 0.5)) }
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey goes along with the arrows, to the ends with Home and End.
func (s *slider) TypedKey(k *fyne.KeyEvent) {
	switch {
	case s.keys != nil && s.keys(k.Name):
	case s.Disabled():
	case k.Name == fyne.KeyHome:
		s.SetValue(s.Min)
	case k.Name == fyne.KeyEnd:
		s.SetValue(s.Max)
	default:
		s.Slider.TypedKey(k)
	}
}

// CreateRenderer gives the track the color of an edge: the toolkit's, that of
// an entry's ground, cannot be seen on a pale window.
func (s *slider) CreateRenderer() fyne.WidgetRenderer {
	s.ExtendBaseWidget(s)
	r := &sliderRenderer{WidgetRenderer: s.Slider.CreateRenderer(), s: s}
	r.paint()
	return r
}

type sliderRenderer struct {
	fyne.WidgetRenderer
	s *slider
}

func (r *sliderRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.paint()
}

func (r *sliderRenderer) paint() {
	if track, ok := r.Objects()[0].(*canvas.Rectangle); ok {
		track.FillColor = look.Of(r.s.Theme(), theme.ColorNameInputBorder)
		track.Refresh()
	}
}
