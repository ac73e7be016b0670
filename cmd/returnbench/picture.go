package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"

	"returnbench/gui"
	"returnbench/sizing"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

type pictureVerb struct {
	jobArg
	languageFlag
	File  string `name:"output" short:"o" required:"" placeholder:"FILE.png" help:"The picture to write; with --all the folder for all of them."`
	Place string `placeholder:"KEY" help:"The place in view, such as start or compare; left open: the first."`
	All   bool   `help:"Every place in every size of --size and every theme of --theme, as PLACE-SIZE-THEME.png."`
	Theme string `placeholder:"light" help:"light or dark. Left open: light, or both with --all."`
	Size  string `placeholder:"1400x900" help:"Width and height in pixels. Left open: 1400x900, or 1366x768 and 1920x1080 with --all."`
	Text  int    `default:"100" placeholder:"100" help:"Size of the text in percent: 100, 125 or 150."`
}

func (v *pictureVerb) Run(s *streams) error {
	frames, err := v.frames()
	if err != nil {
		return usageError{err}
	}
	job, err := v.read(s)
	if err != nil {
		return err
	}
	for i := range frames {
		frames[i].Locale = v.in(units.IP)
	}
	if !v.All {
		if err := notTheInput(s, "-o", v.File, v.Job); err != nil {
			return err
		}
		picture, err := drawWindow(job, frames[0])
		if err != nil {
			return err
		}
		return writePNG(v.File, picture)
	}
	if err := os.MkdirAll(v.File, 0o755); err != nil {
		return err
	}
	if err := notOverInput(s, "-o", v.File, ".png", v.Job); err != nil {
		return err
	}
	return v.writePictures(s, job, frames)
}

// writePictures writes every place of every frame.
func (v *pictureVerb) writePictures(s *streams, job sizing.Job, frames []gui.Frame) error {
	count := 0
	for _, f := range frames {
		err := aside(func() error {
			return gui.Pictures(job, f, gui.PlaceKeys(), func(place string, picture image.Image) error {
				count++
				return writePNG(filepath.Join(v.File, fmt.Sprintf("%s-%dx%d-%s.png", place, f.Width, f.Height, f.Theme)), picture)
			})
		})
		if err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(visible{s.out}, message.Text(v.in(units.IP), "{count} pictures in {folder}", "count", count, "folder", v.File))
	return err
}

// frames are the pictures asked for, each but for its place.
func (v *pictureVerb) frames() ([]gui.Frame, error) {
	themes, sizes := []string{v.Theme}, []string{v.Size}
	switch {
	case v.All && v.Place != "":
		return nil, errors.New("--all takes every place; leave out --place")
	case v.All && v.Theme == "":
		themes = []string{"light", "dark"}
	case v.Theme == "":
		themes = []string{"light"}
	case v.Theme != "light" && v.Theme != "dark":
		return nil, fmt.Errorf("--theme: given %q; want light or dark", v.Theme)
	}
	switch {
	case v.All && v.Size == "":
		sizes = []string{"1366x768", "1920x1080"}
	case v.Size == "":
		sizes = []string{"1400x900"}
	}
	if v.Place != "" && !slices.Contains(gui.PlaceKeys(), gui.PlaceKey(v.Place)) {
		return nil, fmt.Errorf("--place: given %q; want one of %v", v.Place, gui.PlaceKeys())
	}
	if !slices.Contains([]int{100, 125, 150}, v.Text) {
		return nil, fmt.Errorf("--text: given %d; want 100, 125 or 150", v.Text)
	}
	var out []gui.Frame
	for _, size := range sizes {
		width, height, err := pixels(size)
		if err != nil {
			return nil, err
		}
		for _, theme := range themes {
			out = append(out, gui.Frame{Place: v.Place, Theme: theme, Width: width, Height: height, TextSize: float32(v.Text) / 100})
		}
	}
	return out, nil
}

func writePNG(file string, picture image.Image) error {
	var data bytes.Buffer
	if err := png.Encode(&data, picture); err != nil {
		return err
	}
	return atomicfile.Write(file, data.Bytes(), 0o644)
}

func drawWindow(job sizing.Job, f gui.Frame) (picture image.Image, err error) {
	err = aside(func() (err error) {
		picture, err = gui.Picture(job, f)
		return err
	})
	return picture, err
}

// aside runs on a goroutine of its own: without a window the toolkit takes the
// program's first goroutine for the one its calls must come from outside.
func aside(f func() error) (err error) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		err = f()
	}()
	<-done
	return err
}

// The window's own least size, and what fits any printer and memory.
const (
	leastPixels = 400
	mostPixels  = 8000
)

func pixels(size string) (width, height int, err error) {
	var rest string
	n, _ := fmt.Sscanf(size+" .", "%dx%d %s", &width, &height, &rest)
	if n != 3 || rest != "." || min(width, height) < leastPixels || max(width, height) > mostPixels {
		return 0, 0, fmt.Errorf("--size: given %q; want width x height in pixels such as 1400x900, each %d to %d", size, leastPixels, mostPixels)
	}
	return width, height, nil
}
