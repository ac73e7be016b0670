package library

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"returnbench/sizing/export"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// A table of a kind has a column for each field, named by its path in the file:
// "rating[].drop" is of an element of the list "rating". An item begins where its
// name stands; its lists go on in the rows below, where the name is left out. A
// heading may give the unit of numbers without one: "width [in]".

const sourceColumn = "source"

// column is one field of an item, or of the elements of its lists.
type column struct {
	path string          // "taps[].points[].airflow"
	list string          // that it is an element of: "taps[].points"; empty: none
	of   fieldpath.Field // of the value, or of the list of values in one cell
	unit string          // of numbers without one
}

// blank is an item of a kind with nothing in it.
func blank(kind Kind) *Item {
	switch kind {
	case Filters:
		return &Item{Filter: &filter.Filter{}}
	case Blowers:
		return &Item{Blower: &Blower{}}
	case Cabinets:
		return &Item{Cabinet: &Cabinet{}}
	case Grilles:
		return &Item{Grille: &Grille{}}
	case Sizes:
		return &Item{Size: &Size{}}
	}
	return &Item{Prices: &PriceList{}}
}

// content points to what an item of a table holds.
func (i Item) content() any {
	switch i.Kind() {
	case Filters:
		return i.Filter
	case Blowers:
		return i.Blower
	case Cabinets:
		return i.Cabinet
	case Grilles:
		return i.Grille
	case Sizes:
		return i.Size
	}
	return i.Prices
}

// columns are those of a kind, in the order of the file.
func columns(kind Kind) []column {
	return append(columnsOf(reflect.TypeOf(blank(kind).content()).Elem(), "", ""), column{path: sourceColumn})
}

func columnsOf(t reflect.Type, path, list string) []column {
	var own, lists []column
	for _, f := range fieldpath.Fields(t) {
		at := fieldpath.Join(path, f.Name)
		switch {
		case f.Type.Kind() == reflect.Struct:
			own = append(own, columnsOf(f.Type, at, list)...)
		case f.Type.Kind() == reflect.Slice && f.Type.Elem().Kind() == reflect.Struct:
			lists = append(lists, columnsOf(f.Type.Elem(), at+"[]", at)...)
		default:
			own = append(own, column{path: at, list: list, of: f})
		}
	}
	return append(own, lists...)
}

// WriteTable writes items of one kind, with only the columns that any of them
// fills.
func WriteTable(w io.Writer, kind Kind, items []Item) error {
	if !kind.IsTable() {
		return message.Errorf("a {kind} is a whole job and no row of a table; copy its file", "kind", kind)
	}
	all := columns(kind)
	rows := [][]string{}
	for _, i := range items {
		rows = append(rows, rowsOf(i, all)...)
	}
	used := slices.DeleteFunc(indices(len(all)), func(k int) bool {
		return k > 0 && all[k].of.Owner != nil && !all[k].of.Required && !slices.ContainsFunc(rows, func(r []string) bool { return r[k] != "" })
	})
	c := csv.NewWriter(w)
	pick := func(from []string) []string {
		out := make([]string, len(used))
		for i, k := range used {
			out[i] = from[k]
		}
		return out
	}
	heads := make([]string, len(all))
	for i, x := range all {
		heads[i] = x.path
	}
	if err := c.Write(pick(heads)); err != nil {
		return err
	}
	for _, r := range rows {
		if err := c.Write(pick(r)); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// rowsOf are the rows of one item: its own fields in the first row, and one
// element of each list in each row.
func rowsOf(i Item, all []column) [][]string {
	var rows [][]string
	put := func(row int, path, text string) {
		for len(rows) <= row {
			rows = append(rows, make([]string, len(all)))
		}
		k := slices.IndexFunc(all, func(c column) bool { return c.path == path })
		rows[row][k] = guarded(text)
	}
	put(0, sourceColumn, i.Source)
	fill(reflect.ValueOf(i.content()).Elem(), "", 0, put)
	return rows
}

// fill puts the fields of a struct from a row on, and gives the row after it.
func fill(v reflect.Value, path string, row int, put func(int, string, string)) (next int) {
	next = row + 1
	for _, f := range fieldpath.Fields(v.Type()) {
		at, is := fieldpath.Join(path, f.Name), f.In(v)
		switch {
		case is.Kind() == reflect.Struct:
			next = max(next, fill(is, at, row, put))
		case is.Kind() == reflect.Slice && f.Type.Elem().Kind() == reflect.Struct:
			r := row
			for k := range is.Len() {
				r = fill(is.Index(k), at+"[]", r, put)
			}
			next = max(next, r)
		default:
			put(row, at, cellOf(f, is))
		}
	}
	return next
}

// between separates the values of a list in one cell.
const between = "; "

func cellOf(f fieldpath.Field, v reflect.Value) string {
	switch v.Kind() {
	case reflect.Slice:
		parts := make([]string, v.Len())
		for i := range parts {
			parts[i] = plain(v.Index(i))
		}
		return strings.Join(parts, between)
	case reflect.Bool:
		if !v.Bool() {
			return ""
		}
	}
	if v.IsZero() && !f.Required {
		return ""
	}
	return plain(v)
}

func plain(v reflect.Value) string {
	if k := fieldpath.QuantityOf(v.Type()); k != nil {
		return k.Text(v.Float())
	}
	if v.Kind() == reflect.Float64 {
		return strconv.FormatFloat(v.Float(), 'g', -1, 64)
	}
	return fmt.Sprint(v.Interface())
}

// guarded is a cell that no spreadsheet takes for a formula; unguarded removes
// the mark again.
func guarded(text string) string {
	if strings.HasPrefix(text, "'") {
		return "'" + text
	}
	return export.Cell(text)
}

func unguarded(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && rest != "" && (rest[0] == '\'' || export.Cell(rest) != rest) {
		return rest
	}
	return cell
}

// largestTable is the size limit of a table, in bytes.
const largestTable = 16 << 20

// mostTableFaults is how many faults of one table are reported.
const mostTableFaults = 50

// TableError is every fault of a table, each with its line.
type TableError []message.Message

// Error is English, with quantities as a file has them.
func (e TableError) Error() string {
	return e.lines(func(m message.Message) string { return m.Writing(message.Exact).String() })
}

// In writes the faults for a reader, each on a line.
func (e TableError) In(l units.Locale) string {
	return e.lines(func(m message.Message) string { return m.In(l) })
}

func (e TableError) lines(write func(message.Message) string) string {
	listed := []message.Message(e)
	if more := len(e) - mostTableFaults; more > 0 {
		listed = append(listed[:mostTableFaults:mostTableFaults], message.New("{count} more faults", "count", more))
	}
	out := make([]string, len(listed))
	for i, m := range listed {
		out[i] = write(m)
	}
	return strings.Join(out, "\n")
}

// ReadTable reads the items of a table, or returns every fault of it as a
// TableError.
func ReadTable(r io.Reader, kind Kind) ([]Item, error) {
	if !kind.IsTable() {
		return nil, message.Errorf("a {kind} is a whole job and no row of a table; add its file", "kind", kind)
	}
	data, err := io.ReadAll(io.LimitReader(r, largestTable+1))
	if err != nil {
		return nil, err
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	switch {
	case len(data) > largestTable:
		return nil, TableError{message.New("the table takes more than {number} MB", "number", largestTable>>20)}
	case !utf8.ValidString(text):
		return nil, TableError{message.New("the text is not UTF-8; save the table as CSV UTF-8")}
	case strings.TrimSpace(text) == "":
		return nil, TableError{message.New("the table is empty; want a first row with the names of the columns")}
	}
	c := csv.NewReader(strings.NewReader(text))
	c.Comma = separator(text)
	c.FieldsPerRecord, c.LazyQuotes = -1, false
	head, err := c.Read()
	if err != nil {
		return nil, TableError{plainCSV(err)}
	}
	used, faults := readHead(head, kind)
	if faults != nil {
		return nil, faults
	}
	t := &tableReader{kind: kind, used: used}
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, append(t.faults, plainCSV(err))
		}
		line, _ := c.FieldPos(0)
		t.row(cells, line)
	}
	t.close()
	if t.faults != nil {
		return nil, t.faults
	}
	return t.items, nil
}

func plainCSV(err error) message.Message {
	if p := (*csv.ParseError)(nil); errors.As(err, &p) {
		return message.New("line {line}: {fault}", "line", p.Line, "fault", p.Err)
	}
	return message.OfError(err)
}

// separator separates the columns of the first row: spreadsheets of many
// countries write a semicolon.
func separator(text string) rune {
	first, _, _ := strings.Cut(text, "\n")
	best, most := ',', 0
	for _, sep := range ",;\t" {
		if n := strings.Count(first, string(sep)); n > most {
			best, most = sep, n
		}
	}
	return best
}

func readHead(cells []string, kind Kind) ([]column, TableError) {
	all := columns(kind)
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = c.path
	}
	var faults TableError
	used := make([]column, len(cells))
	seen := map[string]bool{}
	for i, cell := range cells {
		name, unit := headOf(cell)
		k := slices.Index(names, name)
		switch {
		case k < 0:
			wrong := message.New("heading, column {number}: {name} is no column of {table}; see an exported table for the names",
				"number", i+1, "name", strconv.Quote(name), "table", kind.Folder())
			if near := fieldpath.Nearest(name, names); near != "" {
				wrong = message.New("heading, column {number}: {name} is no column of {table}; want {near}?",
					"number", i+1, "name", strconv.Quote(name), "table", kind.Folder(), "near", strconv.Quote(near))
			}
			faults = append(faults, wrong)
			continue
		case seen[name]:
			faults = append(faults, message.New("heading, column {number}: {name} again", "number", i+1, "name", name))
		}
		seen[name] = true
		used[i] = all[k]
		if unit == "" {
			continue
		}
		quantity := all[k].quantity()
		if quantity == nil {
			faults = append(faults, message.New("heading, column {number}: {name} has no unit", "number", i+1, "name", name))
			continue
		}
		if _, err := quantity.Parse("1 "+unit, ""); err != nil {
			faults = append(faults, message.New("heading, column {number}: {unit} is not a unit of {kind}",
				"number", i+1, "unit", strconv.Quote(unit), "kind", message.KindName(quantity)))
		}
		used[i].unit = unit
	}
	if first := all[0].path; !seen[first] {
		faults = append(faults, message.New("heading: no column {name}; an item begins where it stands", "name", strconv.Quote(first)))
	}
	return used, faults
}

func headOf(cell string) (name, unit string) {
	cell = strings.TrimSpace(cell)
	if at := strings.LastIndex(cell, " ["); at > 0 && strings.HasSuffix(cell, "]") {
		return strings.TrimSpace(cell[:at]), strings.TrimSpace(cell[at+2 : len(cell)-1])
	}
	return cell, ""
}

// quantity is the kind of a column of quantities, nil of any other.
func (c column) quantity() *units.Kind {
	if c.of.Type == nil {
		return nil
	}
	return fieldpath.QuantityOf(c.of.Type)
}

// tableReader gathers the rows of items.
type tableReader struct {
	kind   Kind
	used   []column
	items  []Item
	faults TableError

	now    *Item          // nil: none has begun
	line   int            // on which it began
	at     map[string]int // the element of each list that is being read, by its path with [] for numbers
	broken bool           // a cell of it cannot be read
}

func (t *tableReader) fault(line int, id message.ID, args ...any) {
	t.faults = append(t.faults, message.New("line {line}: {fault}", "line", line, "fault", message.New(id, args...)))
}

func (t *tableReader) row(cells []string, line int) {
	for i := range cells {
		cells[i] = unguarded(strings.TrimSpace(cells[i]))
	}
	if !slices.ContainsFunc(cells, func(c string) bool { return c != "" }) {
		return
	}
	if len(cells) > len(t.used) {
		t.fault(line, "{cells} cells under {headings} headings", "cells", len(cells), "headings", len(t.used))
		return
	}
	first := ""
	key := slices.IndexFunc(t.used, func(c column) bool { return c.path == columns(t.kind)[0].path })
	if key < len(cells) {
		first = cells[key]
	}
	if begins := first != "" && (t.kind == Sizes || t.now == nil || t.now.Name() != first); begins {
		t.close()
		t.now, t.line, t.at, t.broken = blank(t.kind), line, map[string]int{}, false
	}
	if t.now == nil {
		t.fault(line, "the row belongs to no item: nothing stands under {column} here or above", "column", columns(t.kind)[0].path)
		return
	}
	t.begin(cells)
	for i, cell := range cells {
		if cell != "" {
			t.set(t.used[i], cell, line)
		}
	}
}

// begin goes on to the next element of each list that has cells of its own in
// the row.
func (t *tableReader) begin(cells []string) {
	var lists []string
	for i, c := range t.used {
		if i < len(cells) && cells[i] != "" && c.list != "" && !slices.Contains(lists, c.list) {
			lists = append(lists, c.list)
		}
	}
	slices.SortFunc(lists, func(a, b string) int { return strings.Count(a, "[]") - strings.Count(b, "[]") })
	for _, list := range lists {
		if k, ok := t.at[list]; ok {
			t.at[list] = k + 1
		} else {
			t.at[list] = 0
		}
		for inner := range t.at {
			if strings.HasPrefix(inner, list+"[]") {
				delete(t.at, inner)
			}
		}
	}
}

// set reads a cell into the item.
func (t *tableReader) set(c column, cell string, line int) {
	if c.path == sourceColumn {
		if t.now.Source == "" || t.now.Source == cell {
			t.now.Source = cell
		}
		return
	}
	path := t.numbered(c.path)
	t.grow(path)
	err := t.put(c, path, cell)
	if err != nil {
		t.broken = true
		t.fault(line, "{column}: {why}", "column", c.path, "why", message.OfError(err))
	}
}

func (t *tableReader) put(c column, path, cell string) error {
	if c.of.Type.Kind() == reflect.Slice {
		for i, part := range strings.Split(cell, strings.TrimSpace(between)) {
			at := fieldpath.At(path, i)
			t.grow(at)
			if err := fieldpath.Set(t.now.content(), at, strings.TrimSpace(part)); err != nil {
				return shortFault(err)
			}
		}
		return nil
	}
	v, err := fieldpath.Find(t.now.content(), path)
	if err != nil {
		return err
	}
	if kind := v.Quantity(); kind != nil {
		si, err := kind.Parse(cell, c.unit)
		if err != nil {
			return err
		}
		v.SetNumber(si)
		return nil
	}
	if v.Type.Kind() == reflect.Bool {
		cell = strings.ToLower(cell) // spreadsheets write TRUE
	}
	return shortFault(v.Set(cell))
}

// shortFault leaves out the path, since the message names the column already.
func shortFault(err error) error {
	if e := (*fieldpath.Error)(nil); errors.As(err, &e) {
		return message.Errorf("given {given}; want {wanted}", "given", e.Given, "wanted", e.Wanted)
	}
	return err
}

// numbered puts the number of the element being read behind each list of a
// path.
func (t *tableReader) numbered(path string) string {
	parts := strings.Split(path, "[]")
	out, list := parts[0], parts[0]
	for _, rest := range parts[1:] {
		out = fieldpath.At(out, t.at[list]) + rest
		list += "[]" + rest
	}
	return out
}

// grow makes room for the elements that a path names.
func (t *tableReader) grow(path string) {
	steps, err := fieldpath.Parse(path)
	if err != nil {
		return
	}
	v := reflect.ValueOf(t.now.content()).Elem()
	for _, s := range steps {
		if s.Name != "" {
			k := slices.IndexFunc(fieldpath.Fields(v.Type()), func(f fieldpath.Field) bool { return f.Name == s.Name })
			v = fieldpath.Fields(v.Type())[k].In(v)
			continue
		}
		for v.Len() <= s.Index {
			v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
		}
		v = v.Index(s.Index)
	}
}

// close checks the item being read.
func (t *tableReader) close() {
	if t.now == nil {
		return
	}
	i := *t.now
	t.now = nil
	if t.broken {
		return // reported already
	}
	for _, f := range i.Check() {
		t.fault(t.line, "{item}: {why}", "item", strconv.Quote(i.Name()), "why", f.At(strings.TrimPrefix(f.Path, string(t.kind)+".")).Message())
	}
	t.items = append(t.items, i)
}
