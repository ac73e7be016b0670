package report

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// TestPicture: a page's picture has the size of the paper, and the
// pages can still be written afterwards, as often as asked for.
func TestPicture(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	pages, err := New(job, s, testOptions(WorkOrder, A4, units.IP))
	require.NoError(t, err)
	for n := 1; n <= pages.Count; n++ {
		img, err := pages.Picture(n, 96)
		require.NoError(t, err)
		assert.Equal(t, image.Pt(794, 1123), img.Bounds().Size())
		assert.Greater(t, inked(img), 0.01, "page %d holds something", n)
	}
	var first, second bytes.Buffer
	require.NoError(t, pages.Write(&first))
	require.NoError(t, pages.Write(&second))
	assert.Equal(t, first.Bytes(), second.Bytes())
	assert.Equal(t, written(t, job, s, testOptions(WorkOrder, A4, units.IP)), first.Bytes())
	_, err = pages.Picture(1, 96)
	require.NoError(t, err)
	for _, c := range []struct {
		page int
		dpi  float64
	}{{0, 96}, {pages.Count + 1, 96}, {1, 0}, {1, 1e6}} {
		_, err := pages.Picture(c.page, c.dpi)
		require.ErrorContains(t, err, "want")
	}
}

// inked is the share of pixels that are not white.
func inked(img image.Image) float64 {
	dark, all := 0, 0
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			all++
			if grey(img, x, y) < 200 {
				dark++
			}
		}
	}
	return float64(dark) / float64(all)
}

func grey(img image.Image, x, y int) float64 {
	r, g, b, _ := img.At(x, y).RGBA()
	return float64(r+g+b) / 3 / 257
}

// TestPicturesMatchThoseOfAPDFReader holds the pictures against those that a PDF reader from
// outside, poppler's pdftoppm, draws of the same file.
// Both blur edges in their own way, so squares of eight by eight pixels are
// compared: no letter, line or area may be elsewhere.
func TestPicturesMatchThoseOfAPDFReader(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	require.NoError(t, err, "pdftoppm, of poppler-utils, is not installed; cmd/test.sh installs it")
	each(t, func(t *testing.T, name string, job sizing.Job, s *sizing.Study, opts Options) {
		if opts.Paper == A4 || name == "least" {
			return // one paper is enough
		}
		pages, err := New(job, s, opts)
		require.NoError(t, err)
		dir := t.TempDir()
		var data bytes.Buffer
		require.NoError(t, pages.Write(&data))
		file := filepath.Join(dir, "pages.pdf")
		require.NoError(t, os.WriteFile(file, data.Bytes(), 0o600))
		last := min(pages.Count, 3)
		out, err := exec.Command(tool, "-r", "72", "-png", "-l", "3", file, filepath.Join(dir, "page")).CombinedOutput()
		require.NoError(t, err, string(out))
		files, err := filepath.Glob(filepath.Join(dir, "page-*.png"))
		require.NoError(t, err)
		require.Len(t, files, last)
		for i, f := range files {
			own, err := pages.Picture(i+1, 72)
			require.NoError(t, err)
			mean, worst := apart(own, decoded(t, f))
			assert.Less(t, mean, 5.0, "page %d", i+1)
			assert.Less(t, worst, 45.0, "page %d", i+1)
			_, blank := apart(image.White, decoded(t, f))
			assert.Greater(t, blank, 60.0, "a page that lacks something is told apart")
		}
	})
}

func decoded(t *testing.T, file string) image.Image {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

// apart is the mean and the largest difference of the greys of squares, of 255.
func apart(a, b image.Image) (mean, worst float64) {
	const side = 8
	n := 0
	for y := 0; y+side <= b.Bounds().Dy(); y += side {
		for x := 0; x+side <= b.Bounds().Dx(); x += side {
			sum := 0.0
			for i := range side * side {
				sum += grey(a, x+i%side, y+i/side) - grey(b, x+i%side, y+i/side)
			}
			d := max(sum, -sum) / side / side
			mean, worst, n = mean+d, max(worst, d), n+1
		}
	}
	return mean / float64(n), worst
}

func BenchmarkPicture(b *testing.B) {
	job, s := studied(b, "one-inch-slot")
	for _, a := range Audiences() {
		pages, err := New(job, s, testOptions(a, Letter, units.IP))
		require.NoError(b, err)
		b.Run(string(a), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := pages.Picture(1, 110)
				require.NoError(b, err)
			}
		})
	}
}
