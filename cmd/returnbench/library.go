package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/library"
	"returnbench/sizing/units"
)

type libraryVerb struct {
	Folder  string   `arg:"" help:"The library's folder."`
	Kind    string   `enum:",filter,blower,cabinet,grille,size,prices,template" default:"" help:"Only this kind: filter, blower, cabinet, grille, size, prices or template. A table needs it."`
	Find    string   `placeholder:"WORDS" help:"Only items in which every word is found."`
	Import  []string `placeholder:"FILE" sep:"none" help:"Put in the items of a table (CSV), of an item's file, or of a job, which becomes a template. Several times for several files."`
	Replace bool     `help:"Let what is imported replace items of the same name that hold something else; the version before stays beside each as .bak."`
	Export  string   `placeholder:"FILE.csv" help:"Write the items of a kind as a table; - for standard output."`
}

func (v *libraryVerb) Run(s *streams) error {
	switch {
	case len(v.Import) > 0 && v.Export != "":
		return usageError{errors.New("--import and --export: want one of the two")}
	case v.Export != "" && v.Kind == "":
		return usageError{errors.New("--export: a table holds one kind; want --kind beside it")}
	case v.Export != "" && !library.Kind(v.Kind).IsTable():
		return usageError{errors.New("--export: a template is a whole job and no row of a table; copy its file")}
	case v.Replace && len(v.Import) == 0:
		return usageError{errors.New("--replace: want --import beside it")}
	case len(v.Import) > 0:
		return v.put(s)
	}
	lib, err := library.Read(v.Folder)
	if err != nil {
		return err
	}
	found := lib.Find(library.Kind(v.Kind), v.Find)
	if v.Export != "" {
		err = v.table(s, found)
	} else {
		err = list(s, found)
	}
	return errors.Join(err, skipped(s, lib))
}

// skippedError is the number of files that were named and left out.
type skippedError int

func (n skippedError) Error() string {
	if n == 1 {
		return "1 file was left out"
	}
	return fmt.Sprintf("%d files were left out", int(n))
}

// skipped names the files that were left out.
func skipped(s *streams, lib *library.Library) error {
	if len(lib.Faults) == 0 {
		return nil
	}
	for _, f := range lib.Faults {
		jobError{f.File, f.Err}.print(s)
	}
	return jobError{lib.Folder, skippedError(len(lib.Faults))}
}

func list(s *streams, entries []library.Entry) error {
	for _, e := range entries {
		if _, err := fmt.Fprintf(visible{s.out}, "%s\t%s\t%s\t%s\n", e.Kind(), e.Name(), e.Note(units.IP), e.File); err != nil {
			return err
		}
	}
	return nil
}

func (v *libraryVerb) table(s *streams, entries []library.Entry) error {
	items := make([]library.Item, len(entries))
	for i, e := range entries {
		items[i] = e.Item
	}
	var out bytes.Buffer
	if err := library.WriteTable(&out, library.Kind(v.Kind), items); err != nil {
		return err
	}
	if v.Export == "-" {
		_, err := s.data().Write(out.Bytes())
		return err
	}
	return atomicfile.Write(v.Export, out.Bytes(), 0o644)
}

// put imports; nothing is written where any file has a fault.
func (v *libraryVerb) put(s *streams) error {
	var items []library.Item
	for _, file := range v.Import {
		more, err := v.itemsOf(file)
		if err != nil {
			return err
		}
		items = append(items, more...)
	}
	m, err := library.Merge(v.Folder, items, v.Replace)
	for _, list := range []struct {
		what  string
		names []string
	}{{"added", m.Added}, {"replaced", m.Replaced}, {"unchanged", m.Unchanged}, {"left as it is", m.Differ}} {
		for _, name := range list.names {
			fmt.Fprintf(visible{s.out}, "%s\t%s\n", list.what, name)
		}
	}
	if err == nil && len(m.Differ) > 0 {
		return usageError{fmt.Errorf("%d of the items are in the library with other values and stay so; want --replace, or other names", len(m.Differ))}
	}
	return err
}

func (v *libraryVerb) itemsOf(file string) ([]library.Item, error) {
	if !strings.EqualFold(filepath.Ext(file), ".csv") {
		item, err := library.ReadFile(file)
		if path := (*os.PathError)(nil); errors.As(err, &path) {
			return nil, err
		}
		if err != nil {
			return nil, jobError{file, err}
		}
		if v.Kind != "" && item.Kind() != library.Kind(v.Kind) {
			return nil, jobError{file, fmt.Errorf("it holds a %s; want a %s", item.Kind(), v.Kind)}
		}
		return []library.Item{item}, nil
	}
	kinds := library.Kinds()
	if at := slices.Index(kinds, library.Kind(v.Kind)); at < 0 || !kinds[at].IsTable() {
		return nil, usageError{fmt.Errorf("--import %s: a table holds one kind; want --kind beside it", file)}
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	items, err := library.ReadTable(f, library.Kind(v.Kind))
	if faults := (library.TableError)(nil); errors.As(err, &faults) {
		return nil, jobError{file, errors.New(strings.ReplaceAll(err.Error(), "\n", "\n"+file+": "))}
	}
	return items, err
}
