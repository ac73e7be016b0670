package gui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/units"
)

// sit is a run of the program on a folder.
func sit(t *testing.T, dir string) *Bench {
	t.Helper()
	b, err := New(test.NewApp(), Options{Dir: dir, Run: session.InStep})
	require.NoError(t, err)
	t.Cleanup(b.lock.end)
	return b
}

// dies ends a run as the end of its process does: the lock is free, and nothing
// is tidied.
func dies(t *testing.T, b *Bench) {
	t.Helper()
	require.NoError(t, b.lock.lock.Unlock())
}

func copies(t *testing.T, dir, prefix string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, prefix+"*"))
	require.NoError(t, err)
	return files
}

// A copy is offered once the run that made it is over, and not before, whatever
// the number of its process; no run overwrites the copy of another.
func TestACopyIsOfferedOnceItsSittingIsOver(t *testing.T) {
	dir := t.TempDir()
	first, second := sit(t, dir), sit(t, dir)
	cool(first, 3)
	cool(second, 4)
	require.Len(t, copies(t, dir, recoveryPrefix), 2, "one process, two runs, two copies")
	kept, err := second.session.Offered()
	require.NoError(t, err)
	require.Nil(t, kept, "the other still runs")
	dies(t, first)
	kept, err = second.session.Offered()
	require.NoError(t, err)
	require.Equal(t, 3*units.Ton, kept.Job.Equipment.CoolingCapacity)
	require.WithinDuration(t, time.Now(), kept.Time, time.Minute)
}

// A copy that was cut off hides no other: it is set aside and told of.
func TestACopyThatCannotBeReadIsSetAside(t *testing.T) {
	dir := t.TempDir()
	left := sit(t, dir)
	cool(left, 3)
	w := left.NewWindow()
	cool(w, 4)
	dies(t, left)
	require.NoError(t, os.Truncate(left.recovery.file(), 20))
	b := sit(t, dir)
	b.offerRecovery()
	answerWith(t, b, "Close")
	require.Len(t, copies(t, dir, asidePrefix), 1)
	answerWith(t, b, "Restore")
	require.Equal(t, 4*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	require.False(t, b.busy(), "nothing more is offered")
}

// What killed runs left beside their copies is removed a day later; a run that
// lasts keeps its lock however old, and no copy goes.
func TestLeftoversOfKilledRunsAreRemoved(t *testing.T) {
	dir := t.TempDir()
	killed, lasting := sit(t, dir), sit(t, dir)
	cool(killed, 3)
	dies(t, killed)
	long := time.Now().Add(-48 * time.Hour)
	for _, b := range []*Bench{killed, lasting} {
		require.NoError(t, os.Chtimes(b.lock.lock.Path(), long, long))
	}
	b := sit(t, dir)
	require.NoFileExists(t, killed.lock.lock.Path())
	require.FileExists(t, lasting.lock.lock.Path())
	require.FileExists(t, b.lock.lock.Path())
	kept, err := b.session.Offered()
	require.NoError(t, err)
	require.Equal(t, 3*units.Ton, kept.Job.Equipment.CoolingCapacity)
}

// Copies of one job are distinguished by their time and by what differs.
func TestACopyShowsItsTimeAndDifferences(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	job := sizing.Job{Schema: sizing.Schema, Name: "Hill", DesignAirflow: 1200 * units.CFM}
	require.NoError(t, jobfile.Save(path, job))
	at := time.Date(2024, 5, 6, 7, 8, 9, 0, time.Local)
	changed := job.Clone()
	changed.DesignAirflow, changed.Notes = 900*units.CFM, "by the stairs"
	changed.Options = []sizing.Option{{Name: "wider", Price: 40}}
	require.Equal(t, "The program ended before "+path+" was saved. A copy was kept on 6 May 2024 at 07:08:09; 4 values differ from the file.",
		keptWords(&session.Recovery{Job: changed, Path: path, Time: at}))
	require.Equal(t, "The program ended before a new job (Hill) was saved. A copy was kept; 2 values are filled in.", keptWords(&session.Recovery{Job: job}))
}

// Work without a recovery copy is reported in the window, until it is saved.
func TestACopyThatCannotBeKeptIsReported(t *testing.T) {
	dir := t.TempDir()
	b := sit(t, dir)
	require.NoError(t, os.Mkdir(b.recovery.file(), 0o755)) // nothing can be written there
	cool(b, 3)
	require.Contains(t, troubleOf(b), "no recovery copy")
	require.Contains(t, b.decision.strip.Content().Sentence, "no recovery copy")
	b.saveTo(filepath.Join(t.TempDir(), "a"+jobSuffix), func() {})
	require.NotContains(t, troubleOf(b), "no recovery copy")
}

// A file that another program has changed is not overwritten without a word.
func TestAFileChangedByAnotherProgramIsNoticed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	theirs := sizing.Job{Schema: sizing.Schema, Name: "theirs", DesignAirflow: 800 * units.CFM}
	open := func() *Bench {
		require.NoError(t, jobfile.Save(path, sizing.Job{Schema: sizing.Schema, Name: "ours", DesignAirflow: 1200 * units.CFM}))
		b := newBench(t)
		require.NoError(t, b.Open(path))
		cool(b, 3)
		require.NoError(t, jobfile.Save(path, theirs))
		b.Save()
		require.True(t, b.busy(), "it asks")
		return b
	}
	onDisk := func(file string) sizing.Job {
		job, err := jobfile.Load(file)
		require.NoError(t, err)
		return job
	}

	b := open()
	press(t, b, "Escape")
	require.Equal(t, "theirs", onDisk(path).Name)
	require.True(t, b.session.Dirty(), "the harmless answer changes nothing")

	b = open()
	answerWith(t, b, "Save anyway")
	require.Equal(t, "ours", onDisk(path).Name)
	require.Equal(t, "theirs", onDisk(path+".bak").Name, "what was replaced is kept")
	cool(b, 4)
	b.Save()
	require.False(t, b.busy(), "its own writing is no surprise")

	b = open()
	answerWith(t, b, "Reload")
	require.Equal(t, "theirs", b.session.Job().Name)
	require.False(t, b.session.Dirty())
	b.Undo()
	require.Equal(t, 3*units.Ton, b.session.Job().Equipment.CoolingCapacity, "what the window had comes back")

	b = open()
	answerWith(t, b, "Save as")
	require.True(t, b.busy())
	require.Equal(t, "theirs", onDisk(path).Name)
}

// A file that is made while a window has its name, and one that is gone.
func TestAFileThatComesOrGoesIsNoticed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new"+jobSuffix)
	b := newBench(t)
	require.NoError(t, b.Open(path))
	cool(b, 3)
	require.NoError(t, jobfile.Save(path, sizing.Job{Name: "theirs"}))
	b.Save()
	require.True(t, b.busy())
	press(t, b, "Escape")
	require.NoError(t, os.Remove(path))
	b.Save()
	require.False(t, b.busy(), "there is nothing to lose")
	require.FileExists(t, path)
}

// comesToTheFront is what the toolkit calls when a window gets the keyboard back
// from another program.
func comesToTheFront(b *Bench) {
	b.app.Lifecycle().(interface{ OnEnteredForeground() func() }).OnEnteredForeground()()
}

// When the window gets the keyboard back it says that another program changed the
// file: once for each change, and before anything is lost.
func TestAChangeOfTheFileIsReportedOnComingBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	save := func(name string) {
		require.NoError(t, jobfile.Save(path, sizing.Job{Schema: sizing.Schema, Name: name, DesignAirflow: 1200 * units.CFM}))
	}
	save("ours")
	b := newBench(t)
	require.NoError(t, b.Open(path))
	comesToTheFront(b)
	require.False(t, b.busy(), "nothing has changed")

	save("theirs")
	comesToTheFront(b)
	require.True(t, b.busy())
	answerWith(t, b, "Go on editing")
	comesToTheFront(b)
	require.False(t, b.busy(), "told once")
	require.Equal(t, "ours", b.session.Job().Name)

	save("theirs again")
	cool(b, 3)
	comesToTheFront(b)
	press(t, b, "Return")
	require.True(t, b.busy(), "the first answer keeps unsaved work: it asks for a name")
	b.answerLast()
	save("the last")
	comesToTheFront(b)
	answerWith(t, b, "Reload")
	require.Equal(t, "the last", b.session.Job().Name)
	require.False(t, b.session.Dirty())
	b.Undo()
	require.Equal(t, 3*units.Ton, b.session.Job().Equipment.CoolingCapacity)
	b.Save()
	require.False(t, b.busy(), "its own writing is no surprise")
	comesToTheFront(b)
	require.False(t, b.busy())
}

// A job whose file is gone is unsaved: closing the window asks.
func TestAJobWhoseFileIsGoneIsUnsaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hill"+jobSuffix)
	require.NoError(t, jobfile.Save(path, example(t, "two-returns")))
	b := newBench(t)
	require.NoError(t, b.Open(path))
	require.NoError(t, os.Remove(path))
	comesToTheFront(b)
	answerWith(t, b, "Go on editing")
	require.True(t, b.session.Dirty())
	require.FileExists(t, b.recovery.file())
	comesToTheFront(b)
	require.False(t, b.busy(), "told once")
	b.Close()
	answerWith(t, b, "Save")
	require.FileExists(t, path)
	require.NoFileExists(t, b.recovery.file())
}

// Two windows of one program do not hold one file through a link.
func TestAFileIsOpenInOneWindowThroughALink(t *testing.T) {
	dir := t.TempDir()
	path, link, second := filepath.Join(dir, "a"+jobSuffix), filepath.Join(dir, "link"+jobSuffix), filepath.Join(dir, "second"+jobSuffix)
	require.NoError(t, jobfile.Save(path, example(t, "two-returns")))
	require.NoError(t, os.Symlink(path, link))
	require.NoError(t, os.Link(path, second))
	a := newBench(t)
	require.NoError(t, a.Open(path))
	for _, other := range []string{link, second} {
		require.Equal(t, a, a.showing(other))
		b := a.NewWindow()
		b.openOrShowError(other)
		require.Empty(t, b.session.Path())
	}
}

// The message of a disk that takes no more says what to do, and the work stays.
func TestADiskErrorHasAdvice(t *testing.T) {
	b := newBench(t)
	cool(b, 3)
	path := filepath.Join(t.TempDir(), "gone", "a"+jobSuffix)
	b.saveTo(path, func() { require.Fail(t, "it was not saved") })
	require.True(t, b.busy())
	require.True(t, b.session.Dirty())
	_, err := os.Stat(path)
	require.ErrorContains(t, notSaved(err), "The folder or the drive is gone")
	require.ErrorContains(t, notSaved(os.ErrPermission), "a folder of your own")
}

// Names of any length give a proposal that a disk takes.
func TestAProposedNameFitsADisk(t *testing.T) {
	for _, name := range []string{strings.Repeat("家", 300), strings.Repeat("x", 300), "a/b\u202e\x1b\n", ""} {
		b := newBench(t)
		b.session.Apply("Name", func(j *sizing.Job) { j.Name = name })
		b.saveTo(filepath.Join(t.TempDir(), b.fileName()), func() {})
		require.False(t, b.busy(), name)
	}
}
