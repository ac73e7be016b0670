package plots

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"

	"returnbench/sizing/units"
)

func TestUseFace(t *testing.T) {
	usual, lines := plot.DefaultFont, plotter.DefaultFont
	defer func() { plot.DefaultFont, plotter.DefaultFont = usual, lines }()

	assert.ErrorContains(t, UseFace([]byte("no font"), gobold.TTF), "regular face")
	assert.ErrorContains(t, UseFace(goregular.TTF, nil), "bold face")
	assert.Equal(t, usual, plot.DefaultFont, "a bad face changes nothing")

	p := FanAndSystem(testStudy(1), Light(units.IP))
	before := render(t, p)
	require.NoError(t, UseFace(goregular.TTF, gobold.TTF))
	p = FanAndSystem(testStudy(1), Light(units.IP))
	assert.NotEqual(t, before, render(t, p))
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, FileWidth, FileHeight, "svg"))
	assert.Contains(t, b.String(), "font-family:Go;")
	assert.NotContains(t, b.String(), "Liberation")
	assert.NoError(t, Write(&b, p, FileWidth, FileHeight, "pdf"))
	for _, w := range words(t, p, px(900), px(500)) {
		assert.Positive(t, w.box.Max.X-w.box.Min.X)
	}
}

func render(t *testing.T, p *plot.Plot) []byte {
	t.Helper()
	picture, tr := NewCanvas().Render(p, Light(units.IP), 620, 380, 96)
	require.True(t, tr.Valid())
	return picture.Pix
}

func TestShorten(t *testing.T) {
	assert.Equal(t, "short", shorten("short", 5))
	assert.Equal(t, "sho…", shorten("shorter", 4))
	assert.Equal(t, "東京…", shorten("東京都庁", 3))
	assert.Equal(t, []string{"a name of two", "lines that runs…"}, wrapName("a name of two lines that runs on"))
	assert.Equal(t, []string{"Today"}, wrapName("Today"))
	assert.Equal(t, []string{"unnamed"}, wrapName(" \n"))
}
