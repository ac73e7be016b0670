package report

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"strings"
)

// Sizes of the letterhead, in points.
const (
	logoWide = 190.0
	logoHigh = 46.0
)

// headline is one line of a block at the top of a page.
type headline struct {
	style
	text string
}

// letterhead writes the firm at the left and what the paper is at the right, then
// whom it is for.
func (d *document) letterhead(f *flow, kind string, facts []string) {
	left, logo := d.firmLines(f)
	right := []headline{{style{size: 18, bold: true}, kind}}
	for _, text := range facts {
		right = append(right, headline{style{size: 9.5}, text})
	}
	leftWide := f.width * 0.6
	logoRoom := 0.0
	if logo != nil {
		logoRoom = logoHigh + 6
	}
	height := max(logoRoom+tall(left), tall(right)) + 6
	f.add(row{height: height, keep: true, entry: kind, draw: func(y float64) {
		if logo != nil {
			f.picture(logo, f.x, y, logoWide, logoHigh)
		}
		f.stack(left, f.x, y+logoRoom, leftWide, false)
		f.stack(right, f.x+leftWide+8, y, f.width-leftWide-8, true)
	}})
	f.add(row{height: 8, keep: true, draw: func(y float64) { f.line(black, 1.2, nil, f.x, y, f.x+f.width, y) }})
	f.add(row{height: 2, keep: true})
	d.addressed(f)
}

// firmLines are the words of the firm; without a profile there is a line to write
// them on.
func (d *document) firmLines(f *flow) (lines []headline, logo image.Image) {
	p := d.Firm
	if p.IsZero() {
		return []headline{{style{size: 9.5}, f.say("Company: {line}", "line", blankLine(36))}, {style{size: 9.5}, f.say("License, phone: {line}", "line", blankLine(31))}}, nil
	}
	if p.Name != "" {
		lines = append(lines, headline{style{size: 14, bold: true}, p.Name})
	}
	var reach []string
	for _, text := range []string{p.Phone, p.Mail} {
		if text != "" {
			reach = append(reach, text)
		}
	}
	for _, text := range []string{p.Address, strings.Join(reach, "  ·  "), d.licenseWords(p.License)} {
		if text != "" {
			lines = append(lines, headline{style{size: 9.5}, text})
		}
	}
	return lines, p.Picture
}

func (d *document) licenseWords(license string) string {
	if license == "" {
		return ""
	}
	return d.say("License {number}", "number", license)
}

func blankLine(letters int) string { return strings.Repeat("_", letters) }

// addressed writes for whom the paper is.
func (d *document) addressed(f *flow) {
	c := d.job.Customer
	name := c.Name
	if name == "" {
		name = strings.TrimSpace(d.study.Name)
	}
	if name == "" {
		name = blankLine(24) // to be written in
	}
	t := style{size: 11, bold: true}
	for _, line := range f.cutLines(t, d.say("For {name}", "name", name), f.width, 2) {
		f.add(f.textRow(t, f.x, line))
	}
	var more []string
	for _, text := range []string{c.Address, c.Phone} {
		if text != "" {
			more = append(more, text)
		}
	}
	if c.Name != "" && strings.TrimSpace(d.study.Name) != "" {
		more = append(more, d.houseName())
	}
	plain := style{size: 9.5}
	for _, line := range more {
		for _, cut := range f.cutLines(plain, line, f.width, 1) {
			f.add(f.textRow(plain, f.x, cut))
		}
	}
}

func tall(lines []headline) float64 {
	sum := 0.0
	for _, l := range lines {
		sum += l.leading()
	}
	return sum
}

// stack writes lines under each other, shrunk and then cut to a width.
func (f *flow) stack(lines []headline, x, y, width float64, right bool) {
	for _, l := range lines {
		t, text := f.fit(l.style, l.text, width, 9)
		if right {
			f.flushRight(t, x+width, y+l.ascent(), text)
		} else {
			f.put(t, x, y+l.ascent(), text)
		}
		y += l.leading()
	}
}

// picture puts a picture into a box in its own shape, at the box's upper left.
func (s *sheet) picture(img image.Image, x, y, w, h float64) {
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		s.pdf.SetError(err)
		return
	}
	size := img.Bounds().Size()
	k := min(w/float64(size.X), h/float64(size.Y))
	s.pdf.Picture(fmt.Sprintf("picture %p", img), "png", img, &data, x, y, k*float64(size.X), k*float64(size.Y))
}
