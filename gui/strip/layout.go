package strip

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
	"returnbench/gui/widgets"
)

// plan lays the strip out: the figures beside the sentence where there is width
// for both, else over it, and without ranges and reason.
type plan struct {
	s     *Strip
	width float32 // as last laid out
}

const (
	gap       = 8
	cellGap   = 12
	slimGap   = 12
	wideFrom  = 1200 // at scale 1
	widestBox = 340  // of the choice of option, at scale 1
	wideLines = 4
	slimLines = 3
	whyLines  = 2 // of the reason, at least; it takes those too that the sentence leaves
)

func (p *plan) scale() float32 { return widgets.TextScale(p.s.sentence.Theme()) }

func (p *plan) wide(width float32) bool { return width >= wideFrom*p.scale() }

// MinSize is the height at the width as last laid out.
func (p *plan) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(480, p.place(p.width, false))
}

// Layout puts all in place.
func (p *plan) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	p.width = size.Width
	p.place(size.Width, true)
	p.s.rule.Move(fyne.NewPos(0, size.Height-p.s.rule.MinSize().Height))
	p.s.rule.Resize(fyne.NewSize(size.Width, p.s.rule.MinSize().Height))
}

// place tells the height at a width, and puts all in place where asked to.
func (p *plan) place(width float32, put bool) float32 {
	wide := p.wide(width)
	for _, c := range p.s.cells {
		if c.ranged != wide {
			c.ranged = wide
			c.Refresh()
		}
	}
	if wide {
		return p.beside(width, put)
	}
	return p.stacked(width, put)
}

// move places an object only where asked to.
func move(put bool, o fyne.CanvasObject, x, y, w, h float32) {
	if put {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
}

// row spreads the cells over a width, in as many rows as that takes, and tells
// how far down they reach.
func (p *plan) row(x, y, width, cellGap float32, put bool) float32 {
	for cells := p.s.cells; len(cells) > 0; {
		n, sum := 0, float32(0)
		for n < len(cells) && (n == 0 || sum+cellGap+cells[n].MinSize().Width <= width) {
			if n > 0 {
				sum += cellGap
			}
			sum += cells[n].MinSize().Width
			n++
		}
		spare, at := fyne.Max(0, (width-sum)/float32(n+1)), x
		height := cells[0].MinSize().Height
		for _, c := range cells[:n] {
			w := c.MinSize().Width
			move(put, c, at, y, w, height)
			at += w + cellGap + spare
		}
		y += height
		cells = cells[n:]
	}
	return y
}

// beside puts the figures, with the choice under them, left of the sentence.
func (p *plan) beside(width float32, put bool) float32 {
	const share = 0.585
	s, left := p.s, share*(width-2*look.Margin)
	y := p.row(look.Margin, gap, left-cellGap, cellGap, put) + gap/2
	box := fyne.Min(widestBox*p.scale(), left/2)
	line := fyne.Max(s.pick.MinSize().Height, s.action.MinSize().Height)
	x := float32(look.Margin)
	if s.pick.Visible() {
		move(put, s.pick, x, y, box, line)
		x += box + gap
	}
	move(put, s.action, x, y, s.action.MinSize().Width, line)
	lines := wideLines
	if width >= 1.45*wideFrom*p.scale() {
		lines-- // the same words in longer lines
	}
	words := p.words(look.Margin+left, width-look.Margin, gap, lines, true, put)
	return fyne.Max(y+line, gap+words) + gap
}

// stacked puts the figures over the sentence, and the choice under it.
func (p *plan) stacked(width float32, put bool) float32 {
	s := p.s
	y := p.row(look.Margin, gap/2, width-2*look.Margin, slimGap, put)
	y += p.words(look.Margin, width-look.Margin, y, slimLines, false, put)
	box := fyne.Min(widestBox*p.scale(), width/2)
	line := fyne.Max(s.pick.MinSize().Height, s.action.MinSize().Height)
	x := float32(look.Margin)
	if s.pick.Visible() {
		move(put, s.pick, x, y, box, line)
		x += box + gap
	}
	move(put, s.action, x, y, s.action.MinSize().Width, line)
	return y + line + gap/2
}

// words puts mark, sentence and reason between two edges, and tells the height that is
// kept for them. Asked for the height alone it changes nothing.
func (p *plan) words(x, right, y float32, lines int, why, put bool) (room float32) {
	s := p.s
	letters := theme.SizeNameText
	if !why {
		letters = theme.SizeNameCaptionText
	}
	height := s.sentence.HeightOf(lines, letters)
	room = height
	if why {
		room += whyLines * p.whyLine()
	}
	if !put {
		return room
	}
	s.sentence.SetMost(lines)
	s.sentence.SetSize(letters)
	icon := s.sentence.Theme().Size(theme.SizeNameInlineIcon)
	move(true, s.mark, x, y+2, icon, icon)
	x += icon + gap
	move(true, s.sentence, x, y, right-x, height)
	if !s.sentence.Whole() {
		s.sentence.SetMost(int(room / height * float32(lines))) // what to do goes before the reason
		move(true, s.sentence, x, y, right-x, s.sentence.MinSize().Height)
	}
	most := int((room-s.sentence.Used())/p.whyLine() + 0.01)
	setVisible(s.why, most > 0)
	if most == 0 {
		return room
	}
	s.why.SetMost(most)
	move(true, s.why, x, y+s.sentence.Used(), right-x, s.why.MinSize().Height)
	if s.why.Cut() && (!why || s.sentence.Used() > height) {
		setVisible(s.why, false) // half a reason is none
	}
	return room
}

// whyLine is the height of a line of the reason.
func (p *plan) whyLine() float32 {
	th := p.s.why.Theme()
	return fyne.MeasureText("M", th.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
}
