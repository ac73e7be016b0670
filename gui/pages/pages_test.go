package pages

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/plots/report"
	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

type model struct {
	job    sizing.Job
	study  *sizing.Study
	ranges []sizing.OptionRange
	stale  bool
}

func (m *model) Job() sizing.Job              { return m.job }
func (m *model) Study() *sizing.Study         { return m.study }
func (m *model) Stale() bool                  { return m.stale }
func (m *model) Ranges() []sizing.OptionRange { return m.ranges }
func (m *model) Units() units.Locale          { return units.IP }

// counter is a desk at which work waits until it is told to go on.
type counter struct {
	paper   report.Paper
	tongue  string
	firm    firm.Profile
	read    bool
	waiting []func()
	saved   *report.Pages
	media   report.Paper
}

func (c *counter) Origin(units.Locale) (string, string, string) {
	return "9.9.9", "sha256 0a1b", "2026-03-05"
}
func (c *counter) CallIn(l units.Locale, path string) string {
	if l.Language != "" {
		return "called in " + l.Language + " " + path
	}
	return "called " + path
}
func (c *counter) Firm() (firm.Profile, error) { return c.firm, nil }
func (c *counter) SetFirm(p firm.Profile) error {
	c.firm = p
	return nil
}
func (c *counter) Paper() report.Paper     { return c.paper }
func (c *counter) SetPaper(p report.Paper) { c.paper = p }
func (c *counter) Language() string        { return c.tongue }
func (c *counter) SetLanguage(key string)  { c.tongue = key }
func (c *counter) Reads(window units.Locale) units.Locale {
	if c.tongue != "" {
		window.Language = c.tongue
	}
	return window
}
func (c *counter) CautionsRead() bool { return c.read }
func (c *counter) ReadCautions()      { c.read = true }
func (c *counter) Go(work func(context.Context) error, done func(error)) {
	var err error
	c.waiting = append(c.waiting, func() { err = work(context.Background()) }, func() { done(err) })
}
func (c *counter) Save(p *report.Pages, a report.Audience)                      { c.saved = p }
func (c *counter) JobFile() string                                              { return "" }
func (c *counter) OpenFolder()                                                  {}
func (c *counter) Print(p *report.Pages, a report.Audience, paper report.Paper) { c.media = paper }

// goOn does the work that waits, and what that leads to.
func (c *counter) goOn() {
	for len(c.waiting) > 0 {
		now := c.waiting
		c.waiting = nil
		for _, f := range now {
			f()
		}
	}
}

func opened(t *testing.T) (*Screen, *model, *counter, fyne.Window) {
	t.Helper()
	data, err := assets.Open("one-inch-slot")
	require.NoError(t, err)
	job, err := jobfile.Decode(data)
	require.NoError(t, err)
	study, err := sizing.Solve(job)
	require.NoError(t, err)
	m, d := &model{job: job, study: study}, &counter{paper: report.Letter}
	test.NewApp()
	s := New(m, d)
	w := test.NewWindow(s.Object())
	t.Cleanup(w.Close)
	w.Resize(fyne.NewSize(1100, 700))
	return s, m, d, w
}

func TestPreview(t *testing.T) {
	s, m, d, _ := opened(t)
	require.True(t, s.save.Disabled(), "nothing is laid out yet")
	d.goOn()
	require.False(t, s.save.Disabled())
	require.Equal(t, "page 1 of 2", s.preview.count.Text)
	require.InDelta(t, 8.5/11, ratio(s), 1e-3)

	s.Choose(report.Working)
	d.goOn()
	require.True(t, s.preview.before.Disabled())
	first := s.preview.image.Image
	test.Tap(s.preview.next)
	d.goOn()
	require.Equal(t, 2, s.preview.page)
	require.NotEqual(t, first, s.preview.image.Image)
	test.Tap(s.preview.large)
	d.goOn()
	require.Equal(t, float32(816), s.preview.image.MinSize().Width, "8 1/2 in at 96 dots")

	s.paper.SetSelected("A4")
	d.goOn()
	require.Equal(t, report.A4, d.paper)
	require.InDelta(t, 210.0/297, ratio(s), 1e-3)
	test.Tap(s.save)
	require.Equal(t, s.laid, d.saved)
	test.Tap(s.print)
	require.Equal(t, report.A4, d.media)

	m.stale = true
	s.Refresh()
	require.True(t, s.save.Disabled())
	require.Contains(t, s.note.Text, "no pages yet")
	m.stale = false
	s.Refresh()
	d.goOn()
	require.False(t, s.save.Disabled())
}

func ratio(s *Screen) float64 {
	size := s.preview.image.Image.Bounds().Size()
	return float64(size.X) / float64(size.Y)
}

// TestLate: pages of a choice that was changed meanwhile are dropped,
// and nothing is laid out twice.
func TestLate(t *testing.T) {
	s, _, d, _ := opened(t)
	early := d.waiting
	s.Choose(report.Working)
	late := d.waiting[len(early):]
	for _, f := range append(late, early...) {
		f()
	}
	require.Greater(t, s.laid.Count, 1, "the working, not the customer's page")
	d.waiting = nil
	s.Refresh()
	require.Empty(t, d.waiting)
}

// TestCautions: the cautions cannot be confirmed before their end has
// been in view.
// Ranges that the window knows are not sampled again for a page, and a page without
// ranges takes none up.
func TestKnownRangesServeThePages(t *testing.T) {
	s, m, d, _ := opened(t)
	d.goOn()
	own := s.ranges
	require.NotEmpty(t, own, "sampled, since the window knew none")

	known, study := own[:1:1], *m.study
	m.study, m.ranges = &study, known
	s.Choose(report.WorkOrder)
	d.goOn()
	require.Equal(t, own, s.ranges, "a work order has none")
	s.Choose(report.Customer)
	d.goOn()
	require.Equal(t, known, s.ranges)
	require.Equal(t, m.study, s.sampled)
}

func TestCautions(t *testing.T) {
	s, _, d, w := opened(t)
	w.Resize(fyne.NewSize(700, 300))
	s.Choose(report.WorkOrder)
	d.goOn()
	require.True(t, s.cautions.read.Disabled())
	test.Tap(s.cautions.read)
	require.False(t, d.read)
	require.True(t, s.save.Disabled() && s.print.Disabled())
	s.cautions.scroll.ScrollToBottom()
	require.False(t, s.cautions.read.Disabled())
	test.Tap(s.cautions.read)
	require.True(t, d.read)
	require.False(t, s.save.Disabled() || s.print.Disabled())
}

// TestCompany: what is typed of the company is kept and stands on the
// pages laid out next; what cannot be read is said and keeps nothing.
func TestCompany(t *testing.T) {
	s, _, d, _ := opened(t)
	d.goOn()
	before := s.laid
	test.Tap(s.own)
	require.True(t, s.save.Disabled(), "no page is in view")
	s.company.name.SetText("Invented Air")
	s.company.tax.SetText("a lot")
	_, err := s.company.profile()
	require.ErrorContains(t, err, "tax")
	s.company.tax.SetText("8.25")
	s.company.days.SetText("30")
	p, err := s.company.profile()
	require.NoError(t, err)
	require.NoError(t, d.SetFirm(p))
	s.company.fill(d.firm, nil)
	require.Equal(t, "8.25", s.company.tax.Text)
	s.company.done()
	d.goOn()
	require.NotEqual(t, before, s.laid)
	require.InDelta(t, 0.0825, d.firm.TaxRate, 1e-12)
	require.False(t, s.save.Disabled())
}

func TestProposed(t *testing.T) {
	s, m, d, _ := opened(t)
	s.proposed.SetSelected(m.job.Options[0].Name)
	d.goOn()
	require.NoError(t, s.fault)
	m.job = m.job.Clone()
	m.job.Options = m.job.Options[1:]
	s.Refresh()
	require.Equal(t, string(bestOption), s.proposed.Selected, "an option that is gone is proposed no more")
}

// The working names the fields of what is assumed as the window does.
func TestWorkingSpeaksAsTheWindow(t *testing.T) {
	s, m, desk, _ := opened(t)
	s.Choose(report.Working)
	desk.goOn()
	require.NotNil(t, s.laid)
	calls := s.calls(units.IP, m.study)
	for _, a := range m.study.Assumptions {
		require.Equal(t, "called "+a.Path, calls(a.Path))
	}
}

// The pages are laid out again in the language chosen for them, which the desk keeps;
// the working names its fields in it too.
func TestLanguageOfThePages(t *testing.T) {
	s, m, desk, _ := opened(t)
	s.Choose(report.Working)
	desk.goOn()
	before := s.laid
	require.Equal(t, "as the window", s.language.Selected)
	s.language.SetSelected("Español")
	require.Equal(t, "es", desk.tongue)
	require.Nil(t, s.laid, "they are being laid out")
	require.Equal(t, "es", s.wanted.system.Language)
	path := m.study.Assumptions[0].Path
	require.Equal(t, "called in es "+path, s.calls(s.wanted.system, m.study)(path))
	desk.goOn()
	require.NotNil(t, s.laid)
	require.NotSame(t, before, s.laid)
	require.Equal(t, "Español", New(m, desk).language.Selected)
	s.language.SetSelected("English")
	require.Equal(t, "en", desk.tongue)
}

// A company's tax is typed and shown with the decimal mark of the window.
func TestTaxWithADecimalComma(t *testing.T) {
	lang.Set(units.Locale{Language: "es", Comma: true})
	t.Cleanup(func() { lang.Set(units.IP) })
	test.NewApp()
	c := newCompany(func(firm.Profile) error { return nil }, func() {})
	for _, text := range []string{"8,25", "8.25 %"} {
		c.tax.SetText(text)
		p, err := c.profile()
		require.NoError(t, err, text)
		require.InDelta(t, 0.0825, p.TaxRate, 1e-12, text)
	}
	c.fill(firm.Profile{TaxRate: 0.0825}, nil)
	require.Equal(t, "8,25", c.tax.Text)
	require.Contains(t, c.tax.PlaceHolder, "8,25")
	c.tax.SetText("much")
	_, err := c.profile()
	require.ErrorContains(t, err, `tax: given "much"`)
}
