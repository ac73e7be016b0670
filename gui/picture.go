package gui

import (
	"fmt"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
)

// Picture is the window as it first looks on a job, with no display.
func Picture(job sizing.Job, variant string, width, height int) (image.Image, error) {
	return PictureOf(firstPlace, job, variant, width, height)
}

// PictureOf is the window with a place in view. The error names what cannot be
// drawn: a size too small, a theme or a place that is not there.
func PictureOf(place string, job sizing.Job, variant string, width, height int) (image.Image, error) {
	if variant != look.Light && variant != look.Dark {
		return nil, fmt.Errorf("theme: given %q; want %s or %s", variant, look.Light, look.Dark)
	}
	if width < 320 || height < 240 || width > 8000 || height > 8000 {
		return nil, fmt.Errorf("size: given %dx%d; want 320x240 to 8000x8000", width, height)
	}
	if placeOf(place).key != place {
		return nil, fmt.Errorf("place: given %q; want one of %v", place, placeKeys())
	}
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	if err != nil {
		return nil, err
	}
	b.settings.Theme = variant
	b.retheme()
	if job.Limits.NominalSizes == sizing.MetricSizes {
		b.settings.Units = "si"
		b.session.SetUnits(b.settings.system())
	}
	b.window.Resize(fyne.NewSize(float32(width), float32(height)))
	b.put(job, "")
	b.enter(place)
	b.window.Canvas().Unfocus() // no blinking cursor in a picture
	return b.window.Canvas().Capture(), nil
}

func placeKeys() []string {
	var keys []string
	for _, p := range places() {
		keys = append(keys, p.key)
	}
	return keys
}
