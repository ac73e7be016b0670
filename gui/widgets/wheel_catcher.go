package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// WheelCatcher is laid over a scrolled column. It takes the wheel alone, wherever the
// pointer is: an entry below would swallow it. All else goes through to what is
// below.
type WheelCatcher struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent)
}

var _ fyne.Scrollable = (*WheelCatcher)(nil)

// NewWheelCatcher makes a WheelCatcher that hands its turns on.
func NewWheelCatcher(turned func(*fyne.ScrollEvent)) *WheelCatcher {
	w := &WheelCatcher{turned: turned}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled hands the turn on.
func (w *WheelCatcher) Scrolled(e *fyne.ScrollEvent) { w.turned(e) }

// CreateRenderer draws nothing.
func (w *WheelCatcher) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(&fyne.Container{})
}
