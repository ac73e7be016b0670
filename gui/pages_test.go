package gui

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/gui/system"
	"returnbench/plots/report"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// machine is a system that runs nothing and keeps what it was asked to.
type machine struct {
	ran   [][]string
	saw   []byte // of the file that was printed
	found error
	fault error
}

func (m *machine) system() system.System {
	return system.System{OS: "linux",
		Find: func(name string) (string, error) { return name, m.found },
		Run: func(name string, args ...string) ([]byte, error) {
			m.ran = append(m.ran, append([]string{name}, args...))
			m.saw, _ = os.ReadFile(args[len(args)-1])
			return []byte("the printer is on fire"), m.fault
		}}
}

func pagesBench(t testing.TB) (*Bench, *machine) {
	t.Helper()
	m := &machine{}
	b, err := New(test.NewApp(), Options{Dir: t.TempDir(), Run: session.InStep, Version: "9.9.9", System: m.system()})
	require.NoError(t, err)
	b.window.Resize(fyne.NewSize(1366, 768))
	b.put(example(t, "one-inch-slot"), "")
	return b, m
}

// button finds a button of the place in view.
func button(t testing.TB, b *Bench, label string) *widget.Button {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.root) {
		if w, ok := o.(*widget.Button); ok && w.Text == label {
			return w
		}
	}
	require.Fail(t, "no button "+label)
	return nil
}

func tick(t testing.TB, b *Bench, label string) *widget.Check {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.root) {
		if w, ok := o.(*widget.Check); ok && w.Text == label {
			return w
		}
	}
	require.Fail(t, "no tick "+label)
	return nil
}

const readLabel = "I have read all of these cautions"

func TestWorkOrderComesAfterTheCautions(t *testing.T) {
	b, _ := pagesBench(t)
	item(t, b, "Work order").Action()
	require.Equal(t, pagesPlace, b.at)
	require.True(t, button(t, b, "Save ...").Disabled())
	require.True(t, button(t, b, "Print").Disabled())
	test.Tap(tick(t, b, readLabel))
	require.False(t, button(t, b, "Save ...").Disabled())

	test.Tap(button(t, b, "Save ..."))
	entry := b.window.Canvas().Focused().(*pathEntry)
	path := filepath.Join(t.TempDir(), "order")
	entry.SetText(path)
	press(t, b, fyne.KeyReturn)
	text, err := os.ReadFile(path + ".pdf")
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(text), "%PDF-"))
	answerWith(t, b, "Close")
	require.False(t, b.busy())

	item(t, b, "Proposal").Action()
	item(t, b, "Work order").Action()
	b.SetTheme("dark")
	require.False(t, button(t, b, "Save ...").Disabled(), "once a job is enough")
	b.put(example(t, "two-returns"), "")
	item(t, b, "Work order").Action()
	require.True(t, button(t, b, "Save ...").Disabled(), "another job, the cautions again")
}

func TestNoPagesOfAJobWithoutAResult(t *testing.T) {
	b := newBench(t)
	item(t, b, "Calculations").Action()
	require.True(t, button(t, b, "Save ...").Disabled())
	item(t, b, "Tables").Action()
	answerWith(t, b, "Close")
	require.False(t, b.busy())
}

func TestPagesGoToThePrinterOfTheSystem(t *testing.T) {
	b, m := pagesBench(t)
	item(t, b, "Calculations").Action()
	test.Tap(button(t, b, "Print"))
	require.Len(t, m.ran, 1)
	require.Equal(t, []string{"lp", "-t", b.plainName() + " working", "-o", "media=letter"}, m.ran[0][:5])
	require.True(t, strings.HasPrefix(string(m.saw), "%PDF-"))
	require.NoFileExists(t, m.ran[0][5], "nothing is left behind")
	answerWith(t, b, "Close")

	m.fault = errors.New("exit status 1")
	test.Tap(button(t, b, "Print"))
	require.True(t, b.busy(), "the person is told")
	answerWith(t, b, "Close")
	m.found = exec.ErrNotFound
	test.Tap(button(t, b, "Print"))
	require.True(t, b.busy())
	answerWith(t, b, "Close")
	require.Len(t, m.ran, 2)
	require.False(t, button(t, b, "Save ...").Disabled(), "the pages are still there")
}

func TestFolderOfSavedPagesIsOpened(t *testing.T) {
	b, m := pagesBench(t)
	item(t, b, "Tables").Action()
	dir := t.TempDir()
	b.window.Canvas().Focused().(*pathEntry).SetText(filepath.Join(dir, "table.ods"))
	press(t, b, fyne.KeyReturn)
	answerWith(t, b, "Choose another name")
	b.window.Canvas().Focused().(*pathEntry).SetText(filepath.Join(dir, "table.csv"))
	press(t, b, fyne.KeyReturn)
	answerWith(t, b, "Open the folder")
	require.Equal(t, [][]string{{"xdg-open", dir}}, m.ran)
	text, err := os.ReadFile(filepath.Join(dir, "table.csv"))
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(text), "option,kind,"))

	item(t, b, "Tables").Action()
	b.window.Canvas().Focused().(*pathEntry).SetText(filepath.Join(dir, "table"))
	press(t, b, fyne.KeyReturn)
	text, err = os.ReadFile(filepath.Join(dir, "table.xlsx"))
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(text), "PK"))
	press(t, b, fyne.KeyEscape)
	require.False(t, b.busy())
	require.Len(t, m.ran, 1, "Escape opens no folder")
}

// TestOriginOfPages: pages name the version and the very file that they are
// made from.
func TestOriginOfPages(t *testing.T) {
	b, _ := pagesBench(t)
	version, checksum, _ := desk{b}.Origin(units.IP)
	require.Equal(t, "9.9.9", version)
	require.Contains(t, checksum, "not saved")
	path := filepath.Join(t.TempDir(), "house.job.json")
	b.saveTo(path, func() {})
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	_, saved, _ := desk{b}.Origin(units.IP)
	require.Equal(t, jobfile.Checksum(data), saved)
	require.Equal(t, saved+", not saved", checksum, "the file is what it would have been")
}

func TestPaperIsKept(t *testing.T) {
	b, _ := pagesBench(t)
	require.Equal(t, report.Letter, desk{b}.Paper())
	desk{b}.SetPaper(report.A4)
	again, err := New(test.NewApp(), Options{Dir: b.userFolder.dir, Run: session.InStep})
	require.NoError(t, err)
	require.Equal(t, report.A4, desk{again}.Paper())
	require.Empty(t, Settings{Paper: "legal"}.corrected().Paper)
}
