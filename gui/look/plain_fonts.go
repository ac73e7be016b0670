package look

import (
	"bytes"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/go-text/typesetting/font/opentype"
)

// The typeface as it comes with the toolkit, for charts and paper.
var wholeRegular, wholeBold = theme.DefaultTextFont().Content(), theme.DefaultTextBoldFont().Content()

// Face is the typeface of the window, for charts and paper to share.
func Face() (regular, bold []byte) { return wholeRegular, wholeBold }

// usePlainFonts takes the tables of glyph substitution and placement (ligatures and
// kerning) out of the toolkit's fonts. The toolkit makes a shaper for each text that it
// measures, and each shaper prepares every rule of both tables: a third of the time in
// which a place is laid out.
var usePlainFonts = sync.OnceFunc(func() {
	for _, f := range []fyne.Resource{
		theme.DefaultTextFont(), theme.DefaultTextBoldFont(), theme.DefaultTextItalicFont(),
		theme.DefaultTextBoldItalicFont(), theme.DefaultTextMonospaceFont(), theme.DefaultSymbolFont(),
	} {
		if static, ok := f.(*fyne.StaticResource); ok {
			if plain, err := withoutTables(static.StaticContent, "GSUB", "GPOS"); err == nil {
				static.StaticContent = plain
			}
		}
	}
})

// withoutTables is a TrueType font without the tables of the given names.
func withoutTables(font []byte, names ...string) ([]byte, error) {
	loader, err := opentype.NewLoader(bytes.NewReader(font))
	if err != nil {
		return nil, err
	}
	var kept []opentype.Table
	for _, tag := range loader.Tables() {
		if slices.Contains(names, tag.String()) {
			continue
		}
		content, err := loader.RawTable(tag)
		if err != nil {
			return nil, err
		}
		kept = append(kept, opentype.Table{Content: content, Tag: tag})
	}
	return opentype.WriteTTF(kept), nil
}
