package firm

import (
	"bytes"
	"encoding/xml"
	"image"
	"io"
	"math"
	"slices"

	"github.com/fyne-io/oksvg"
	"github.com/srwiley/rasterx"

	"returnbench/sizing/message"
)

// isSVG recognizes a drawing by its outermost element.
func isSVG(data []byte) bool {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = false
	for {
		t, err := d.RawToken()
		if err != nil {
			return false
		}
		if e, ok := t.(xml.StartElement); ok {
			return e.Name.Local == "svg"
		}
	}
}

// undrawn are elements that show something which the drawing library leaves out.
var undrawn = map[string]message.ID{"text": "text", "image": "a picture", "foreignObject": "a foreign object", "filter": "a filter", "mask": "a mask", "pattern": "a pattern"}

// drawSVG draws a logo as large as paper shows it. A drawing of which a part
// would be left out is refused.
func drawSVG(data []byte) (img image.Image, err error) {
	defer func() {
		if r := recover(); r != nil { // a path that the library cannot follow
			img, err = nil, message.Errorf("the drawing cannot be read; save it as plain SVG, or as PNG")
		}
	}()
	if err := drawable(data); err != nil {
		return nil, err
	}
	icon, err := oksvg.ReadIconStream(bytes.NewReader(data), oksvg.IgnoreErrorMode)
	if err != nil {
		return nil, message.Errorf("the drawing cannot be read: {fault}", "fault", err)
	}
	w, h := icon.ViewBox.W, icon.ViewBox.H
	shape := w / h
	if !(w > 0 && h > 0 && shape >= 1.0/50 && shape <= 50) || math.IsInf(w, 0) || math.IsInf(h, 0) {
		return nil, message.Errorf("given a drawing of {width} x {height}; want a width and a height, or a viewBox, with one side at most 50 times the other", "width", w, "height", h)
	}
	k := widest / max(w, h)
	wide, high := max(int(math.Round(w*k)), 1), max(int(math.Round(h*k)), 1)
	icon.SetTarget(0, 0, float64(wide), float64(high))
	out := image.NewRGBA(image.Rect(0, 0, wide, high))
	icon.Draw(rasterx.NewDasher(wide, high, rasterx.NewScannerGV(wide, high, out, out.Bounds())), 1)
	if !slices.ContainsFunc(out.Pix, func(p byte) bool { return p != 0 }) {
		return nil, message.Errorf("the drawing shows nothing; save it as plain SVG with shapes and paths, or as PNG")
	}
	return onPaper(out), nil
}

// drawable names what the library would leave out.
func drawable(data []byte) error {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = false
	for {
		t, err := d.RawToken()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return message.Errorf("the drawing is damaged")
		}
		if e, ok := t.(xml.StartElement); ok {
			if what := undrawn[e.Name.Local]; what != "" {
				return message.Errorf("the drawing holds {what}, which is not drawn here; turn it into paths, or save the logo as PNG", "what", what)
			}
		}
	}
}
