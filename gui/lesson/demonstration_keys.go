package lesson

import (
	"fyne.io/fyne/v2"
)

// handleKey takes the keys that go from step to step, those that turn the pages of
// the explanation, and the digits of the predictions.
func (v *demonstrationView) handleKey(k fyne.KeyName) bool {
	if n := int(k[0] - '1'); v.show.Step() == Ask && len(k) == 1 && n >= 0 && n < len(v.answers) {
		v.show.Predict(n)
		return true
	}
	switch k {
	case fyne.KeyPageDown:
		v.show.Forward()
	case fyne.KeyPageUp:
		v.show.Back()
	case fyne.KeyF11:
		if v.toggleFullScreen != nil {
			v.toggleFullScreen()
		}
	case fyne.KeyPlus, fyne.KeyEqual:
		v.raiseHands(1)
	case fyne.KeyMinus:
		v.raiseHands(-1)
	case fyne.KeyUp:
		v.scroll(-1)
	case fyne.KeyDown:
		v.scroll(1)
	default:
		return false
	}
	return true
}

// raiseHands counts a hand for the prediction that has the keyboard.
func (v *demonstrationView) raiseHands(by int) {
	c := fyne.CurrentApp().Driver().CanvasForObject(v.box)
	for i, a := range v.answers {
		if c != nil && c.Focused() == fyne.Focusable(a) {
			v.show.Raise(i, by)
		}
	}
}

// scroll moves the explanation by some lines.
func (v *demonstrationView) scroll(by float32) {
	v.scrolled.ScrollToOffset(v.scrolled.Offset.AddXY(0, by*v.scrolled.Size().Height/3))
}

// switchKeys lets the arrows move a switch.
func (v *demonstrationView) switchKeys(i int) func(fyne.KeyName) bool {
	return func(k fyne.KeyName) bool {
		to := i
		switch k {
		case fyne.KeyLeft, fyne.KeyUp:
			to--
		case fyne.KeyRight, fyne.KeyDown:
			to++
		default:
			return v.handleKey(k)
		}
		if to >= 0 && to < len(v.choices) {
			v.show.MoveTo(to)
			if c := fyne.CurrentApp().Driver().CanvasForObject(v.choices[to]); c != nil && !v.choices[to].off {
				c.Focus(v.choices[to])
			}
		}
		return true
	}
}

// predictionKeys lets the arrows go from one prediction to the next, and the digits
// choose.
func (v *demonstrationView) predictionKeys(i int) func(fyne.KeyName) bool {
	return func(k fyne.KeyName) bool {
		to := i
		switch k {
		case fyne.KeyUp:
			to--
		case fyne.KeyDown:
			to++
		default:
			return v.handleKey(k)
		}
		if c := fyne.CurrentApp().Driver().CanvasForObject(v.box); c != nil && to >= 0 && to < len(v.answers) {
			c.Focus(v.answers[to])
		}
		return true
	}
}

// hasFocus reports whether a part of the view has the keyboard.
func (v *demonstrationView) hasFocus(f fyne.Focusable) bool {
	for _, list := range [][]*answer{v.answers, v.choices} {
		for _, a := range list {
			if f == fyne.Focusable(a) {
				return true
			}
		}
	}
	return f != nil && (f == fyne.Focusable(v.forward) || f == fyne.Focusable(v.back) || v.slider != nil && f == fyne.Focusable(v.slider))
}

// firstFocus is the part that takes the keyboard at the present step.
func (v *demonstrationView) firstFocus() fyne.Focusable {
	switch {
	case v.show.Step() == Ask && len(v.answers) > 0:
		return v.answers[max(v.show.Predicted(), 0)]
	case v.show.Step() == Try && v.slider != nil:
		return v.slider
	case v.show.Step() == Try && len(v.choices) > 0:
		return v.choices[min(v.show.Position(), len(v.choices)-1)]
	}
	if v.forward.Disabled() {
		return v.back
	}
	return v.forward
}
