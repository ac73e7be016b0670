// Package firm reads the profile of the firm that does the work: the letterhead
// of its papers. The profile is one file in a person's own folder; no job
// contains any of it.
package firm

import (
	"bytes"
	"image"
	_ "image/jpeg" // logos
	_ "image/png"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"golang.org/x/image/draw"

	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
)

// Profile is what a firm puts on every paper.
type Profile struct {
	Name    string `json:"name,omitzero"`
	License string `json:"license,omitzero"`
	Phone   string `json:"phone,omitzero"`
	Mail    string `json:"mail,omitzero"`
	Address string `json:"address,omitzero"`
	// Logo is a PNG, JPEG or SVG file; a name without a folder is beside the profile.
	Logo string `json:"logo,omitzero"`
	// TaxRate is a share of the price, such as 0.0825.
	TaxRate float64 `json:"tax_rate,omitzero"`
	// ValidDays is how long an offer holds.
	ValidDays int `json:"valid_days,omitzero"`
	// Terms are printed under every offer.
	Terms string `json:"terms,omitzero"`

	// Picture is the logo as read, no larger than paper shows.
	Picture image.Image `json:"-"`
}

// IsZero reports whether nothing is known of the firm.
func (p Profile) IsZero() bool { return p.Name == "" && p.Picture == nil }

const (
	mostBytes   = 8 << 20 // of a logo's file
	mostPixels  = 40e6    // of a logo
	widest      = 1200    // kept, in pixels: 300 an inch on four inches of paper
	mostLetters = 200     // of a line
	mostTerms   = 2000
)

// Read reads a profile and its logo. Where only the logo has a fault, the rest of
// the profile is returned with the error.
func Read(path string) (Profile, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return Profile{}, err
	}
	p, err := Decode(data)
	if err != nil {
		return Profile{}, message.Errorf("{file}: {fault}", "file", filepath.Base(path), "fault", err)
	}
	if p.Logo == "" {
		return p, nil
	}
	file := p.Logo
	if !filepath.IsAbs(file) {
		file = filepath.Join(filepath.Dir(path), file)
	}
	if p.Picture, err = readLogo(file); err != nil {
		return p, message.Errorf("{file}: logo: {fault}", "file", filepath.Base(path), "fault", err)
	}
	return p, nil
}

// Decode reads a profile without its logo.
func Decode(data []byte) (Profile, error) {
	var p Profile
	if err := json.Unmarshal(data, &p, json.RejectUnknownMembers(true)); err != nil {
		return Profile{}, message.Errorf("not a firm's profile: {fault}; a profile is a JSON object with name, license, phone, mail, address, logo, tax_rate, valid_days and terms", "fault", err)
	}
	return p, p.check()
}

func (p Profile) check() error {
	var faults []any
	for _, f := range []struct {
		name, text string
		most       int
	}{
		{"name", p.Name, mostLetters}, {"license", p.License, mostLetters}, {"phone", p.Phone, mostLetters},
		{"mail", p.Mail, mostLetters}, {"address", p.Address, mostLetters}, {"logo", p.Logo, mostLetters}, {"terms", p.Terms, mostTerms},
	} {
		if n := utf8.RuneCountInString(f.text); n > f.most {
			faults = append(faults, message.Errorf("{field}: given {letters} letters; want at most {most}", "field", f.name, "letters", n, "most", f.most))
		}
	}
	if !(p.TaxRate >= 0 && p.TaxRate <= 0.5) {
		faults = append(faults, message.Errorf("tax_rate: given {rate}; want a share of the price from 0 to {most}, such as {example}", "rate", p.TaxRate, "most", 0.5, "example", 0.0825))
	}
	if p.ValidDays < 0 || p.ValidDays > 730 {
		faults = append(faults, message.Errorf("valid_days: given {days}; want 1 to 730, or nothing", "days", p.ValidDays))
	}
	if len(faults) == 0 {
		return nil
	}
	return message.Errorf("{faults}", "faults", message.Rows{Mark: "\n", Items: faults})
}

// Write keeps a profile, whole or not at all.
func Write(path string, p Profile) error {
	if err := p.check(); err != nil {
		return err
	}
	data, err := json.Marshal(p, jsontext.WithIndent("  "))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return atomicfile.Write(path, append(data, '\n'), 0o644)
}

// readLogo reads a picture and shrinks it to what paper shows.
func readLogo(path string) (image.Image, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.Size() > mostBytes {
		return nil, message.Errorf("given {size} MB; want a PNG, JPEG or SVG file of at most {most} MB", "size", int(info.Size()>>20), "most", mostBytes>>20)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	if isSVG(data) {
		return drawSVG(data)
	}
	size, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "png" && kind != "jpeg" {
		return nil, message.Errorf("given {kind}; want a PNG, JPEG or SVG picture", "kind", strings.TrimPrefix(filepath.Ext(path), "."))
	}
	if float64(size.Width)*float64(size.Height) > mostPixels {
		return nil, message.Errorf("given {width} x {height} pixels; want at most 40 million in all", "width", size.Width, "height", size.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, message.Errorf("the picture cannot be read: {fault}", "fault", err)
	}
	return onPaper(img), nil
}

// onPaper draws a logo on white, as paper shows it, at most so wide.
func onPaper(img image.Image) image.Image {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if most := max(w, h); most > widest {
		w, h = max(w*widest/most, 1), max(h*widest/most, 1)
	}
	out := image.NewNRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	draw.CatmullRom.Scale(out, out.Bounds(), img, b, draw.Over, nil)
	return out
}
