// Package photo makes the photos of a job ready for paper: turned upright, shrunk to
// what paper shows, and without the camera's own data, such as where and when they
// were taken.
package photo

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // photos
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/bep/imagemeta"
	"golang.org/x/image/draw"

	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

const (
	// MostBytes is the largest file that is read.
	MostBytes = 40 << 20
	// mostPixels is of a picture before it is shrunk.
	mostPixels = 64e6
	// Longest is the longer side of a photo that is kept, in pixels: 340 an inch on
	// four inches of paper.
	Longest = 1360
	// keptBytes is the most that a kept photo takes; a job holds it in base64.
	keptBytes = 220_000
)

// Picture is a photo ready for paper.
type Picture struct {
	Image image.Image
	JPEG  []byte
}

// Prepare makes a JPEG or PNG file ready. Its size is checked before its pixels
// are decoded.
func Prepare(data []byte) (Picture, error) {
	if len(data) > MostBytes {
		return Picture{}, message.Errorf("given {size} MB; want a photo of at most {most} MB", "size", len(data)>>20, "most", MostBytes>>20)
	}
	size, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "jpeg" && kind != "png" {
		return Picture{}, message.Errorf("not a JPEG or PNG picture; save or export the photo as JPEG")
	}
	if float64(size.Width)*float64(size.Height) > mostPixels {
		return Picture{}, message.Errorf("given {width} x {height} pixels; want at most {most} million in all", "width", size.Width, "height", size.Height, "most", int(mostPixels/1e6))
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Picture{}, message.Errorf("the picture cannot be read: {fault}", "fault", err)
	}
	upright := turned(shrunk(img, Longest), orientation(data, kind))
	return packed(upright)
}

// packed writes a picture as JPEG, at lower quality or smaller size until it is
// small enough. The encoder writes pixels alone.
func packed(img *image.RGBA) (Picture, error) {
	for side := Longest; ; side = side * 3 / 4 {
		img = shrunk(img, side)
		for _, quality := range []int{85, 75, 62} {
			var out bytes.Buffer
			if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
				return Picture{}, err
			}
			if out.Len() <= keptBytes {
				return Picture{img, out.Bytes()}, nil
			}
		}
	}
}

// shrunk draws a picture on white, its longer side so long at most.
func shrunk(img image.Image, longest int) *image.RGBA {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if most := max(w, h); most > longest {
		w, h = max(w*longest/most, 1), max(h*longest/most, 1)
	}
	if same, ok := img.(*image.RGBA); ok && w == b.Dx() && h == b.Dy() {
		return same
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.BiLinear.Scale(out, out.Bounds(), img, b, draw.Over, nil)
	return out
}

// orientation is how the camera was held, 1 to 8 by EXIF; 1 where it has none.
func orientation(data []byte, kind string) int {
	format := imagemeta.JPEG
	if kind == "png" {
		format = imagemeta.PNG
	}
	found := 1
	_, err := imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(data), ImageFormat: format, Sources: imagemeta.EXIF, Timeout: 5 * time.Second,
		ShouldHandleTag: func(tag imagemeta.TagInfo) bool { return tag.Tag == "Orientation" && tag.Namespace == "IFD0" },
		HandleTag: func(tag imagemeta.TagInfo) error {
			if n, ok := tag.Value.(uint16); ok && n >= 1 && n <= 8 {
				found = int(n)
			}
			return nil
		},
	})
	if err != nil {
		return 1
	}
	return found
}

// turned turns and mirrors a picture upright. EXIF counts by where its first row and
// first column are: 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right
// top, 7 right bottom, 8 left bottom.
func turned(img *image.RGBA, how int) *image.RGBA {
	if how < 2 || how > 8 {
		return img
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if how >= 5 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			var u, v int
			switch how {
			case 2:
				u, v = w-1-x, y
			case 3:
				u, v = w-1-x, h-1-y
			case 4:
				u, v = x, h-1-y
			case 5:
				u, v = y, x
			case 6:
				u, v = h-1-y, x
			case 7:
				u, v = h-1-y, w-1-x
			case 8:
				u, v = y, w-1-x
			}
			out.SetRGBA(u, v, img.RGBAAt(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}

// ReadFile reads the file of a photo; one over MostBytes is an error.
func ReadFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, message.Errorf("there is no such file beside the job file")
	}
	if err != nil {
		return nil, message.Errorf("the file cannot be opened")
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, message.Errorf("not a file of a photo")
	}
	data, err := io.ReadAll(io.LimitReader(f, MostBytes+1))
	if err != nil {
		return nil, message.Errorf("the file cannot be read")
	}
	return data, nil
}

// Open makes a photo of a job ready; folder is the job file's.
func Open(p quote.Photo, folder string) (Picture, error) {
	if p.File == "" {
		data, err := base64.StdEncoding.DecodeString(p.Data)
		if err != nil {
			return Picture{}, message.Errorf("the photo in the job file is damaged")
		}
		return Prepare(data)
	}
	if folder == "" {
		return Picture{}, message.Errorf("the job has no file yet that it could be beside")
	}
	if p.File != filepath.Base(p.File) {
		return Picture{}, message.Errorf("not a file beside the job file")
	}
	data, err := ReadFile(filepath.Join(folder, p.File))
	if err != nil {
		return Picture{}, err
	}
	return Prepare(data)
}

// Inside is a photo as the job file stores it.
func Inside(p Picture) string { return base64.StdEncoding.EncodeToString(p.JPEG) }

// Called is a photo's file or caption, which identifies it beside its number. Empty
// where it has neither.
func Called(p quote.Photo) string {
	return cmp.Or(p.File, strings.TrimSpace(p.Caption))
}

// Name is what a photo is called in a sentence: its number, with its file or caption.
func Name(l units.Locale, p quote.Photo, index int) string {
	if called := Called(p); called != "" {
		return message.Text(l, "photo {number} ({called})", "number", index+1, "called", called)
	}
	return message.Text(l, "photo {number}", "number", index+1)
}
