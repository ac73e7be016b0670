package look

import (
	"bytes"
	"testing"

	"fyne.io/fyne/v2/theme"
	"github.com/go-text/typesetting/font"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The fonts of the window have every letter of the toolkit's, as wide as there, and no
// rule of substitution or placement left.
func TestPlainFonts(t *testing.T) {
	Theme(Light, 1)
	whole, _ := Face()
	before, after := parsed(t, whole), parsed(t, theme.DefaultTextFont().Content())
	require.NotEmpty(t, before.GSUB.Lookups)
	require.NotEmpty(t, before.GPOS.Lookups)
	assert.Empty(t, after.GSUB.Lookups)
	assert.Empty(t, after.GPOS.Lookups)
	letters := 0
	for r := rune(' '); r < 0x3000; r++ {
		want, ok := before.NominalGlyph(r)
		got, still := after.NominalGlyph(r)
		if !assert.Equal(t, ok, still, "%q", r) || !ok {
			continue
		}
		letters++
		assert.Equal(t, want, got, "%q", r)
		assert.Equal(t, before.HorizontalAdvance(want), after.HorizontalAdvance(got), "%q", r)
	}
	assert.Greater(t, letters, 1000)

	_, err := withoutTables([]byte("no font"), "GSUB")
	assert.Error(t, err)
}

func parsed(t *testing.T, content []byte) *font.Face {
	t.Helper()
	face, err := font.ParseTTF(bytes.NewReader(content))
	require.NoError(t, err)
	return face
}
