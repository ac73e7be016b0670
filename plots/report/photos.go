package report

import (
	"bytes"
	"fmt"
	"strings"

	"returnbench/plots/report/photo"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// shownPhoto is a photo of the job, or why it cannot be shown.
type shownPhoto struct {
	quote.Photo
	number  int
	picture photo.Picture
	fault   error
}

// loadPhotos makes ready the photos that these pages show.
func (d *document) loadPhotos() {
	if d.For != Customer && d.For != WorkOrder {
		return
	}
	for i, p := range d.job.Photos {
		if d.For == Customer && !p.OnProposal {
			continue
		}
		x := shownPhoto{Photo: p, number: i + 1}
		x.picture, x.fault = photo.Open(p, d.Folder)
		d.photos = append(d.photos, x)
	}
}

// photoWarnings name the photos that are left out, and why.
func (d *document) photoWarnings() []string {
	var out []string
	for _, p := range d.photos {
		if p.fault != nil {
			out = append(out, d.say("{photo} is left out: {fault}", "photo", photo.Name(d.System, p.Photo, p.number-1), "fault", p.fault))
		}
	}
	return out
}

// subjectWords stand before a caption.
var subjectWords = map[quote.PhotoSubject]message.ID{
	quote.ShowsPlate: "Equipment plate", quote.ShowsCloset: "Where the unit stands", quote.ShowsGauge: "Gauge", quote.ShowsFilter: "Filter",
}

func (p shownPhoto) caption(sys units.Locale) string {
	subject, caption := message.Text(sys, subjectWords[p.Shows]), strings.TrimSpace(p.Caption)
	if subject != "" && caption != "" {
		return subject + ": " + caption
	}
	return subject + caption
}

// photoRows sets the photos in rows, each in a box of a height, above its caption.
func (d *document) photoRows(f *flow, across int, high float64) {
	const gap = 10.0
	var list []shownPhoto
	for _, p := range d.photos {
		if p.fault == nil {
			list = append(list, p)
		}
	}
	across = max(1, min(across, len(list)))
	wide := (f.width - gap*float64(across-1)) / float64(across)
	t := style{size: 9}
	for from := 0; from < len(list); from += across {
		line := list[from:min(from+across, len(list))]
		captions, most := make([][]string, len(line)), 0
		for i, p := range line {
			if text := p.caption(d.System); text != "" {
				captions[i] = f.cutLines(t, text, wide, 3)
			}
			most = max(most, len(captions[i]))
		}
		f.figure(high+4+float64(most)*t.leading()+4, func(y float64) {
			for i, p := range line {
				x := f.x + float64(i)*(wide+gap)
				w, h := d.sheet.photo(fmt.Sprint("photo ", p.number), p.picture, x, y, wide, high)
				d.sheet.box(rule, 0.5, nil, x, y, w, h)
				for k, text := range captions[i] {
					f.put(t, x, y+high+4+float64(k)*t.leading()+t.ascent(), text)
				}
			}
		})
	}
}

// photo puts a photo into a box without distortion, at the box's upper left, and
// returns the room that it used.
func (s *sheet) photo(name string, p photo.Picture, x, y, w, h float64) (wide, high float64) {
	size := p.Image.Bounds().Size()
	k := min(w/float64(size.X), h/float64(size.Y))
	wide, high = k*float64(size.X), k*float64(size.Y)
	s.pdf.Picture(name, "jpeg", p.Image, bytes.NewBuffer(p.JPEG), x, y, wide, high)
	return wide, high
}

// orderPhotos are the photos on a work order, with those that cannot be shown.
func (d *document) orderPhotos(across int, high float64) *flow {
	f := d.newFlow(1)
	f.orderHeading(d.say("Photos"))
	d.photoRows(f, across, high)
	for _, p := range d.photos {
		if p.fault == nil {
			continue
		}
		text := d.say("Photo {number} is left out: {fault}.", "number", p.number, "fault", p.fault)
		if called := photo.Called(p.Photo); called != "" {
			text = d.say("Photo {number} ({called}) is left out: {fault}.", "number", p.number, "called", called, "fault", p.fault)
		}
		f.paragraph(style{size: 8.75}, text)
	}
	return f
}

// orderPhotoHeights are tried for photos beside the drawings, before they take a page
// of their own.
var orderPhotoHeights = []float64{180, 150, 120, 100}

// withPhotos puts the photos under the drawings where there is room, else on a page
// of their own.
func (d *document) withPhotos(drawings []row) [][]row {
	room := d.sheet.textHeight()
	pages := pack(drawings, room)
	if len(d.photos) == 0 {
		return pages
	}
	for _, high := range orderPhotoHeights {
		all := append(drawings[:len(drawings):len(drawings)], d.orderPhotos(3, high).rows...)
		if more := pack(all, room); len(more) == len(pages) {
			return more
		}
	}
	return append(pages, pack(d.orderPhotos(2, 185).rows, room)...)
}
