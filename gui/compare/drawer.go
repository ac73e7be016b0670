package compare

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// drawer holds the form of one option at the right of the table, open only while
// an option is edited.
type drawer struct {
	object *fyne.Container
	line   *canvas.Rectangle
}

func newDrawer(form fyne.CanvasObject, done func()) *drawer {
	d := &drawer{line: canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))}
	d.line.SetMinSize(fyne.NewSize(1, 0))
	title := widget.NewLabelWithStyle(lang.T("Edit option"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head := container.NewBorder(nil, nil, title, widgets.NewButton("Close", done))
	inner := container.NewBorder(head, nil, nil, nil, form)
	d.object = container.NewBorder(nil, nil, d.line, nil, inner)
	d.object.Hide()
	return d
}

// beside lays the drawer out at the right of the table: no wider than its form
// is read at, and no more than half of what there is.
type beside struct{ table, drawer fyne.CanvasObject }

const drawerWidth = 400

// MinSize has room for the wider of the two.
func (b beside) MinSize([]fyne.CanvasObject) fyne.Size { return b.table.MinSize() }

// Layout shares the width out.
func (b beside) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	w := float32(0)
	if b.drawer.Visible() {
		w = fyne.Min(fyne.Max(b.drawer.MinSize().Width, drawerWidth), size.Width*0.55)
	}
	b.table.Move(fyne.NewPos(0, 0))
	b.table.Resize(fyne.NewSize(size.Width-w, size.Height))
	b.drawer.Move(fyne.NewPos(size.Width-w, 0))
	b.drawer.Resize(fyne.NewSize(w, size.Height))
}
