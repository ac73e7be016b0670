package gui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/forms"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/gui/widgets"
	"returnbench/plots/report"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// settingsView is all settings in one place: those of the program at the left,
// what new jobs begin with at the right.
type settingsView struct {
	bench    *Bench
	jobs     *session.Session // what new jobs begin with
	form     *forms.NewJobs
	saved    sizing.Job
	updating bool // the fields are being filled

	language, units, theme, text, paper *widgets.Select
	ranges, touch                       *widgets.Check
	library, company                    *widget.Label
	object                              *fyne.Container
}

// showSettings shows all settings.
func (b *Bench) showSettings() {
	job, err := b.userFolder.newJobs()
	if err != nil {
		b.showError("What new jobs begin with cannot be read; it is left as it is until you save it anew", err)
	}
	b.openSettings(newSettingsView(b, job))
}

func (b *Bench) openSettings(v *settingsView) {
	size := b.window.Canvas().Size()
	b.show(lang.T("Settings"), v.object, fyne.NewSize(min(980, size.Width-40), min(640, size.Height-40)),
		answer{"Close", v.close})
	b.window.Canvas().Focus(v.units)
}

func newSettingsView(b *Bench, job sizing.Job) *settingsView {
	v := &settingsView{bench: b, saved: begun(job), object: container.NewStack()}
	v.jobs = session.New(checked, session.InStep)
	v.jobs.SetUnits(b.session.Units())
	v.jobs.Load(v.saved, "")
	v.jobs.OnChange(func() { v.form.Refresh() })
	v.make()
	return v
}

// make makes the rows again: the size of text and of targets changes them.
func (v *settingsView) make() {
	v.form = forms.NewNewJobs(v.jobs)
	v.form.SetLibrary(v.bench.shared())
	v.object.Objects = []fyne.CanvasObject{v.rows()}
	v.object.Refresh()
	v.fill()
}

// choices of the program's own settings.
var (
	unitsChoices = []message.ID{"Inch-pound (cfm, in. w.c.)", "SI (L/s, Pa)"}
	themeChoices = []message.ID{"Light", "Dark"}
	paperWords   = map[report.Paper]message.ID{report.Letter: "letter", report.A4: "a4"}
)

func choiceWords(choices []message.ID) []string {
	out := make([]string, len(choices))
	for i, c := range choices {
		out[i] = lang.T(c)
	}
	return out
}

func languageChoices() []string {
	out := make([]string, len(languages))
	for i, c := range languages {
		out[i] = c.words()
	}
	return out
}

func textChoices() []string {
	out := make([]string, len(textSizes))
	for i, s := range textSizes {
		out[i] = fmt.Sprintf("%.0f %%", 100*s)
	}
	return out
}

// paperChoices begin with that of the units.
func paperChoices() []string {
	out := []string{lang.T("as usual for the units")}
	for _, p := range report.Papers() {
		out = append(out, lang.T(paperWords[p]))
	}
	return out
}

func (v *settingsView) rows() fyne.CanvasObject {
	v.inputs()
	split := container.NewHSplit(widgets.NewVScroll(v.programSettings()), v.newJobSettings())
	split.SetOffset(0.46)
	return split
}

// inputs makes the inputs of the program's own settings.
func (v *settingsView) inputs() {
	b := v.bench
	pick := func(options []string, set func(i int)) *widgets.Select {
		s := widgets.NewSelect(options, nil)
		s.OnChanged = func(string) {
			if !v.updating {
				set(s.SelectedIndex())
			}
		}
		return s
	}
	v.units = pick(choiceWords(unitsChoices), func(i int) {
		sys := lang.Locale().With([]units.System{units.InchPound, units.Metric}[i])
		b.SetUnits(sys)
		v.jobs.SetUnits(sys)
	})
	v.theme = pick(choiceWords(themeChoices), func(i int) { b.SetTheme([]string{look.Light, look.Dark}[i]); v.make() })
	v.text = pick(textChoices(), func(i int) { b.SetTextSize(textSizes[i]); v.make() })
	v.paper = pick(paperChoices(), func(i int) {
		b.settings.Paper = ""
		if i > 0 {
			b.settings.Paper = string(report.Papers()[i-1])
		}
		b.keepSettings()
	})
	v.language = pick(languageChoices(), func(i int) {
		b.settings.Language = languages[i].key
		b.keepSettings()
	})
	tick := func(label message.ID, set func(bool)) *widgets.Check {
		return widgets.NewCheck(label, func(on bool) {
			if !v.updating {
				set(on)
			}
		})
	}
	v.ranges = tick("Ranges of the numbers (±)", b.SetRanges)
	v.touch = tick("Touch: large targets, long press for a right click", func(on bool) { b.SetTouch(on); v.make() })
}

// programSettings is the column at the left.
func (v *settingsView) programSettings() fyne.CanvasObject {
	v.library, v.company = widget.NewLabel(""), widget.NewLabel("")
	for _, l := range []*widget.Label{v.library, v.company} {
		l.Wrapping = fyne.TextWrapBreak
	}
	next := widget.NewLabel(lang.T("The language changes the next time the program starts."))
	next.Wrapping = fyne.TextWrapWord
	next.SizeName = theme.SizeNameCaptionText
	rows := container.New(layout.NewFormLayout())
	for _, r := range []struct {
		label message.ID
		field fyne.CanvasObject
	}{{"Language", container.NewVBox(v.language, next)}, {"Units", v.units}, {"Theme", v.theme}, {"Text size", v.text}, {"Paper", v.paper}} {
		rows.Add(widget.NewLabel(lang.T(r.label)))
		rows.Add(r.field)
	}
	return container.NewVBox(
		heading("Window and paper"), rows, v.touch, v.ranges,
		heading("Library"), v.library,
		container.NewHBox(newKeyButton("Choose a folder", func() { v.bench.chooseLibrary(v.fill) })),
		heading("Your company"), v.company,
		container.NewHBox(newKeyButton("Edit the company", v.editCompany)))
}

// newJobSettings is the column at the right.
func (v *settingsView) newJobSettings() fyne.CanvasObject {
	said := widget.NewLabel(lang.T("Every new job begins with these; a job that is there keeps its own."))
	said.Wrapping = fyne.TextWrapWord
	said.SizeName = theme.SizeNameCaptionText
	take := newKeyButton("Take those of this job", v.takeFromJob)
	right := container.NewBorder(container.NewVBox(heading("New jobs"), said, container.NewHBox(take)), nil, nil, nil, v.form.Object())
	return container.NewPadded(right)
}

func heading(text message.ID) *widget.Label {
	l := widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

// fill shows the settings as they are.
func (v *settingsView) fill() {
	b := v.bench
	v.updating = true
	defer func() { v.updating = false }()
	at := func(s *widgets.Select, i int) { s.SetSelectedIndex(max(0, i)) }
	at(v.language, slices.IndexFunc(languages, func(c languageChoice) bool { return c.key == b.settings.Language }))
	at(v.units, slices.Index([]units.System{units.InchPound, units.Metric}, b.session.Units().System))
	at(v.theme, slices.Index([]string{look.Light, look.Dark}, b.settings.Theme))
	at(v.text, slices.Index(textSizes, b.settings.TextSize))
	at(v.paper, slices.Index(report.Papers(), report.Paper(b.settings.Paper))+1)
	v.ranges.SetChecked(b.session.Ranging())
	v.touch.SetChecked(b.settings.Touch)
	v.library.SetText(lang.T("none yet"))
	if b.settings.Library != "" {
		v.library.SetText(b.settings.Library)
	}
	v.company.SetText(lang.T("not entered yet: name, license, phone, logo, tax, terms"))
	profile, err := (desk{b}).Firm()
	switch {
	case err != nil:
		v.company.SetText(faultWords(err))
	case profile.Name != "":
		v.company.SetText(profile.Name)
	}
}

// takeFromJob makes the requirements, prices and accuracy of the job in view
// those of new jobs.
func (v *settingsView) takeFromJob() {
	from := begun(v.bench.session.Job())
	v.jobs.Apply(lang.T("Take those of this job"), func(j *sizing.Job) { *j = from })
}

// editCompany opens the company's profile.
func (v *settingsView) editCompany() {
	b := v.bench
	b.closeThen(func() {
		b.enter(pagesPlace)
		if s, ok := b.screens[pagesPlace].(interface{ EditCompany() }); ok {
			s.EditCompany()
		}
	})
}

// close saves what new jobs begin with, unless it has a fault.
func (v *settingsView) close() {
	b := v.bench
	job := v.jobs.Job()
	if err := v.fault(); err != nil {
		b.ask("What new jobs begin with cannot be kept", faultWords(err),
			answer{"Go back to it", func() { b.openSettings(v) }},
			answer{"Leave it as it was", nil})
		return
	}
	if session.Differences(v.saved, job) == 0 {
		return
	}
	if err := b.userFolder.keepNewJobs(job); err != nil {
		b.showError("What new jobs begin with could not be kept", err)
	}
}

// fault is what is wrong with the fields at the right.
func (v *settingsView) fault() error {
	if unread := v.jobs.Unread(); len(unread) > 0 {
		return message.Errorf("{fields} cannot be read", "fields", unreadNames(unread))
	}
	_, err := checked(v.jobs.Job())
	var faults sizing.FieldErrors
	if !errors.As(err, &faults) {
		return err
	}
	lines := make([]string, len(faults))
	for i, f := range faults {
		lines[i] = v.bench.words(nil, f.Path) + ": " + form.Sentence(f)
	}
	return errors.New(strings.Join(lines, "\n"))
}
