package library

import (
	"strconv"
	"strings"
	"unicode"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Schema is the version of an item's file that this program writes.
const Schema = 1

// Kind is a kind of item.
type Kind string

// The kinds, by the names of their objects in a file.
const (
	Filters   Kind = "filter"
	Blowers   Kind = "blower"
	Cabinets  Kind = "cabinet"
	Grilles   Kind = "grille"
	Sizes     Kind = "size"
	Prices    Kind = "prices"
	Templates Kind = "template"
)

// Kinds are all kinds, in the order in which they are listed.
func Kinds() []Kind {
	return []Kind{Filters, Blowers, Cabinets, Grilles, Sizes, Prices, Templates}
}

// Folder is where the files of a kind are.
func (k Kind) Folder() string {
	if k == Prices {
		return string(k)
	}
	return string(k) + "s"
}

var titles = map[Kind]message.ID{
	Filters: "Filters", Blowers: "Blowers and equipment", Cabinets: "Cabinets", Grilles: "Grilles",
	Sizes: "Nominal sizes", Prices: "Prices", Templates: "Job templates",
}

// Title is the kind for a heading.
func (k Kind) Title() message.ID { return titles[k] }

var kindWords = map[Kind]message.ID{
	Filters: "filter", Blowers: "blower", Cabinets: "cabinet", Grilles: "grille",
	Sizes: "size", Prices: "prices", Templates: "template",
}

// Show is the kind in a sentence.
func (k Kind) Show(l units.Locale) string { return message.Text(l, kindWords[k]) }

// IsTable reports whether a table can hold the kind: all but templates, each of
// which is a whole job.
func (k Kind) IsTable() bool { return k != Templates }

// Item is what one file holds: one of its pointers, the others are nil. A
// template has a file of its own kind, that of a job.
type Item struct {
	Source string // where the figures are from

	Filter   *filter.Filter
	Blower   *Blower
	Cabinet  *Cabinet
	Grille   *Grille
	Size     *Size
	Prices   *PriceList
	Template *sizing.Job
}

// File is an item as its file has it: one of a filter, a blower, a cabinet, a
// grille, a size and prices. A template is a job's file.
type File struct {
	Schema int    `json:"schema"`
	Source string `json:"source,omitzero"` // where the figures are from

	Filter  *filter.Filter `json:"filter,omitzero"`
	Blower  *Blower        `json:"blower,omitzero"`
	Cabinet *Cabinet       `json:"cabinet,omitzero"`
	Grille  *Grille        `json:"grille,omitzero"`
	Size    *Size          `json:"size,omitzero"`
	Prices  *PriceList     `json:"prices,omitzero"`
}

// FileSchema gives the JSON Schema of the file of an item.
func FileSchema() ([]byte, error) {
	return itemFile.Schema(File{}, "returnbench library item", tableKinds()...)
}

func (d File) item() Item {
	return Item{Source: d.Source, Filter: d.Filter, Blower: d.Blower, Cabinet: d.Cabinet, Grille: d.Grille, Size: d.Size, Prices: d.Prices}
}

func (i Item) file() File {
	return File{Schema: Schema, Source: i.Source, Filter: i.Filter, Blower: i.Blower, Cabinet: i.Cabinet, Grille: i.Grille, Size: i.Size, Prices: i.Prices}
}

// Blower is equipment as its plate and its tables describe it, with the blower.
type Blower struct {
	Name       string           `json:"name"`
	Plate      quote.Plate      `json:"plate,omitzero"` // without the serial number, which is of one unit
	UnitWidth  units.Length     `json:"unit_width,omitzero"`
	UnitHeight units.Length     `json:"unit_height,omitzero"` // return opening, across the airflow
	Equipment  sizing.Equipment `json:"equipment"`
}

// Cabinet is a place for filters at the equipment.
type Cabinet struct {
	Name             string       `json:"name"`
	Width            units.Length `json:"width"`          // nominal, of one filter
	Height           units.Length `json:"height"`         // nominal, of one filter
	Depth            units.Length `json:"depth"`          // nominal, along the air
	Count            int          `json:"count,omitzero"` // filters in it; left open: 1
	Stacked          bool         `json:"stacked,omitzero"`
	EntryCoefficient float64      `json:"entry_coefficient,omitzero" field:"zero"` // loss coefficient of entry and turn, on the face velocity
	Gap              units.Length `json:"gap,omitzero" field:"zero"`
	GapBends         int          `json:"gap_bends,omitzero" field:"zero"`
	EdgeCover        units.Length `json:"edge_cover,omitzero"`
	CasingFace       units.Length `json:"casing_face,omitzero"` // how much larger it is than the filters' nominal faces, in width and in height
	CasingDepth      units.Length `json:"casing_depth,omitzero"`
	Price            units.Money  `json:"price,omitzero"` // installed
}

// Grille is a return grille, with its installed price.
type Grille struct {
	Name   string      `json:"name"`
	Grille duct.Grille `json:"grille"`
	Price  units.Money `json:"price,omitzero"`
}

// SizeUse is the kind of part that a nominal size belongs to.
type SizeUse string

// The kinds of part.
const (
	FilterSize SizeUse = "filter"
	GrilleSize SizeUse = "grille"
	DuctSize   SizeUse = "duct"
)

// Values are the words that a file may hold.
func (SizeUse) Values() []string {
	return []string{string(FilterSize), string(GrilleSize), string(DuctSize)}
}

var sizeUses = map[SizeUse]message.ID{FilterSize: "filter", GrilleSize: "grille", DuctSize: "duct"}

// Show names the kind of part in a sentence.
func (u SizeUse) Show(l units.Locale) string { return message.Text(l, sizeUses[u]) }

// Size is a nominal size that the firm's supplier has.
type Size struct {
	Of     SizeUse      `json:"of"`
	Width  units.Length `json:"width"`
	Height units.Length `json:"height"`
	Depth  units.Length `json:"depth,omitzero"` // of a filter
}

// Nominal is the size as lists have it. A side that is no sixteenth of an inch is
// metric.
func (s Size) Nominal() stock.Size { return s.inStock().Nominal() }

// inStock is the size as a job has it.
func (s Size) inStock() sizing.StockSize {
	return sizing.StockSize{Of: sizing.SizeUse(s.Of), Width: s.Width, Height: s.Height, Depth: s.Depth}
}

// PriceList is what work and parts cost.
type PriceList struct {
	Name  string            `json:"name"`
	Work  sizing.WorkPrices `json:"work_prices,omitzero"`
	Lines []quote.Line      `json:"lines,omitempty"` // for proposals
}

// Kind is the kind of the item; empty where it holds nothing.
func (i Item) Kind() Kind {
	switch {
	case i.Filter != nil:
		return Filters
	case i.Blower != nil:
		return Blowers
	case i.Cabinet != nil:
		return Cabinets
	case i.Grille != nil:
		return Grilles
	case i.Size != nil:
		return Sizes
	case i.Prices != nil:
		return Prices
	case i.Template != nil:
		return Templates
	}
	return ""
}

// Name is the item's name for a person. A size is named by its sides.
func (i Item) Name() string {
	switch i.Kind() {
	case Sizes:
		return i.Size.Nominal().String() + ", " + string(i.Size.Of)
	case "":
		return ""
	}
	return *i.name()
}

func (i Item) name() *string {
	switch i.Kind() {
	case Filters:
		return &i.Filter.Name
	case Blowers:
		return &i.Blower.Name
	case Cabinets:
		return &i.Cabinet.Name
	case Grilles:
		return &i.Grille.Name
	case Prices:
		return &i.Prices.Name
	case Templates:
		return &i.Template.Name
	}
	return nil
}

// Named is the item under another name; a size keeps its own.
func (i Item) Named(name string) Item {
	i = i.copied()
	if at := i.name(); at != nil {
		*at = name
	}
	return i
}

// Check finds what the engine would refuse of the item, by the fields of the
// file.
func (i Item) Check() sizing.FieldErrors {
	kind := i.Kind()
	if kind == "" {
		return sizing.FieldErrors{sizing.NewFieldError("(file)", nothing, fieldpath.OneOf(tableKinds()))}
	}
	if fault := i.alone(kind); fault != nil {
		return sizing.FieldErrors{fault}
	}
	if kind == Templates {
		return nil // a template is completed once it is opened
	}
	var faults sizing.FieldErrors
	if kind != Sizes {
		faults = append(faults, nameFaults(string(kind)+".name", i.Name())...)
	}
	for _, trial := range i.trials() {
		for _, f := range trial.job.Check() {
			if rest, ok := strings.CutPrefix(f.Path, trial.from); ok {
				faults = append(faults, f.At(trial.to+rest))
			}
		}
	}
	if i.Size != nil {
		faults = append(faults, i.Size.check()...)
	}
	return faults
}

// nothing is what a message shows where a field is left open.
const nothing message.ID = "nothing"

func tableKinds() []string {
	var words []string
	for _, k := range Kinds() {
		if k.IsTable() {
			words = append(words, string(k))
		}
	}
	return words
}

// alone refuses a file with two items: a person would see only one of them.
func (i Item) alone(kind Kind) *sizing.FieldError {
	n := 0
	for _, there := range []bool{i.Filter != nil, i.Blower != nil, i.Cabinet != nil, i.Grille != nil, i.Size != nil, i.Prices != nil} {
		if there {
			n++
		}
	}
	if n > 1 {
		return sizing.NewFieldError("(file)", message.New("{number} items, the first a {kind}", "number", n, "kind", kind), message.New("one item in a file"))
	}
	return nil
}

const mostLetters = 200

func nameFaults(path, name string) sizing.FieldErrors {
	switch n := len([]rune(name)); {
	case strings.TrimSpace(name) == "":
		return sizing.FieldErrors{sizing.NewFieldError(path, nothing, message.New("a name to find it by"))}
	case n > mostLetters:
		return sizing.FieldErrors{sizing.NewFieldError(path, message.New("{count} letters", "count", n), message.New("at most {most}", "most", mostLetters))}
	case strings.ContainsFunc(name, unicode.IsControl):
		return sizing.FieldErrors{sizing.NewFieldError(path, strconv.Quote(name), message.New("a name on one line"))}
	}
	return nil
}

// trial is a job that uses a part of the item, so that the engine's own check
// judges it, with the paths of the item's fields in that job.
type trial struct {
	job      sizing.Job
	from, to string
}

func (i Item) trials() []trial {
	empty := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1000 * units.CFM}
	job := empty
	switch i.Kind() {
	case Filters:
		job.Filters = []filter.Filter{*i.Filter}
		return []trial{{job, "filters[0].", "filter."}}
	case Blowers:
		job.Equipment, job.Work = i.Blower.Equipment, quote.Work{Plate: i.Blower.Plate, UnitWidth: i.Blower.UnitWidth, UnitHeight: i.Blower.UnitHeight}
		return []trial{{job, "equipment.", "blower.equipment."}, {job, "work.", "blower."}}
	case Cabinets:
		job.Slot = i.Cabinet.Slot()
		job.Limits = sizing.Limits{CasingFace: i.Cabinet.CasingFace, CasingDepth: i.Cabinet.CasingDepth}
		job.Prices.Cabinet = i.Cabinet.Price
		return []trial{{job, "slot.", "cabinet."}, {job, "limits.", "cabinet."}, {job, "work_prices.cabinet", "cabinet.price"}}
	case Grilles:
		job.Returns = []sizing.Return{{Name: "return", Grille: i.Grille.Grille}}
		job.Prices.Grille = i.Grille.Price
		return []trial{{job, "returns[0].grille.", "grille.grille."}, {job, "work_prices.grille", "grille.price"}}
	case Sizes:
		if i.Size.Of == FilterSize {
			job.Slot = sizing.Slot{Width: i.Size.Width, Height: i.Size.Height, Depth: i.Size.Depth}
			return []trial{{job, "slot.", "size."}}
		}
		job.Returns = []sizing.Return{{Name: "return", Grille: duct.Grille{Width: i.Size.Width, Height: i.Size.Height}}}
		return []trial{{job, "returns[0].grille.", "size."}}
	case Prices:
		job.Prices, job.Quote.Lines = i.Prices.Work, i.Prices.Lines
		return []trial{{job, "work_prices.", "prices.work_prices."}, {job, "quote.lines", "prices.lines"}}
	}
	return nil
}

// check finds fields of the size that are missing for its use.
func (s Size) check() (faults sizing.FieldErrors) {
	for _, side := range []struct {
		name string
		v    units.Length
		need bool
	}{{"width", s.Width, true}, {"height", s.Height, true}, {"depth", s.Depth, s.Of == FilterSize}} {
		switch {
		case side.need && side.v <= 0:
			faults = append(faults, sizing.NewFieldError("size."+side.name, side.v, message.New("a length over zero, such as {length}", "length", 20*units.Inch)))
		case side.name == "depth" && !side.need && side.v != 0:
			faults = append(faults, sizing.NewFieldError("size.depth", side.v, message.New("nothing: only a filter has a depth")))
		}
	}
	return faults
}

// Slot is the filter place that the cabinet makes, without a filter in it.
func (c Cabinet) Slot() sizing.Slot {
	return sizing.Slot{
		Width: c.Width, Height: c.Height, Depth: c.Depth, Count: c.Count, Stacked: c.Stacked,
		EntryCoefficient: c.EntryCoefficient, Gap: c.Gap, GapBends: c.GapBends, EdgeCover: c.EdgeCover,
	}
}

// copied shares nothing with the item.
func (i Item) copied() Item {
	switch i.Kind() {
	case Filters:
		j := sizing.Job{Filters: []filter.Filter{*i.Filter}}.Clone()
		i.Filter = &j.Filters[0]
	case Blowers:
		b := *i.Blower
		b.Equipment = sizing.Job{Equipment: b.Equipment}.Clone().Equipment
		i.Blower = &b
	case Cabinets:
		c := *i.Cabinet
		i.Cabinet = &c
	case Grilles:
		g := *i.Grille
		g.Grille = sizing.Job{Returns: []sizing.Return{{Grille: g.Grille}}}.Clone().Returns[0].Grille
		i.Grille = &g
	case Sizes:
		s := *i.Size
		i.Size = &s
	case Prices:
		p := *i.Prices
		p.Lines = append([]quote.Line(nil), p.Lines...)
		i.Prices = &p
	case Templates:
		j := i.Template.Clone()
		i.Template = &j
	}
	return i
}
