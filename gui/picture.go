package gui

import (
	"fmt"
	"image"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Frame describes a picture of the window.
type Frame struct {
	Place         string // its key; empty: the first
	Theme         string // look.Light or look.Dark
	Width, Height int
	TextSize      float32 // 0: the usual
	// Locale is the language and the decimal mark; the zero is English. The units
	// are the job's.
	Locale units.Locale
}

// check names what cannot be drawn.
func (f Frame) check() error {
	switch {
	case f.Theme != look.Light && f.Theme != look.Dark:
		return message.Errorf("theme: given {given}; want {light} or {dark}", "given", strconv.Quote(f.Theme), "light", look.Light, "dark", look.Dark)
	case f.Width < 320 || f.Height < 240 || f.Width > 8000 || f.Height > 8000:
		return message.Errorf("size: given {width}x{height}; want 320x240 to 8000x8000", "width", f.Width, "height", f.Height)
	case !slices.Contains(PlaceKeys(), f.Place):
		return message.Errorf("place: given {given}; want one of {places}", "given", strconv.Quote(f.Place), "places", fmt.Sprint(PlaceKeys()))
	case !slices.Contains(textSizes, f.TextSize):
		return message.Errorf("text size: given {given}; want one of {sizes}", "given", fmt.Sprint(f.TextSize), "sizes", fmt.Sprint(textSizes))
	}
	return nil
}

func (f Frame) filled() Frame {
	f.Place = PlaceKey(f.Place)
	if f.Place == "" {
		f.Place = firstPlace
	}
	if f.TextSize == 0 {
		f.TextSize = 1
	}
	return f
}

// Picture is the window on a job, with no display. The error names what cannot
// be drawn: a size too small, a theme or a place that is not there.
func Picture(job sizing.Job, f Frame) (picture image.Image, err error) {
	f = f.filled()
	err = Pictures(job, f, []string{f.Place}, func(_ string, one image.Image) error {
		picture = one
		return nil
	})
	return picture, err
}

// Pictures takes one picture of each place after another, of the same window.
func Pictures(job sizing.Job, f Frame, places []string, take func(place string, picture image.Image) error) error {
	f = f.filled()
	for _, f.Place = range places {
		if err := f.check(); err != nil {
			return err
		}
	}
	defer setLanguage(lang.Locale())
	setLanguage(f.Locale)
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep, Sample: sampledAtOnce})
	if err != nil {
		return err
	}
	b.settings.Theme, b.settings.TextSize = f.Theme, f.TextSize
	b.retheme()
	b.window.Resize(fyne.NewSize(float32(f.Width), float32(f.Height)))
	b.put(job, "")
	for _, place := range places {
		b.enter(place)
		b.window.Canvas().Unfocus() // no blinking cursor in a picture
		if err := take(place, b.window.Canvas().Capture()); err != nil {
			return err
		}
	}
	return nil
}

// aliases are further names of places, by their key.
var aliases = map[string]string{
	"start": firstPlace, "site": "house", "filter": "slot", "coil": "parts", "readings": "gauge", "finder": "target",
	"problems": problemsPlace, "calculations": "working", "requirements": "limits", "print": pagesPlace, "safety": cautionsPlace, "class": lessonPlace,
}

// PlaceKey is the key of a place by any of its names.
func PlaceKey(name string) string {
	if key, ok := aliases[name]; ok {
		return key
	}
	return name
}

// PlaceKeys name the places in their order.
func PlaceKeys() []string {
	var keys []string
	for _, p := range places() {
		keys = append(keys, p.key)
	}
	return keys
}
