package notices

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing"
)

// Notice is a banner: a thin edge, a mark, a word, a title and a text.
// It takes no room while it is empty.
type Notice struct {
	widget.BaseWidget
	severity    sizing.Severity
	title, text string
	box         *fyne.Container
}

// NewNotice makes a banner.
func NewNotice(s sizing.Severity, title, text string) *Notice {
	n := &Notice{box: container.NewVBox()}
	n.ExtendBaseWidget(n)
	n.Set(s, title, text)
	return n
}

// Set changes what the banner says; an empty title and text hide it.
func (n *Notice) Set(s sizing.Severity, title, text string) {
	n.severity, n.title, n.text = s, title, text
	n.box.Objects = nil
	if title != "" || text != "" {
		n.box.Objects = []fyne.CanvasObject{withEdge(s, newBanner(s, title, text))}
	}
	n.box.Refresh()
	if len(n.box.Objects) == 0 {
		n.Hide()
		return
	}
	n.Show()
	n.Refresh()
}

// Text is what the banner says.
func (n *Notice) Text() string { return strings.TrimSpace(n.title + "\n" + n.text) }

// CreateRenderer shows the banner.
func (n *Notice) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(n.box) }
