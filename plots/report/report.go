package report

import (
	"bytes"
	"cmp"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Audience is whom the pages are for.
type Audience string

const (
	Customer  Audience = "customer"
	WorkOrder Audience = "work-order"
	Working   Audience = "working"
	// FieldSheet is a blank page to fill in by hand at the house.
	FieldSheet Audience = "field-sheet"
)

// Audiences are all audiences.
func Audiences() []Audience { return []Audience{Customer, WorkOrder, Working, FieldSheet} }

// Paper is a size of paper.
type Paper string

const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// Papers are all sizes of paper.
func Papers() []Paper { return []Paper{Letter, A4} }

// size in points, width and height: 8 1/2 x 11 in, 210 x 297 mm.
func (p Paper) size() (w, h float64) {
	if p == A4 {
		return 210 / 25.4 * 72, 297 / 25.4 * 72
	}
	return 612, 792
}

// Options say which pages to write. What is left open is the customer's page
// on Letter paper, in inch-pound units.
type Options struct {
	For    Audience
	Paper  Paper
	System units.Locale
	// Proposed names the option that the pages propose; left open: the one with
	// the best verdict and, among equals, the least external static.
	Proposed string
	// Date stands on every page as given; of the form 2006-01-02 it is also
	// the document's own.
	Date     string
	Version  string // of the program
	Checksum string // of the job file
	// Firm stands at the head of what a customer or a crew gets.
	Firm firm.Profile
	// Ranges are the ranges of the numbers; nil: the pages have none.
	Ranges []sizing.OptionRange
	// Call names a field of the job for a reader, by its path; nil: the path
	// itself, as in the job file.
	Call func(path string) string
	// Folder is that of the job file, which photos may lie beside; left open: there
	// is none.
	Folder string
}

// OptionError: the pages cannot be written as asked.
type OptionError struct {
	Option, Given string
	Wanted        message.Rows // words for what there is
}

func (e *OptionError) Error() string { return e.In(units.IP) }

// In is Error for a reader.
func (e *OptionError) In(l units.Locale) string {
	return message.Text(l, "{option}: given {given}; want {wanted}", "option", e.Option, "given", strconv.Quote(e.Given), "wanted", e.Wanted)
}

// wanted is what an option may be, as a message says it.
func wanted(id message.ID) message.Rows { return message.Rows{Items: []any{id}} }

// Pages are the finished pages.
type Pages struct {
	// Warnings name what could not be shown as given.
	Warnings []string
	// Title is what the pages are called.
	Title string
	// Count is the number of pages.
	Count int

	sheet *sheet
	data  []byte // of the PDF, once it is closed
}

// Write writes the pages of a job and its Study as PDF.
func Write(w io.Writer, job sizing.Job, s *sizing.Study, opts Options) error {
	pages, err := New(job, s, opts)
	if err != nil {
		return err
	}
	return pages.Write(w)
}

// New lays the pages out. The error is an *OptionError where the options ask
// for something that does not exist.
func New(job sizing.Job, s *sizing.Study, opts Options) (*Pages, error) {
	d, err := newDocument(job, s, opts)
	if err != nil {
		return nil, err
	}
	switch d.For {
	case Customer:
		d.title = d.say("Proposal")
		d.proposal()
	case WorkOrder:
		d.title = d.say("Work order")
		d.workOrder()
	case Working:
		d.title = d.say("Calculations")
		err = d.working()
	case FieldSheet:
		d.title = d.say("Field sheet")
		d.fieldSheet()
	default:
		return nil, &OptionError{"for", string(opts.For), wanted("customer, work-order, working or field-sheet")}
	}
	if err != nil {
		return nil, err
	}
	d.describe()
	warnings := slices.Concat(d.sheet.warnings(), d.priceWarning(), d.photoWarnings())
	return &Pages{Warnings: warnings, Title: d.title, Count: d.sheet.pdf.PageCount(), sheet: d.sheet}, d.sheet.pdf.Error()
}

// newDocument decides what the pages show.
func newDocument(job sizing.Job, s *sizing.Study, opts Options) (*document, error) {
	opts.For = cmp.Or(opts.For, Customer)
	opts.Paper = cmp.Or(opts.Paper, Letter)
	if opts.Paper != Letter && opts.Paper != A4 {
		return nil, &OptionError{"paper", string(opts.Paper), wanted("letter or a4")}
	}
	if opts.Ranges != nil {
		s = sizing.WithRanges(s, opts.Ranges)
	}
	work, err := planFor(job, s, opts.Proposed, opts.System)
	if err != nil {
		return nil, err
	}
	d := &document{Options: opts, job: job, study: s, plan: work, sheet: newSheet(opts.Paper)}
	d.sheet.locale = opts.System
	d.loadPhotos()
	return d, nil
}

// Write writes the PDF.
func (p *Pages) Write(w io.Writer) error {
	if p.data == nil {
		var out bytes.Buffer
		if err := p.sheet.pdf.Output(&out); err != nil {
			return err
		}
		p.data = out.Bytes()
	}
	_, err := w.Write(p.data)
	return err
}

// document is the pages in the making.
type document struct {
	Options
	job   sizing.Job
	study *sizing.Study
	plan  *plan
	sheet *sheet
	title string
	// pageOf is where each section begins, once all is laid out.
	pageOf map[string]int
	photos []shownPhoto
}

// houseName is the name of the house on the pages.
func (d *document) houseName() string {
	if name := strings.TrimSpace(d.study.Name); name != "" {
		return name
	}
	return d.say("House without a name")
}

// describe fills in the document properties.
func (d *document) describe() {
	pdf := d.sheet.pdf
	pdf.SetTitle(inLine(d.say("{paper}: {house}", "paper", d.title, "house", d.houseName())), true)
	pdf.SetSubject(d.sheet.clean(d.say("Return side of a forced-air system")), true)
	pdf.SetCreator("returnbench "+d.Version, true)
	pdf.SetProducer("returnbench "+d.Version, true)
	pdf.SetLang(cmp.Or(d.System.Language, "en"))
	// The library would read the clock for a date left open.
	date := time.Unix(0, 0).UTC()
	if t, err := time.Parse(time.DateOnly, d.Date); err == nil {
		date = t
	}
	pdf.SetCreationDate(date)
	pdf.SetModificationDate(date)
}

// inLine is a text for the document properties: viewers order right-to-left
// letters by themselves, so they stay as they were typed.
func inLine(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsControl(r) || unicode.IsSpace(r) || unicode.Is(unicode.Bidi_Control, r)
	}), " ")
}
