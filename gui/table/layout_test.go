package table

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// The window lays out again whatever was drawn again. A widget that draws again
// whenever it is laid out keeps a processor busy for ever, in a real window
// alone: so the objects must be the same ones after a layout of the same size.
func TestALayoutOfTheSameSizeDrawsNothingAnew(t *testing.T) {
	table := New()
	table.SetColumns([]Column{{Title: "Option"}, {Title: "Verdict"}})
	table.SetRows([][]string{{"today", "caution"}})
	w := test.NewWindow(table)
	defer w.Close()
	w.Resize(fyne.NewSize(400, 200))

	for name, part := range map[string]fyne.Widget{"head": table.head, "body": table.body} {
		r := test.WidgetRenderer(part)
		before := r.Objects()
		require.NotEmpty(t, before, name)
		first := before[len(before)-1]
		r.Layout(part.Size())
		after := r.Objects()
		require.Same(t, first, after[len(after)-1], name)
		r.Layout(part.Size().AddWidthHeight(1, 0))
	}
}
