package outcome

import (
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// buttons stand beside the choice of the picture. Their words are short: in
// large text there is little room.
type buttons struct {
	whole, save, copy *widget.Button
	// what the numbers were last copied of
	copied struct {
		study *sizing.Study
		key   string
	}
}

func (p *Pane) buildButtons() {
	p.keep.whole = widget.NewButton(lang.T("Whole chart"), p.chart.ResetZoom)
	p.keep.save = widget.NewButton(lang.T("Save ..."), func() {
		if p.OnSave != nil {
			p.OnSave()
		}
	})
	p.keep.copy = widget.NewButton(lang.T("Copy"), func() {
		if p.OnCopy != nil {
			p.OnCopy()
		}
	})
}

// refreshButtons shows what can be done with the picture in view: a part of a
// chart can be made whole, and a chart can be kept.
func (p *Pane) refreshButtons() {
	study := p.model.Study()
	chart := study != nil && p.shown != AirpathKey
	setVisible(p.keep.save, chart)
	setVisible(p.keep.copy, chart)
	setVisible(p.keep.whole, chart && !p.chart.View().IsWhole())
	// A chart shows both states; where it stands alone the choice would do nothing.
	setVisible(p.loaded, p.shown == AirpathKey || p.table.Object().Visible())
	if copyText := lang.T("Copy"); p.keep.copy.Text != copyText && (p.keep.copied.study != study || p.keep.copied.key != p.shown) {
		p.keep.copy.SetText(copyText)
	}
}

// ChartInView is the chart in view in another dress, with its title, and the
// part of it that is looked at; false where no chart is in view.
func (p *Pane) ChartInView(look plots.Look) (plots.Chart, bool) {
	c, ok := p.inView(look)
	if ok {
		c.Plot.Title.Text = message.Text(look.Units, c.Title)
		if len(c.Lines) > 0 {
			p.chart.View().Set(c.Plot)
		}
	}
	return c, ok
}

// Copied says at the chart that its numbers were copied, until it changes.
func (p *Pane) Copied() {
	p.keep.copied.study, p.keep.copied.key = p.model.Study(), p.shown
	p.keep.copy.SetText(lang.T("Copied"))
}

// inView draws the whole of the chart in view; false where none is.
func (p *Pane) inView(look plots.Look) (plots.Chart, bool) {
	study := p.model.Study()
	if study == nil {
		return plots.Chart{}, false
	}
	for _, k := range p.kinds {
		if k.Key != p.shown {
			continue
		}
		if k.Key == plots.PleatCountKey {
			k = plots.PleatCountOf(p.chosen(study).Name)
		}
		return k.Of(plots.Subject{Study: study, Ranges: p.model.Ranges(), Chosen: p.option, Pointed: p.pointed}, look), true
	}
	return plots.Chart{}, false
}
