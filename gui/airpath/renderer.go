package airpath

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// CreateRenderer draws the airpath.
func (a *Drawing) CreateRenderer() fyne.WidgetRenderer { return &renderer{a: a} }

type renderer struct {
	a       *Drawing
	objects []fyne.CanvasObject
	drawn   fyne.Size
}

// Layout draws again for a new size alone: the window lays out whatever was
// drawn again, which would go on for ever.
func (r *renderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.draw(size)
	}
}

func (r *renderer) Destroy()                     {}
func (r *renderer) Objects() []fyne.CanvasObject { return r.objects }

// The least room of a drawing, at the usual size of text.
const leastWide, leastHigh = 600, 300

// mostScale keeps the words of a very large drawing from shouting.
const mostScale = 2

// MinSize leaves every branch a row of its own.
func (r *renderer) MinSize() fyne.Size {
	g := widgets.TextScale(r.a.Theme())
	least := fyne.NewSize(leastWide*g, leastHigh*g)
	if c := r.a.condition(); c != nil {
		k := sketch{th: r.a.Theme()}
		line := k.lineHeight()
		rows := float32(len(c.Branches)) * (2*line + 2 + rowGap) // airflow and drop
		least.Height = fyne.Max(least.Height, rows+around(line)) + r.a.meanHeight(line)
	}
	return least
}

// around is the height of all that stands above and under the airway: edges,
// title, ports and words.
func around(line float32) float32 { return 2*edge + line + 4 + line + 12 + 4 + legendHeight(line) }

// legendHeight is that of the words under a part: three lines of its own, and
// two that say of a costly one what it is over.
func legendHeight(line float32) float32 { return 5*line + 6 }

// meanHeight is that of the lines that say what a mean over several filters is; zero
// where none is shown.
func (a *Drawing) meanHeight(line float32) float32 {
	if f, ok := a.filters(); ok && f.isMean() {
		return 3 * line
	}
	return 0
}

// edge is what stays free round a drawing, rowGap what does between branches.
const edge, rowGap = 6, 4

func (r *renderer) Refresh() {
	r.draw(r.a.Size())
	canvas.Refresh(r.a)
}

func (r *renderer) draw(size fyne.Size) {
	r.drawn = size
	a := r.a
	p := &plan{sketch: sketch{th: a.Theme()}, a: a, c: a.condition()}
	seen := map[string]bool{}
	a.order = a.order[:0]
	if p.c != nil && size.Width > 0 {
		least := r.MinSize()
		p.scale = fyne.Min(fyne.Max(1, fyne.Min(size.Width/least.Width, size.Height/least.Height)), mostScale)
		p.lay(size)
		p.paint()
	} else if size.Width > 0 {
		p.text(lang.T("Nothing to draw yet."), 8, 8, size.Width-16, lettering{colour: theme.ColorNamePlaceHolder})
	}
	for _, name := range a.order {
		seen[name] = true
	}
	for name, s := range a.buttons {
		if !seen[name] {
			s.leave()
			delete(a.buttons, name)
		}
	}
	r.objects = p.objects
	for _, name := range a.order {
		r.objects = append(r.objects, a.buttons[name])
	}
}
