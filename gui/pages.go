package gui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"returnbench/gui/lang"
	"returnbench/gui/pages"
	"returnbench/gui/system"
	"returnbench/plots/report"
	"returnbench/sizing/export"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
	lessons "returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// pageLabels are what can be printed, and how the menu calls them.
var pageLabels = []struct {
	audience report.Audience
	label    message.ID
	key      fyne.Shortcut
}{
	{report.Customer, "Proposal", ctrl(fyne.KeyP)},
	{report.WorkOrder, "Work order", ctrlShift(fyne.KeyP)},
	{report.Working, "Calculations", ctrlAlt(fyne.KeyP)},
	{report.FieldSheet, "Field sheet", ctrlShift(fyne.KeyF)},
	{report.ClassSheet, "Class sheet", ctrlShift(fyne.KeyG)},
}

// showPages leads to the pages for an audience.
func (b *Bench) showPages(a report.Audience) {
	if a == report.ClassSheet {
		b.enter(classSheetPlace)
		return
	}
	b.enter(pagesPlace)
	if s, ok := b.screens[pagesPlace].(*pages.Screen); ok {
		s.Choose(a)
	}
}

// desk is the shell as the pages and photos see it.
type desk struct{ *Bench }

// JobFile is the file of the job, empty where it has none yet.
func (d desk) JobFile() string {
	if p := d.session.Path(); p != "" {
		return absolute(p)
	}
	return ""
}

// ChoosePicture asks for a picture's file.
func (d desk) ChoosePicture(then func(path string)) {
	files := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		switch {
		case err != nil:
			d.showError("The file cannot be opened", err)
		case r != nil:
			_ = r.Close() // it is read by its path
			then(r.URI().Path())
		}
	}, d.window)
	d.inFolder(files)
	files.SetFilter(storage.NewExtensionFileFilter([]string{".jpg", ".jpeg", ".png", ".JPG", ".JPEG", ".PNG"}))
	d.showFiles(files)
}

// Origin is the program's version, the checksum and the date for the pages. The
// checksum is that of the job's file; a job that is not saved as it stands has
// that of the file it would be.
func (d desk) Origin(l units.Locale) (version, checksum, date string) {
	return d.version, d.checksum(l), time.Now().Format(time.DateOnly)
}

func (b *Bench) checksum(l units.Locale) string {
	if path := b.session.Path(); path != "" && !b.session.Dirty() {
		if data, err := os.ReadFile(path); err == nil {
			return jobfile.Checksum(data)
		}
	}
	data, err := jobfile.Encode(b.session.Job())
	if err != nil {
		return ""
	}
	return message.Text(l, "{checksum}, not saved", "checksum", jobfile.Checksum(data))
}

// Paper is the one last chosen, or that of the units.
func (d desk) Paper() report.Paper {
	switch {
	case d.settings.Paper != "":
		return report.Paper(d.settings.Paper)
	case d.session.Units().System == units.Metric:
		return report.A4
	}
	return report.Letter
}

func (d desk) SetPaper(p report.Paper) {
	d.settings.Paper = string(p)
	d.keepSettings()
}

// Language is that last chosen for pages; empty: the window's.
func (d desk) Language() string { return d.settings.Pages }

func (d desk) SetLanguage(key string) {
	d.settings.Pages = key
	d.keepSettings()
}

// Reads is the locale of the pages. Spanish ones of an English window have the
// decimal mark of the machine where that is Spanish, and a point where not.
func (d desk) Reads(window units.Locale) units.Locale {
	switch key := d.settings.Pages; {
	case key == "", key == window.Language:
		return window
	case key == "en":
		return units.Locale{System: window.System}
	default:
		return units.Locale{System: window.System, Language: key, Comma: systemLocale(machineLanguage()).Comma}
	}
}

func (d desk) CautionsRead() bool { return d.cautionsRead }

func (d desk) ReadCautions() { d.cautionsRead = true }

func (d desk) Go(work func(context.Context) error, done func(error)) {
	d.session.Tasks().Go(work, done)
}

// Save asks where the pages are to go.
func (d desk) Save(p *report.Pages, a report.Audience) {
	q := pathQuestion{title: "Save the pages as", name: d.pagesName(p, a) + ".pdf", suffix: ".pdf"}
	d.askPath(q, func(path string) {
		var data bytes.Buffer
		err := p.Write(&data)
		if err == nil {
			err = atomicfile.Write(path, data.Bytes(), 0o644)
		}
		if err != nil {
			d.showError("{file} cannot be written", err, "file", filepath.Base(path))
			return
		}
		d.pagesFolder = filepath.Dir(path)
		d.ask("The pages are written", path, answer{"Close", nil}, answer{"Open the folder", d.OpenFolder})
	})
}

// pagesName is how a file of pages is called: by the job, or by the demonstration.
func (d desk) pagesName(p *report.Pages, a report.Audience) string {
	if a == report.ClassSheet {
		return lang.T("{title} class sheet", "title", plainFileName(p.Title, lang.T("demonstration")))
	}
	return fmt.Sprintf("%s %s", d.plainName(), a)
}

// Demonstrations are those of the class, and which is in view.
func (d desk) Demonstrations() (list []lessons.Lesson, at int) {
	show := d.classShow()
	if show == nil {
		return nil, 0
	}
	for _, it := range show.Items() {
		list = append(list, it.Lesson)
	}
	return list, show.At()
}

// Print gives the pages to the system's printer. They are printed from a
// temporary file, so that no file of the person is changed.
func (d desk) Print(p *report.Pages, a report.Audience, paper report.Paper) {
	title := d.pagesName(p, a)
	d.Go(func(context.Context) error { return printed(d.system, p, title, string(paper)) }, func(err error) {
		var missing *system.MissingError
		switch {
		case errors.As(err, &missing):
			d.showError("The pages cannot be printed from here", message.Errorf("{fault}.\n\nSave the pages and print them from another program", "fault", err))
		case err != nil:
			d.showError("The pages were not printed", err)
		default:
			d.ask("The pages are with the printing system", title+"\n"+lang.T("{paper} paper, the usual printer of this machine.", "paper", pages.PaperName(paper)), answer{"Close", nil})
		}
	})
}

func printed(s system.System, p *report.Pages, title, media string) error {
	dir, err := os.MkdirTemp("", "returnbench")
	if err != nil {
		return err
	}
	file := filepath.Join(dir, "pages.pdf") // a job's name may be longer than a file's
	later := false
	defer func() {
		if !later {
			os.RemoveAll(dir)
		}
	}()
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	err = p.Write(f)
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	later, err = s.Print(file, title, media)
	return err
}

// OpenFolder shows where pages were last saved, else where the job is.
func (d desk) OpenFolder() {
	dir := d.pagesFolder
	if dir == "" {
		dir = d.folder()
	}
	d.Go(func(context.Context) error { return d.system.OpenFolder(dir) }, func(err error) {
		if err != nil {
			d.showError("The folder {folder} cannot be opened from here", err, "folder", dir)
		}
	})
}

// askTable asks for the file of the tables of options and sizes; its ending
// decides the format.
func (b *Bench) askTable() {
	if b.session.Study() == nil || b.session.Stale() {
		b.showError("No table yet", message.Errorf("the job has no result, or not yet; put right what the strip names first"))
		return
	}
	b.askTableAs(b.plainName() + ".xlsx")
}

func (b *Bench) askTableAs(name string) {
	q := pathQuestion{title: "Save the tables of options and sizes: .xlsx is a workbook, .csv plain text", name: name, suffix: ".xlsx"}
	b.askPath(q, func(path string) {
		suffix := strings.ToLower(filepath.Ext(path))
		if suffix != ".xlsx" && suffix != ".csv" {
			b.ask("Which form?", b.say("{suffix} is no form of table. A name ending in .xlsx gives a workbook, in .csv plain text.", "suffix", strconv.Quote(suffix)),
				answer{"Choose another name", func() { b.askTableAs(name) }}, answer{"Cancel", nil})
			return
		}
		if err := b.writeTable(path, suffix); err != nil {
			b.showError("{file} cannot be written", err, "file", filepath.Base(path))
			return
		}
		b.pagesFolder = filepath.Dir(path)
		b.ask("The tables are written", path, answer{"Close", nil}, answer{"Open the folder", desk{b}.OpenFolder})
	})
}

func (b *Bench) writeTable(path, suffix string) error {
	study, sys := b.session.Study(), b.session.Units()
	var data bytes.Buffer
	var err error
	if suffix == ".csv" {
		err = export.CSV(&data, study, sys)
	} else {
		version, checksum, date := desk{b}.Origin(sys)
		err = export.XLSX(&data, study, sys, export.About{Version: version, Checksum: checksum, Date: date, Notes: b.session.Job().Notes})
	}
	if err != nil {
		return err
	}
	return atomicfile.Write(path, data.Bytes(), 0o644)
}
