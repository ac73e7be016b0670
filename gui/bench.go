package gui

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"returnbench/assets"
	"returnbench/gui/airpath"
	"returnbench/gui/lang"
	"returnbench/gui/lesson"
	"returnbench/gui/look"
	_ "returnbench/gui/memory" // keeps the C heap from growing with each picture
	"returnbench/gui/outcome"
	"returnbench/gui/session"
	"returnbench/gui/system"
	"returnbench/gui/widgets"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Options are what a Bench is built with; tests fill them, the program leaves
// most of them open.
type Options struct {
	// Dir is the folder of the person's own files: settings, recent files,
	// recovery copies. Left open: the usual folder of the machine; "none": no
	// such files are read or written.
	Dir string
	// Run runs work outside the window's thread. Left open: a goroutine.
	Run session.Runner
	// Post runs a function on the window's thread, called from another. Left open: the
	// toolkit's way.
	Post func(func())
	// Solve is the engine. Left open: a sizing.Solver, which remembers the filters it worked out.
	Solve session.Solve
	// Sample works out ranges beside the Study. Left open: the engine's, where Run
	// is left open too; none with a Run of one's own.
	Sample session.Sample
	// Version of the program, as pages and tables name it.
	Version string
	// System prints and opens folders. Left open: this machine.
	System system.System
}

// NoDir is the Dir of a Bench that keeps nothing.
const NoDir = "none"

// Bench is one window with all that belongs to it.
type Bench struct {
	*program
	window         fyne.Window
	session        *session.Session
	recovery       *recoveryStore
	cautionsRead   bool    // confirmed for this job
	pagesFolder    string  // where pages were last saved
	reportedChange *string // mark of the file's last change that was reported

	unitsByHand bool // the person chose the units of this window; a job changes them no more

	view sizing.View // how the options are compared; of the window, not of the job

	class        *lesson.Show // the demonstration in view; nil before the place is first entered
	large        bool         // it fills the window in large type
	appliedScale float32      // the text scale in use
	before       fyne.Size    // of the window that fills the screen

	screens  map[string]screen
	at       string // key of the place in view
	pane     *outcome.Pane
	nav      *nav
	foot     *rangeFoot // under it
	root     *fyne.Container
	body     *fyne.Container // the place in view
	left     *fyne.Container // its form, where it has a chart beside it
	right    *fyne.Container // the chart beside a form
	split    *container.Split
	narrow   bool // there is no room for a chart beside a form
	onScreen bool // the window is open
	menu     *menu
	stepBar  *stepBar

	decision *decision // over every place
	tips     *widgets.Tooltips
	assumed  assumedCounts

	escape func()             // the harmless answer to the open question
	files  *dialog.FileDialog // in view; nil: none
}

// New builds the first window of a program; it is not shown yet.
func New(app fyne.App, o Options) (*Bench, error) {
	b := &Bench{program: &program{app: app, options: o, version: o.Version, system: o.System, handled: map[string]bool{}}, screens: map[string]screen{}}
	if b.system.Run == nil {
		b.system = system.Machine()
	}
	var fault error
	switch o.Dir {
	case NoDir:
	case "":
		b.userFolder, fault = ownFolder()
	default:
		b.userFolder = userFolder{dir: o.Dir}
	}
	if b.userFolder.dir != "" {
		var err error
		b.lock, err = newProcessLock(b.userFolder.dir)
		fault = errors.Join(fault, err)
	}
	settings, err := b.userFolder.settings()
	b.settings, b.recent = settings, b.userFolder.recent()
	fault = errors.Join(fault, err)

	if err := plots.UseFace(look.Face()); err != nil {
		return nil, err
	}
	app.Settings().SetTheme(b.theme())
	b.startSession(o)
	b.build()
	b.readLibrary(func(error) {}) // its faults are shown when it is opened
	b.lookAtFiles()
	return b, fault
}

func (b *Bench) theme() fyne.Theme {
	if b.settings.Touch {
		return look.TouchTheme(b.settings.Theme, b.textScale())
	}
	return look.Theme(b.settings.Theme, b.textScale())
}

func (b *Bench) startSession(o Options) {
	b.opened++
	b.windows = append(b.windows, b)
	ranging := session.Ranging{Sample: o.Sample, Samples: sizing.UsualSamples}
	if o.Post == nil {
		o.Post = fyne.Do
	}
	if o.Run == nil {
		o.Run = offThread(o.Post)
		ranging.Post, ranging.Debounce, ranging.Between = o.Post, rangeRest, rangeSteps
		if o.Sample == nil {
			ranging.Sample = sampled
		}
	}
	if o.Solve == nil {
		o.Solve = sizing.NewSolver().Solve
	}
	b.session = session.NewWith(o.Solve, session.NewTasks(o.Run, o.Post))
	b.session.SetUnits(b.settings.system())
	b.session.RangeBy(ranging)
	b.session.SetRanging(!b.settings.NoRanges)
	if job := b.newJob(); session.Differences(job, sizing.Job{Schema: sizing.Schema}) > 0 {
		b.session.Load(job, "")
	}
	if b.userFolder.dir != "" {
		b.recovery = newRecoveryStore(b.program)
		b.session.KeepIn(b.recovery)
	}
}

// offThread runs work in a goroutine and then done on the window's thread.
func offThread(post func(func())) session.Runner {
	return func(work, done func()) {
		go func() {
			work()
			post(done)
		}()
	}
}

const firstWidth, firstHeight = 1340, 700

func (b *Bench) build() {
	b.window = b.app.NewWindow("returnbench")
	b.window.SetPadded(false)
	b.window.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon()))
	b.pane = outcome.New(b.session, b.chartLook)
	b.pane.OnPart(b.showPart)
	b.pane.OnSave, b.pane.OnCopy = b.askSaveChart, b.copyChart
	b.decision = newDecision(b)
	b.tips = widgets.NewTooltips()
	if b.options.Run != nil {
		b.tips.Wait = func(_ time.Duration, show func()) { show() } // as all else then, at once
	}
	b.foot = newRangeFoot(b.session, b.SetRanges)
	b.nav = newNav(places(), b.goTo, b.foot.Object())
	b.stepBar = newStepBar(b)
	b.left = container.NewStack()
	b.right = container.NewStack(b.pane.Object())
	b.split = container.NewHSplit(b.left, b.right)
	b.split.SetOffset(0.32)
	b.body = container.New(&fitted{b})

	b.goTo(firstPlace)
	b.root = container.New(shellLayout{}, b.body, b.decision.strip.Object(), b.nav.Object(), b.tips)
	b.window.SetContent(b.root)
	b.menu = newMenu(b)
	b.window.SetMainMenu(b.menu.main)
	b.window.Resize(fyne.NewSize(firstWidth, firstHeight))
	b.window.SetCloseIntercept(b.Close)
	b.window.SetOnDropped(b.dropped)
	b.window.Canvas().SetOnTypedKey(b.typedKey)
	b.session.OnChange(b.refresh)
	b.session.OnRanges(b.refreshRanges)
	b.refresh()
}

// chartLook is the look of charts in this window.
func (b *Bench) chartLook(sys units.Locale) plots.Look {
	return look.ForPlots(b.theme(), b.settings.Theme, sys, b.chartScale())
}

// follow makes the airpath drawing show the option being edited, or else
// today's house.
func (b *Bench) follow() {
	name := b.decision.chosen
	if s, ok := b.screens[b.at].(optionShower); ok {
		name = s.Option()
	}
	b.pane.Follow(name)
}

// showPart opens the place where a part of the airpath drawing is edited: in
// the option that is drawn, if that changes the part, else in the house.
func (b *Bench) showPart(part string) {
	job := b.session.Peek()
	if path := optionPart(job, b.pane.Option(), part); path != "" {
		b.showPath(path)
		return
	}
	switch part {
	case airpath.PartFilter:
		if at := slices.IndexFunc(job.Returns, func(r sizing.Return) bool { return r.Filter != "" }); job.Slot.None && at >= 0 {
			b.showPath(fmt.Sprintf("returns[%d].filter", at))
			return
		}
		b.enter("slot")
	case airpath.PartBlower:
		b.enter("blower")
	case airpath.PartCoil, airpath.PartSupply:
		b.showPath(part + ".drop")
	default:
		b.enter("returns")
		if strings.HasPrefix(part, "return[") {
			b.showPath("returns" + strings.TrimPrefix(part, "return") + ".name")
		}
	}
}

// optionPart is the field where an option changes a part, empty where the part
// is today's.
func optionPart(job *sizing.Job, option, part string) string {
	at := slices.IndexFunc(job.Options, func(o sizing.Option) bool { return o.Name == option })
	if at < 0 {
		return ""
	}
	path := fmt.Sprintf("options[%d].", at)
	switch {
	case part == airpath.PartFilter:
		return path + "filter"
	case part == airpath.PartBlower:
		return path + "tap"
	case len(job.Options[at].Returns) == 0:
		return ""
	case part == airpath.PartReturn:
		return path + "returns[0].name"
	case strings.HasPrefix(part, "return["):
		return path + "returns" + strings.TrimPrefix(part, "return") + ".name"
	}
	return ""
}

// Window is the bench's window.
func (b *Bench) Window() fyne.Window { return b.window }

// Session is the Job under edit.
func (b *Bench) Session() *session.Session { return b.session }

// refresh brings all that is in view up to date.
func (b *Bench) refresh() {
	b.window.SetTitle(b.title())
	b.tips.Clear() // what it is of may be gone
	b.decision.Refresh()
	b.showLessonAlone()
	if s := b.screens[b.at]; s != nil {
		s.Refresh()
	}
	if !b.placeInView().wide {
		b.beside(b.screens[b.at])
	}
	if b.chartShown() {
		b.follow()
		b.pane.Refresh()
	}
	b.nav.Refresh(b)
	b.stepBar.Refresh()
	b.foot.Refresh()
	b.nav.layOutFoot()
	b.menu.Refresh()
	b.layOut()
}

// title is the file's name, with a note where it is not saved.
func (b *Bench) title() string {
	name := lang.T("new job")
	if p := b.session.Path(); p != "" {
		name = filepath.Base(p)
	}
	if b.session.Dirty() {
		name = lang.T("* {file} (unsaved)", "file", name)
	}
	return name + " - returnbench"
}

// SetUnits shows another system of units, in every window.
func (b *Bench) SetUnits(u units.Locale) {
	b.settings.Units = "ip"
	if u.System == units.Metric {
		b.settings.Units = "si"
	}
	for _, w := range b.windows {
		w.unitsByHand = true
		w.session.SetUnits(lang.Locale().With(u.System))
	}
	b.keepSettings()
}

// useUnitsOf shows an opened job in its own units: a metric job in SI, any other
// as in the settings.
func (b *Bench) useUnitsOf(job *sizing.Job) {
	if b.unitsByHand {
		return
	}
	sys := b.settings.system()
	if job.Units().System == units.Metric {
		sys = sys.With(units.Metric)
	}
	b.session.SetUnits(sys)
}

// SetTheme changes between light and dark.
func (b *Bench) SetTheme(variant string) {
	b.settings.Theme = variant
	b.retheme()
}

// SetTextSize makes all text larger or smaller.
func (b *Bench) SetTextSize(scale float32) {
	b.settings.TextSize = scale
	b.retheme()
}

// stepTextSize goes to the next text size on offer, or the one before.
func (b *Bench) stepTextSize(by int) {
	to := slices.Index(textSizes, b.settings.TextSize) + by
	if to >= 0 && to < len(textSizes) {
		b.SetTextSize(textSizes[to])
	}
}

// SetTouch makes targets large enough for a finger, or for a mouse.
func (b *Bench) SetTouch(on bool) {
	b.settings.Touch = on
	b.retheme()
}

func (b *Bench) retheme() {
	b.settings = b.settings.corrected()
	b.appliedScale = b.textScale()
	b.app.Settings().SetTheme(b.theme())
	for _, w := range b.windows {
		w.rebuildPlace()
	}
	b.keepSettings()
}

// rebuildPlace builds the place in view again, in the new theme; it keeps the
// keyboard focus.
func (b *Bench) rebuildPlace() {
	held := b.window.Canvas().Focused() != nil && !b.busy()
	b.dropScreens()
	b.pane.RedrawAll()
	b.goTo(b.at)
	b.root.Refresh()
	if held {
		b.focusFirst()
	}
}

func (b *Bench) keepSettings() {
	if err := b.userFolder.write(settingsFile, b.settings); err != nil {
		b.showError("Settings could not be kept", err)
	}
	b.refreshMenus()
}

// busy reports whether a dialog or a list is open over the window: until it is
// closed nothing else may happen.
func (b *Bench) busy() bool { return b.window.Canvas().Overlays().Top() != nil }

// typedKey handles keys while no widget has the keyboard focus.
func (b *Bench) typedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyF11:
		b.fullScreen()
	case k.Name == fyne.KeyF1:
		if !b.busy() {
			b.showHelp()
		}
	case k.Name != fyne.KeyEscape || !b.busy():
	case b.files != nil:
		b.files.Dismiss()
	default:
		b.answerLast()
	}
}

// Undo takes back the newest edit.
func (b *Bench) Undo() { b.session.Undo() }

// Redo makes it again.
func (b *Bench) Redo() { b.session.Redo() }

// say writes a text in the units of the window.
func (b *Bench) say(id message.ID, args ...any) string {
	return message.Text(b.session.Units(), id, args...)
}

// Run opens a window on each file, or one on a new job where no path is given;
// a path that names no file yet begins a new job there. It returns when the last
// window is closed: the exit status. Pages name the program's version.
func Run(app fyne.App, version string, paths ...string) int {
	setLanguage(startLocale())
	b, err := New(app, Options{Version: version})
	if b == nil {
		fyne.LogError("the window cannot be built", err)
		return 3
	}
	b.appear()
	for i, path := range paths {
		if b.showing(path) != nil {
			continue
		}
		if i > 0 {
			b = b.NewWindow()
		}
		if fault := b.Open(path); fault != nil {
			b.showError("{file} cannot be opened", fault, "file", path)
		}
	}
	if b = b.windows[0]; !b.busy() {
		b.offerRecovery()
	}
	if err != nil {
		b.showError("Your settings could not be read; the usual ones are used", err)
	}
	app.Run()
	return 0
}
