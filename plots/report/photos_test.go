package report

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/plots/report/firm"
	"returnbench/plots/report/photo"
	"returnbench/sizing"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// shade of a made picture, as large as a telephone takes it.
func madePhoto(t *testing.T, w, h int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.SetGray(x, y, color.Gray{uint8(255 * x / w)})
		}
	}
	var data bytes.Buffer
	require.NoError(t, png.Encode(&data, img))
	return data.Bytes()
}

// twoPhotos are one inside the job and one beside it.
func twoPhotos(t *testing.T, dir string) []quote.Photo {
	t.Helper()
	p, err := photo.Prepare(madePhoto(t, 400, 300))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "closet.png"), madePhoto(t, 300, 400), 0o600))
	return []quote.Photo{
		{Shows: quote.ShowsPlate, Caption: "the furnace's plate", Data: photo.Inside(p)},
		{Shows: quote.ShowsCloset, Caption: "hall closet, before", File: "closet.png", OnProposal: true},
	}
}

// afterWork adds a round of readings after the work, so that the work order has its
// table of before and after.
func afterWork(t *testing.T, job sizing.Job, option string) (sizing.Job, *sizing.Study) {
	t.Helper()
	job = job.Clone()
	job.Readings = append(job.Readings, sizing.Reading{Label: "after", AfterWork: true, Option: option, Mode: sizing.Cooling,
		ReturnPlenum: -0.2 * units.InchWater, BlowerInlet: -0.3 * units.InchWater, BlowerOutlet: 0.25 * units.InchWater, SupplyPlenum: 0.1 * units.InchWater})
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	require.NotEmpty(t, s.AfterWorkComparisons)
	return job, s
}

// TestPageCounts: a proposal has two pages at most and a work order two,
// with one more where its photos do not fit; the sign-off stands on the first two.
func TestPageCounts(t *testing.T) {
	dir := t.TempDir()
	photos := twoPhotos(t, dir)
	for _, name := range jobNames() {
		plain, first := studied(t, name)
		if first.Proposed().Kind != sizing.KindOption {
			continue
		}
		option := first.Proposed().Name
		job, s := afterWork(t, sevenLines(plain, option), option)
		for _, p := range Papers() {
			for _, logo := range []image.Image{nil, wideLogo()} {
				for _, list := range [][]quote.Photo{nil, photos} {
					job.Photos = list
					where := fmt.Sprintf("%s, %s, logo %v, %d photos", name, p, logo != nil, len(list))
					for _, a := range []Audience{Customer, WorkOrder} {
						opts := testOptions(a, p, systemOf(name))
						opts.Folder, opts.Proposed = dir, option
						opts.Firm = firm.Profile{Name: "Invented Air", License: "INV-0", Phone: "000", Picture: logo, Terms: "Half is due when you accept."}
						pages := readPages(t, written(t, job, s, opts))
						most := 2
						if a == WorkOrder && len(list) > 0 {
							most = 3
						}
						assert.LessOrEqual(t, len(pages), most, "%s for %s", where, a)
						if a == WorkOrder {
							text := pageText(pages[0]) + pageText(pages[1])
							holds(t, where, text, "Signed off", "Before and after the work", "Where to drill the test ports")
						}
					}
				}
			}
		}
	}
}

// TestPhotos: every photo is on the work order with its caption, and on the
// proposal where ticked; a lost one is named and left out.
func TestPhotos(t *testing.T) {
	dir := t.TempDir()
	job, s := studied(t, "one-inch-slot")
	job.Photos = append(twoPhotos(t, dir), quote.Photo{File: "gone.jpg", Caption: "lost", OnProposal: true})
	pictures := func(pages *Pages) (n int) {
		for _, page := range pages.sheet.pdf.pages {
			for _, x := range page {
				if x.picture != nil {
					n++
				}
			}
		}
		return n
	}
	for a, want := range map[Audience]int{WorkOrder: 2, Customer: 1, Working: 0, FieldSheet: 0} {
		opts := testOptions(a, Letter, units.IP)
		opts.Folder = dir
		pages, err := New(job, s, opts)
		require.NoError(t, err)
		assert.Equal(t, want, pictures(pages), a)
		var out bytes.Buffer
		require.NoError(t, pages.Write(&out))
		text := allText(readPages(t, out.Bytes()))
		warned := strings.Join(pages.Warnings, "\n")
		switch a {
		case WorkOrder:
			holds(t, string(a), text, "Equipment plate: the furnace's plate", "Where the unit stands: hall closet, before", "Photo 3 (gone.jpg) is left out: there is no such file beside the job file.")
			assert.Contains(t, warned, "photo 3 (gone.jpg)")
		case Customer:
			holds(t, string(a), text, "hall closet, before")
			assert.NotContains(t, text, "furnace's plate", "it is not ticked")
			assert.NotContains(t, text, "gone.jpg", "no name of a file is for the customer")
			assert.Contains(t, warned, "photo 3 (gone.jpg)")
		case Working:
			assert.NotContains(t, text, job.Photos[0].Data[:40], "nobody reads a picture's letters")
			assert.Contains(t, strings.Join(strings.Fields(text), " "), "closet.png")
		}
		assert.Contains(t, out.String(), "/Title ")
		if want > 0 {
			assert.Equal(t, want, strings.Count(out.String(), "/DCTDecode"), "a photo stays a JPEG")
		}
	}
	opts := testOptions(WorkOrder, Letter, units.IP)
	pages, err := New(job, s, opts)
	require.NoError(t, err, "without a folder the pages are written all the same")
	assert.Equal(t, 1, pictures(pages))
}

// TestPhotosInFile: a job with photos is written and read without loss, and
// how each is kept is checked.
func TestPhotosInFile(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	job.Photos = twoPhotos(t, t.TempDir())
	require.NoError(t, comesBack(job))
	copied := job.Clone()
	copied.Photos[0].Caption = "another"
	assert.Equal(t, "the furnace's plate", job.Photos[0].Caption)
	job.Photos = []quote.Photo{{}, {File: "../x.jpg"}, {File: "a.jpg", Data: "x"}, {File: "a.jpg", Shows: "cat"}}
	var paths []string
	for _, f := range job.Check() {
		paths = append(paths, f.Path)
	}
	assert.Subset(t, paths, []string{"photos[0].file", "photos[1].file", "photos[2].data", "photos[3].shows"})
	job.Photos = make([]quote.Photo, 7)
	assert.ErrorContains(t, job.Check(), "photos: given 7 items; want at most 6")
	job.Photos = []quote.Photo{{Data: strings.Repeat("x", 300_001)}}
	assert.ErrorContains(t, job.Check(), "photos[0].data: given 300001 letters; want at most 300000")
}
