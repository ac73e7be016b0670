package gui

import (
	"errors"
	"maps"
	"strings"
	"unicode"
	"unicode/utf8"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/gui/outcome"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/lesson"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// labeller is a place that has labels for its fields.
type labeller interface{ Labels() form.Labels }

// calledAt is a place as it is called in a language.
type calledAt struct {
	locale units.Locale
	place  string
}

// labels are the labels of a place's fields. They are read from its form, built
// once for jobs that have an element in each list, so that no second list of
// labels is needed.
func (p *program) labels(key string) form.Labels {
	at := calledAt{lang.Locale(), key}
	if l, ok := p.called[at]; ok {
		return l
	}
	all := form.Labels{Fields: map[string]form.Label{}, Items: map[string]form.ListItem{}}
	for _, job := range jobsWithAllLists() {
		b := &Bench{program: p, session: session.New(unsolved, session.InStep)}
		b.pane = outcome.New(b.session, b.chartLook)
		b.session.Load(job, "")
		if l, ok := placeOf(key).make(b).(labeller); ok {
			one := l.Labels()
			maps.Copy(all.Fields, one.Fields)
			maps.Copy(all.Items, one.Items)
		}
	}
	if p.called == nil {
		p.called = map[calledAt]form.Labels{}
	}
	p.called[at] = all
	return all
}

func unsolved(sizing.Job) (*sizing.Study, error) { return nil, errors.New("it is not asked for") }

// jobsWithAllLists are jobs with one element in each list. There are two, because the
// shape of a duct and the kind of a fitting decide which fields the form has.
func jobsWithAllLists() []sizing.Job {
	return []sizing.Job{
		jobWithAllLists(duct.Rectangular, duct.ElbowSmooth),
		jobWithAllLists(duct.Flex, duct.GradualExpansion),
	}
}

func jobWithAllLists(shape duct.Shape, kind duct.FittingKind) sizing.Job {
	branch := sizing.Return{
		Name: "hall", Grille: duct.Grille{Rating: make([]duct.GrilleRating, 1)},
		Runs: []duct.Run{{Shape: shape}}, Fittings: []duct.Fitting{{Kind: kind}},
	}
	return sizing.Job{
		Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM,
		Equipment:  sizing.Equipment{Blower: blower.Table{Taps: []blower.Tap{{Name: "high", Points: make([]blower.Point, 2)}}}},
		StockSizes: []sizing.StockSize{{}},
		Filters:    []filter.Filter{{Name: "f", Rating: make([]filter.RatingPoint, 1), Efficiency: make([]float64, len(filter.SizeEdges())-1)}},
		Returns:    []sizing.Return{branch}, Readings: make([]sizing.Reading, 1),
		Options: []sizing.Option{{Name: "o", Returns: []sizing.Return{branch}}},
		Photos:  make([]quote.Photo, 1),
		Quote:   quote.Quote{Lines: []quote.Line{{Item: "cabinet"}}},
	}
}

// words is the place and the label of a field of a job: "Blower, tap 1 (high),
// row 4: External static". A path of no field is returned as it is.
func (p *program) words(job *sizing.Job, path string) string {
	place := placeOf(placeOfPath(path))
	called := p.labels(place.key)
	label, ok := labelOf(called, path)
	if !ok && !hasFieldsBelow(called, fieldpath.First(path)) {
		return path
	}
	out := lang.T(place.name)
	for _, thing := range fieldpath.Elements(path) {
		if item, ok := called.Items[fieldpath.First(thing)]; ok {
			out += ", " + itemLabel(job, item, thing)
		}
	}
	if label.Under != "" {
		out += ", " + lowerFirst(label.Under)
	}
	if item, is := called.Items[fieldpath.First(path)+"[0]"]; is && !ok {
		label.Text = lang.T("each {thing}", "thing", item.Word)
	}
	if label.Text != "" {
		out += ": " + label.Text
	}
	return out
}

// lowerFirst is a heading as it stands within a sentence.
func lowerFirst(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToLower(first)) + text[size:]
}

// labelOf finds the label of a field. Where a list holds plain values each may
// have a label of its own.
func labelOf(called form.Labels, path string) (form.Label, bool) {
	if i, ok := fieldpath.Index(path); ok {
		if label, ok := called.Fields[fieldpath.At(fieldpath.First(fieldpath.Parent(path)), i)]; ok {
			return label, true
		}
	}
	label, ok := called.Fields[fieldpath.First(path)]
	return label, ok
}

// hasFieldsBelow reports whether there are fields below a path.
func hasFieldsBelow(called form.Labels, path string) bool {
	for field := range called.Fields {
		if field != path && fieldpath.Within(field, path) {
			return true
		}
	}
	return false
}

// itemLabel tells which thing of a list is meant: by its number as in the
// list, and by its name where it has one. A name may say both already.
func itemLabel(job *sizing.Job, item form.ListItem, path string) string {
	n, ok := fieldpath.Index(path)
	if !ok {
		return item.Word // longer than any list
	}
	words, name := lang.T("{thing} {number}", "thing", item.Word, "number", n+1), ""
	if job != nil && item.Name != "" {
		name = lesson.TextAt(*job, fieldpath.Join(path, fieldpath.Name(item.Name)))
	}
	switch {
	case name == "":
		return words
	case strings.HasPrefix(name, item.Word+" "):
		return name
	}
	return words + " (" + name + ")"
}
