package library

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"returnbench/sizing/jobfile"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// itemFile is the format of every kind but templates.
var itemFile = jobfile.NewDocument("library", Schema)

const (
	itemSuffix     = ".json"
	templateSuffix = ".job.json"
	// mostFiles of one kind are read; a firm has less.
	mostFiles = 5000
)

// Entry is an item and the file it is in.
type Entry struct {
	Item
	File     string // below the library's folder, with slashes
	checksum string // of its bytes when it was read
}

// Fault names a file that was left out, and the reason.
type Fault struct {
	File string
	Err  error
}

func (f Fault) Error() string { return f.File + ": " + f.Err.Error() }

// In writes the fault for a reader.
func (f Fault) In(l units.Locale) string {
	return message.Text(l, "{file}: {why}", "file", f.File, "why", f.Err)
}

func (f Fault) Unwrap() error { return f.Err }

// Library is what a folder held when it was read.
type Library struct {
	Folder  string
	Entries []Entry // by kind, then by name
	Faults  []Fault // files that were left out
}

// Read reads a library. Only a folder that cannot be read is an error; a file
// that cannot is one of the Faults.
func Read(dir string) (*Library, error) {
	if err := isFolder(dir); err != nil {
		return nil, err
	}
	l := &Library{Folder: dir}
	for _, kind := range Kinds() {
		l.readKind(kind)
	}
	slices.SortStableFunc(l.Entries, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(slices.Index(Kinds(), a.Kind()), slices.Index(Kinds(), b.Kind())), compareNames(a, b))
	})
	return l, nil
}

func compareNames(a, b Entry) int {
	return cmp.Or(cmp.Compare(strings.ToLower(a.Name()), strings.ToLower(b.Name())), cmp.Compare(a.File, b.File))
}

func isFolder(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return message.Errorf("the library's folder {folder} is not there: is the drive connected, or the folder moved? {why}", "folder", dir, "why", err)
	case err != nil:
		return message.Errorf("the library's folder {folder} cannot be read: {why}", "folder", dir, "why", err)
	case !info.IsDir():
		return message.Errorf("the library {folder} is a file; want a folder", "folder", dir)
	}
	return nil
}

func (l *Library) fault(file string, err error) {
	l.Faults = append(l.Faults, Fault{file, err})
}

func (l *Library) readKind(kind Kind) {
	folder := kind.Folder()
	files, err := os.ReadDir(filepath.Join(l.Folder, folder))
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	if err != nil {
		l.fault(folder, err)
		return
	}
	n := 0
	for _, f := range files {
		name := f.Name()
		// Names that begin with a dot belong to file syncs and to files being
		// written.
		if strings.HasPrefix(name, ".") || !strings.HasSuffix(strings.ToLower(name), itemSuffix) {
			continue
		}
		if n++; n > mostFiles {
			l.fault(folder, message.Errorf("more than {most} files; the others are left out", "most", mostFiles))
			return
		}
		file := folder + "/" + name
		e, err := readEntry(l.Folder, file, kind)
		if err != nil {
			l.fault(file, err)
			continue
		}
		l.Entries = append(l.Entries, e)
	}
}

func readEntry(dir, file string, kind Kind) (Entry, error) {
	path := filepath.Join(dir, filepath.FromSlash(file))
	info, err := os.Stat(path)
	if err != nil {
		return Entry{}, plainError(err)
	}
	if !info.Mode().IsRegular() {
		return Entry{}, message.Errorf("it is no plain file") // a pipe would never end
	}
	data, err := jobfile.ReadFile(path)
	if err != nil {
		return Entry{}, plainError(err)
	}
	item, err := decode(data, kind)
	if err != nil {
		return Entry{}, err
	}
	if item.Name() == "" { // a template may have none
		item = item.Named(strings.TrimSuffix(filepath.Base(file), templateSuffix))
	}
	return Entry{item, file, jobfile.Checksum(data)}, nil
}

// plainError leaves out the path, since the message names the file already.
func plainError(err error) error {
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		return p.Err
	}
	return err
}

func decode(data []byte, kind Kind) (Item, error) {
	if kind == Templates {
		job, err := jobfile.Decode(data)
		return Item{Template: &job}, err
	}
	var d File
	if err := itemFile.Decode(data, &d); err != nil {
		return Item{}, err
	}
	item := d.item()
	if faults := item.Check(); len(faults) > 0 {
		return Item{}, faults
	}
	if found := item.Kind(); found != kind {
		return Item{}, message.Errorf("it holds a {kind}; want it in the folder {folder}", "kind", found, "folder", found.Folder())
	}
	return item, nil
}

func encode(item Item) ([]byte, error) {
	if faults := item.Check(); len(faults) > 0 {
		return nil, faults
	}
	if item.Template != nil {
		return jobfile.Encode(*item.Template)
	}
	return itemFile.Encode(item.file())
}

// Of are the entries of a kind.
func (l *Library) Of(kind Kind) []Entry {
	var out []Entry
	for _, e := range l.Entries {
		if e.Kind() == kind {
			out = append(out, e)
		}
	}
	return out
}

// Named are the entries of a kind under a name; a file sync may have made two of
// what two machines saved.
func (l *Library) Named(kind Kind, name string) []Entry {
	return slices.DeleteFunc(l.Of(kind), func(e Entry) bool { return !strings.EqualFold(e.Name(), name) })
}

// ErrChanged: the file has changed since it was read.
var ErrChanged = message.Errorf("another person saved it meanwhile; look at what it holds now, and save again or under another name")

// Add writes a new item into the library's folder. It never replaces a file,
// and a failed write leaves no part of one.
func Add(dir string, item Item) (file string, err error) {
	if err := isFolder(dir); err != nil {
		return "", err
	}
	data, err := encode(item)
	if err != nil {
		return "", err
	}
	folder := filepath.Join(dir, item.Kind().Folder())
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	suffix := itemSuffix
	if item.Kind() == Templates {
		suffix = templateSuffix
	}
	const tries = 1000
	for try := 1; try <= tries; try++ {
		name := fileName(item.Name())
		if try > 1 {
			name = fmt.Sprintf("%s-%d", name, try)
		}
		err := atomicfile.WriteNew(filepath.Join(folder, name+suffix), data, 0o644)
		if err == nil {
			return item.Kind().Folder() + "/" + name + suffix, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return "", err
		}
	}
	return "", message.Errorf("{number} files are named like {name}; give the item another name", "number", tries, "name", fileName(item.Name()))
}

// Replace writes an item over that of an entry. The version before stays beside
// it. ErrChanged: the file has changed since the entry was read, and is not
// replaced.
func Replace(dir string, e Entry, item Item) error {
	if err := isFolder(dir); err != nil {
		return err
	}
	if item.Kind() != e.Kind() {
		return message.Errorf("{file} holds a {kind}; it cannot take a {other}", "file", e.File, "kind", e.Kind(), "other", item.Kind())
	}
	data, err := encode(item)
	if err != nil {
		return err
	}
	path := filepath.Join(dir, filepath.FromSlash(e.File))
	now, err := jobfile.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err == nil && jobfile.Checksum(now) != e.checksum {
		if bytes.Equal(now, data) {
			return nil
		}
		return Fault{e.File, ErrChanged}
	}
	return atomicfile.WriteKeeping(path, data, 0o644)
}

// Same reports whether two items hold the same values.
func Same(a, b Item) bool {
	one, err := encode(a)
	other, fault := encode(b)
	return err == nil && fault == nil && bytes.Equal(one, other)
}

// deviceNames cannot be names of files on some systems.
var deviceNames = []string{"con", "prn", "aux", "nul", "com", "lpt"}

// fileName is a name that every disk and every file sync accepts: small
// letters, digits and hyphens.
func fileName(name string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			out.WriteRune(r)
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-"):
			out.WriteByte('-')
		}
	}
	const most = 60
	text := strings.Trim(out.String()[:min(out.Len(), most)], "-")
	if text == "" || slices.Contains(deviceNames, strings.TrimRight(text, "0123456789")) {
		text = strings.TrimSuffix("item-"+text, "-")
	}
	return text
}

// Find are the entries of a kind in which every word is found: in the name, the
// sizes, the maker and model, the source or the name of the file. An empty kind
// is every kind.
func (l *Library) Find(kind Kind, words string) []Entry {
	wanted := strings.Fields(strings.ToLower(words))
	var out []Entry
	for _, e := range l.Entries {
		if kind != "" && e.Kind() != kind {
			continue
		}
		text := e.searched()
		if !slices.ContainsFunc(wanted, func(w string) bool { return !strings.Contains(text, w) }) {
			out = append(out, e)
		}
	}
	return out
}

func (e Entry) searched() string {
	parts := []string{string(e.Kind()), e.Name(), e.Source, e.File, e.Note(units.IP)}
	switch {
	case e.Prices != nil:
		for _, line := range e.Prices.Lines {
			parts = append(parts, line.Item)
		}
	case e.Blower != nil:
		parts = append(parts, string(e.Blower.Equipment.Kind), string(e.Blower.Equipment.Blower.Motor))
	case e.Template != nil:
		parts = append(parts, e.Template.Notes)
	}
	return strings.ToLower(strings.Join(parts, " "))
}

// ReadFile reads one item from a file outside a library: an item's file, or a job
// to become a template under the name of its file.
func ReadFile(path string) (Item, error) {
	info, err := os.Stat(path)
	if err != nil {
		return Item{}, err
	}
	if !info.Mode().IsRegular() {
		return Item{}, message.Errorf("{file} is no plain file", "file", path)
	}
	data, err := jobfile.ReadFile(path)
	if err != nil {
		return Item{}, err
	}
	if strings.HasSuffix(strings.ToLower(path), templateSuffix) {
		job, err := jobfile.Decode(data)
		if err != nil {
			return Item{}, err
		}
		name := filepath.Base(path)
		return TemplateOf(&job, name[:len(name)-len(templateSuffix)]), nil
	}
	var d File
	if err := itemFile.Decode(data, &d); err != nil {
		return Item{}, err
	}
	if faults := d.item().Check(); len(faults) > 0 {
		return Item{}, faults
	}
	return d.item(), nil
}
