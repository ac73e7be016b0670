package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"github.com/google/renameio/v2/maybe"

	"returnbench/gui"
	"returnbench/sizing"
)

type pictureVerb struct {
	jobArg
	File  string `name:"output" short:"o" required:"" placeholder:"FILE.png" help:"The picture to write."`
	Theme string `enum:"light,dark" default:"light" help:"light or dark."`
	Size  string `default:"1400x900" help:"Width and height in pixels."`
}

func (v *pictureVerb) Run(s *stage) error {
	width, height, err := pixels(v.Size)
	if err != nil {
		return usageError{err}
	}
	job, err := v.read(s)
	if err != nil {
		return err
	}
	picture, err := drawWindow(job, v.Theme, width, height)
	if err != nil {
		return err
	}
	var data bytes.Buffer
	if err := png.Encode(&data, picture); err != nil {
		return err
	}
	return maybe.WriteFile(v.File, data.Bytes(), 0o644)
}

// drawWindow draws on a goroutine of its own: without a window the toolkit takes
// the program's first goroutine for the one its calls must come from outside.
func drawWindow(job sizing.Job, theme string, width, height int) (picture image.Image, err error) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		picture, err = gui.Picture(job, theme, width, height)
	}()
	<-done
	return picture, err
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
