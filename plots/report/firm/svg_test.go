package firm

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A square of half the width, red, on an otherwise clear drawing twice as wide as
// high: 1200 x 600 pixels of which the left half is red, the right white.
func TestSVGLogo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "logo.svg")
	write := func(text string) {
		t.Helper()
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	write(`<?xml version="1.0"?><!-- made here --><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><rect x="0" y="0" width="10" height="10" fill="#ff0000"/></svg>`)
	img, err := readLogo(path)
	require.NoError(t, err)
	assert.Equal(t, 1200, img.Bounds().Dx())
	assert.Equal(t, 600, img.Bounds().Dy())
	r, g, _, _ := img.At(300, 300).RGBA()
	assert.EqualValues(t, 0xffff, r)
	assert.Zero(t, g)
	_, g, _, _ = img.At(900, 300).RGBA()
	assert.EqualValues(t, 0xffff, g)

	for text, want := range map[string]string{
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><text x="1" y="5">Air</text></svg>`:  "holds text",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><image href="file:///x.png"/></svg>`: "holds a picture",
		`<svg xmlns="http://www.w3.org/2000/svg"><rect width="1" height="1"/></svg>`:                      "want a width and a height",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1e9 1"><rect width="1" height="1"/></svg>`:  "50 times the other",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"></svg>`:                                "shows nothing",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><path d="M 0 0 L`:                      "damaged",
		`<html><svg/></html>`: "want a PNG, JPEG or SVG picture",
	} {
		write(text)
		_, err := readLogo(path)
		require.ErrorContains(t, err, want, text)
	}
}

func FuzzSVG(f *testing.F) {
	f.Add([]byte(`<svg viewBox="0 0 2 1"><path d="M0 0L1 1A1 1 0 0 1 2 2z" stroke="red"/></svg>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if isSVG(data) {
			if img, err := drawSVG(data); err == nil {
				assert.LessOrEqual(t, img.Bounds().Dx(), widest)
			}
		}
	})
}
