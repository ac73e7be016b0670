// Command catalog keeps the catalog of messages in step with the program:
//
//	go run ./cmd/catalog
//
// It reads every constant of type message.ID of the packages, adds to the English
// catalog what is missing there, takes out what no code uses any more, in every
// language, and lists what the other languages lack. With -check it changes nothing.
// Exit status: 0 complete, 1 something is missing or unused, 2 wrong usage or code
// that does not build.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"returnbench/sizing/message"
)

const catalog = "sizing/message/catalog"

func main() {
	check := flag.Bool("check", false, "change nothing")
	loose := flag.Bool("outside", false, "list the strings of the packages given that read like prose and are no message")
	flag.Parse()
	if *loose {
		list, err := outside(".", flag.Args()...)
		for _, s := range list {
			fmt.Println(s)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, "catalog:", err)
			os.Exit(2)
		}
		return
	}
	used, err := collect(".", "./sizing/...", "./plots/...", "./gui/...", "./cmd/...", "./assets")
	if err != nil {
		fmt.Fprintln(os.Stderr, "catalog:", err)
		os.Exit(2)
	}
	lacking := false
	for _, lang := range append([]string{"en"}, message.Languages()...) {
		entries := message.Entries(lang)
		for _, p := range compare(used, entries) {
			fmt.Println(lang + ": " + p)
			lacking = true
		}
		if *check {
			continue
		}
		if err := write(lang, arrange(lang, used, entries)); err != nil {
			fmt.Fprintln(os.Stderr, "catalog:", err)
			os.Exit(2)
		}
	}
	if lacking {
		os.Exit(1)
	}
}

// compare lists the messages that a language lacks, has without use, or has with
// other arguments than the code gives.
func compare(used map[message.ID]string, entries map[string]map[message.ID]message.Entry) []string {
	var out []string
	have := map[message.ID]message.Entry{}
	for _, file := range slices.Sorted(maps.Keys(entries)) {
		for _, id := range slices.Sorted(maps.Keys(entries[file])) {
			have[id] = entries[file][id]
			if _, ok := used[id]; !ok {
				out = append(out, fmt.Sprintf("%s: %q is not used", file, id))
			}
		}
	}
	for _, id := range slices.Sorted(maps.Keys(used)) {
		e, ok := have[id]
		if !ok {
			out = append(out, fmt.Sprintf("%s: %q is missing", used[id], id))
			continue
		}
		want := message.Arguments(string(id))
		if got := message.Arguments(e.Other); e.Other == "" || !slices.Equal(got, want) {
			out = append(out, fmt.Sprintf("%s: %q has the arguments %v, want %v", used[id], e.Other, got, want))
		}
		if e.One == "" {
			continue
		}
		// "one filter" need not write its count
		if got := slices.Compact(slices.Sorted(slices.Values(append(message.Arguments(e.One), withCount(want)...)))); !slices.Equal(got, want) {
			out = append(out, fmt.Sprintf("%s: %q has the arguments %v, want %v", used[id], e.One, got, want))
		}
	}
	return out
}

func withCount(names []string) []string {
	if slices.Contains(names, "count") {
		return []string{"count"}
	}
	return nil
}

// arrange sorts the entries of a language into the files of the packages that use
// them. English gets what it lacks: the name of a message is its English text.
func arrange(lang string, used map[message.ID]string, entries map[string]map[message.ID]message.Entry) map[string]map[message.ID]message.Entry {
	have := map[message.ID]message.Entry{}
	for _, list := range entries {
		maps.Copy(have, list)
	}
	out := map[string]map[message.ID]message.Entry{}
	for id, file := range used {
		e, ok := have[id]
		if !ok && lang != "en" {
			continue
		}
		if !ok {
			e.Other = string(id)
		}
		if out[file] == nil {
			out[file] = map[message.ID]message.Entry{}
		}
		out[file][id] = e
	}
	return out
}

func write(lang string, files map[string]map[message.ID]message.Entry) error {
	folder := filepath.Join(catalog, lang)
	old, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		return err
	}
	for _, name := range old {
		if _, ok := files[filepath.Base(name)]; !ok {
			if err := os.Remove(name); err != nil {
				return err
			}
		}
	}
	for name, entries := range files {
		var b bytes.Buffer
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(entries); err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return nil
}
