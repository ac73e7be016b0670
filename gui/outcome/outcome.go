// Package outcome is the right-hand side of the window: a picture of the Study
// over the table of its options. The picture is a chart or the drawing of the
// airpath.
package outcome

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/airpath"
	"returnbench/gui/chart"
	"returnbench/gui/lang"
	"returnbench/gui/table"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what the pane needs of the session.
type Model interface {
	Study() *sizing.Study
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	Units() units.Locale
}

// AirpathKey names the drawing of the airpath among the pictures.
const AirpathKey = "airpath"

// Pane is the picture over the table.
type Pane struct {
	model Model
	look  func(units.Locale) plots.Look

	// OnSave and OnCopy are called when the chart in view is to be saved, or its
	// numbers copied.
	OnSave, OnCopy func()

	kinds   []plots.Kind
	pick    *widget.Select
	keep    buttons
	loaded  *widget.Check
	chart   *chart.Chart
	airpath *airpath.Drawing
	path    *container.Scroll // the airpath in its room
	whose   *widget.Select    // option whose airpath or pleats are drawn
	names   []string          // of the options that it lists
	empty   *widget.Label
	table   *table.Fitted

	head    *fyne.Container
	picture *fyne.Container
	box     *fyne.Container

	shown    string // key of the picture
	option   string // name of the chosen option; empty: none was chosen
	pointed  string // option whose curve is pointed at
	followed string // option under edit, as last told
	updating bool
	brief    bool // the table has its first columns alone
	drawn    drawing
}

// drawing is what the picture was drawn of, to draw it again only when it
// changed.
type drawing struct {
	study  *sizing.Study
	units  units.Locale
	key    string
	known  bool // its ranges
	option string
	brief  bool
}

// New makes the pane. dress gives the look of charts in the units in use.
func New(m Model, look func(units.Locale) plots.Look) *Pane {
	p := &Pane{model: m, look: look, kinds: plots.Kinds(), shown: plots.FanAndSystemKey}
	p.buildPicture()
	p.buildTable()
	down := &stacked{}
	p.head = container.New(followed{layout.NewStackLayout(), down.headChanged})
	choice := container.NewBorder(nil, nil, container.NewCenter(widget.NewLabel(lang.T("Chart"))), nil, p.pick)
	of, keep := container.NewHBox(p.whose, p.loaded), container.NewHBox(p.keep.whole, p.keep.save, p.keep.copy)
	down.bar = container.New(&bar{choice, of, keep}, choice, of, keep)
	down.head, down.picture, down.table = container.NewVScroll(p.head), p.picture, p.table.Object()
	p.box = container.New(layout.NewCustomPaddedLayout(2, 4, 4, 6), container.New(down, down.head, down.bar, down.picture, down.table))
	return p
}

// Object is the pane.
func (p *Pane) Object() fyne.CanvasObject { return p.box }

// OnPart is called with the part of the airpath that was chosen in the drawing.
func (p *Pane) OnPart(f func(part string)) { p.airpath.OnTapped = f }

func (p *Pane) buildPicture() {
	p.chart = chart.New()
	p.chart.SetLook(func() plots.Look { return p.look(p.model.Units()) })
	p.chart.SetSource(p.plot)
	p.chart.OnView = p.refreshButtons
	p.chart.OnOption = p.point
	p.buildButtons()
	p.airpath = airpath.New()
	p.path = container.NewScroll(p.airpath)
	p.empty = widget.NewLabelWithStyle(lang.T("Type the tonnage or the design airflow: the first answer follows at once."), fyne.TextAlignCenter, fyne.TextStyle{})
	p.empty.Wrapping = fyne.TextWrapWord
	titles := make([]string, 0, len(p.kinds)+1)
	for _, k := range p.kinds {
		titles = append(titles, message.Text(p.model.Units(), k.Title))
	}
	titles = append(titles, lang.T("The airpath, part by part"))
	p.pick = widget.NewSelect(titles, func(string) {
		if !p.updating {
			p.Show(p.keyAt(p.pick.SelectedIndex()))
		}
	})
	p.loaded = widget.NewCheck(lang.T("Filter at its change limit"), func(bool) {
		p.drawn = drawing{}
		p.Refresh()
	})
	p.whose = widget.NewSelect(nil, func(string) {
		if !p.updating {
			p.setOption(p.names[p.whose.SelectedIndex()])
		}
	})
	p.picture = container.NewStack(p.chart, p.path, p.empty)
}

// keyAt is the key of a picture by its place in the list: the charts, and then the
// airpath.
func (p *Pane) keyAt(i int) string {
	if i >= 0 && i < len(p.kinds) {
		return p.kinds[i].Key
	}
	return AirpathKey
}

func (p *Pane) indexOf(key string) int {
	if i := slices.IndexFunc(p.kinds, func(k plots.Kind) bool { return k.Key == key }); i >= 0 {
		return i
	}
	return len(p.kinds)
}

// SetCompact leaves of the table what there is room for beside a form.
func (p *Pane) SetCompact(brief bool) { p.brief = brief }

// SetContent sets what stands above the picture, the picture itself (empty: the one
// in view stays), and whether the table of options is under it.
func (p *Pane) SetContent(head fyne.CanvasObject, picture string, table bool) {
	p.head.Objects = nil
	if head != nil {
		p.head.Objects = []fyne.CanvasObject{head}
	}
	p.head.Refresh()
	setVisible(p.table.Object(), table)
	if picture == "" {
		picture = p.shown
	}
	p.Show(picture)
}

// Show puts a picture in view by its key.
func (p *Pane) Show(key string) {
	if key != p.shown {
		p.chart.ResetZoom()
	}
	p.shown = key
	p.updating = true
	p.pick.SetSelectedIndex(p.indexOf(key))
	p.updating = false
	p.Refresh()
}

// Shown is the key of the picture in view.
func (p *Pane) Shown() string { return p.shown }

// Refresh draws the newest Study.
func (p *Pane) Refresh() {
	p.refreshButtons()
	study := p.model.Study()
	setVisible(p.empty, study == nil)
	setVisible(p.chart, study != nil && p.shown != AirpathKey)
	setVisible(p.path, study != nil && p.shown == AirpathKey)
	setVisible(p.whose, study != nil && (p.shown == AirpathKey || p.shown == plots.PleatCountKey))
	now := drawing{study, p.model.Units(), p.shown, p.model.Ranges() != nil, p.option, p.brief}
	if study == nil || now == p.drawn {
		return
	}
	p.drawn = now
	p.listOptions(study)
	if p.shown == AirpathKey {
		p.airpath.Set(study, p.chosen(study), p.loaded.Checked, p.model.Units())
	} else {
		p.chart.Refresh()
	}
	p.fillTable(study)
	p.box.Refresh()
}

// RedrawAll draws all again, as after a change of theme.
func (p *Pane) RedrawAll() {
	p.drawn = drawing{}
	p.Refresh()
}

func setVisible(o fyne.CanvasObject, visible bool) {
	if visible == o.Visible() {
		return
	}
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
}

// plot makes the chart in view; false where none is.
func (p *Pane) plot() (plots.Chart, bool) { return p.inView(p.look(p.model.Units())) }

// Follow is called with the option under edit, empty where none is: its airpath comes
// in view when it changes, and today's when the editing ends.
func (p *Pane) Follow(name string) {
	if name != p.followed {
		p.followed = name
		p.setOption(name)
	}
}

// Option is the name of the option whose airpath is drawn, empty for one that
// was not chosen: today.
func (p *Pane) Option() string { return p.option }

func (p *Pane) setOption(name string) {
	if name != p.option {
		p.option = name
		p.Refresh()
	}
}

// listOptions brings the choice of option up to date.
func (p *Pane) listOptions(s *sizing.Study) {
	p.names = make([]string, len(s.Options))
	titles := make([]string, len(s.Options))
	for i := range s.Options {
		p.names[i] = s.Options[i].Name
		titles[i] = sizing.OptionName(p.names[i]).Show(p.model.Units())
	}
	p.updating = true
	if !slices.Equal(titles, p.whose.Options) {
		p.whose.SetOptions(titles)
	}
	p.whose.SetSelectedIndex(slices.Index(p.names, p.chosen(s).Name))
	p.updating = false
}

// chosen is the option whose airpath is drawn: today where none is chosen, or
// the one chosen is gone.
func (p *Pane) chosen(s *sizing.Study) *sizing.OptionResult {
	if o := s.Option(p.option); o != nil {
		return o
	}
	return s.Today()
}

// point makes the curves of an option stand out while a person points at them.
func (p *Pane) point(name string) {
	p.pointed = name
	p.chart.Redraw()
}

// Chart is the chart, for whoever wants its picture.
func (p *Pane) Chart() *chart.Chart { return p.chart }
