package firm

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRead(t *testing.T) {
	dir := t.TempDir()
	img := image.NewNRGBA(image.Rect(0, 0, 3000, 300)) // clear all over
	img.Set(0, 0, color.Black)
	var data bytes.Buffer
	require.NoError(t, png.Encode(&data, img))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "logo.png"), data.Bytes(), 0o600))
	path := filepath.Join(dir, "firm.json")
	require.NoError(t, os.WriteFile(path, []byte(`{"name": "Invented Air", "logo": "logo.png", "tax_rate": 0.07, "valid_days": 30}`), 0o600))
	p, err := Read(path)
	require.NoError(t, err)
	assert.Equal(t, "Invented Air", p.Name)
	assert.Equal(t, image.Rect(0, 0, 1200, 120), p.Picture.Bounds(), "shrunk, in its own shape")
	r, _, _, a := p.Picture.At(600, 60).RGBA()
	assert.EqualValues(t, 0xffff, r, "what is clear is white on paper")
	assert.EqualValues(t, 0xffff, a)
}

func TestWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "own", "firm.json")
	want := Profile{Name: "Invented Air", License: "INV-0", Terms: "Half now.", TaxRate: 0.07, ValidDays: 30}
	require.NoError(t, Write(path, want))
	got, err := Read(path)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.Error(t, Write(path, Profile{TaxRate: 2}))
	again, err := Read(path)
	require.NoError(t, err)
	assert.Equal(t, want, again, "what is wrong replaces nothing")
}

func TestReadFaults(t *testing.T) {
	dir := t.TempDir()
	for text, want := range map[string]string{
		`{"nam": "x"}`:                                 "nam",
		`{"tax_rate": 7}`:                              "tax_rate: given 7",
		`{"valid_days": -1}`:                           "valid_days: given -1",
		`{"logo": "missing.png"}`:                      "missing.png",
		`{"logo": "firm.json"}`:                        "want a PNG, JPEG or SVG picture",
		`{"name": "` + strings.Repeat("x", 201) + `"}`: "name: given 201 letters",
	} {
		path := filepath.Join(dir, "firm.json")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		_, err := Read(path)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), want)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"name": "Invented Air", "tax_rate": 0.07}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Decode(data)
		if err == nil {
			assert.True(t, p.TaxRate >= 0 && p.TaxRate <= 0.5)
		}
	})
}
