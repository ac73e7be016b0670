package library

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// A job gets a copy of an item; it keeps no reference to the library.

// AddFilter puts a copy of a filter into a job and returns its name there. The
// same filter is not added twice; a different one of the same name gets a
// number.
func AddFilter(j *sizing.Job, f filter.Filter) string {
	copied := (Item{Filter: &f}).copied().Filter
	taken := map[string]bool{}
	for _, have := range j.Filters {
		if reflect.DeepEqual(have, *copied) {
			return have.Name
		}
		taken[have.Name] = true
	}
	name := copied.Name
	for n := 2; taken[copied.Name]; n++ {
		copied.Name = fmt.Sprintf("%s %d", name, n)
	}
	j.Filters = append(j.Filters, *copied)
	return copied.Name
}

// Into puts the equipment and its blower into a job, in place of what is there.
// The serial number stays where maker and model are the same. Taps that the new
// table lacks are removed from the rest of the job.
func (b Blower) Into(j *sizing.Job) {
	copied := (Item{Blower: &b}).copied().Blower
	j.Equipment = copied.Equipment
	serial := j.Work.Plate.Serial
	if j.Work.Plate.Maker != copied.Plate.Maker || j.Work.Plate.Model != copied.Plate.Model {
		serial = ""
	}
	j.Work.Plate = copied.Plate
	j.Work.Plate.Serial = serial
	if copied.UnitWidth > 0 && copied.UnitHeight > 0 {
		j.Work.UnitWidth, j.Work.UnitHeight = copied.UnitWidth, copied.UnitHeight
	}
	has := func(tap string) bool {
		return slices.ContainsFunc(j.Equipment.Blower.Taps, func(t blower.Tap) bool { return t.Name == tap })
	}
	for i := range j.Options {
		if !has(j.Options[i].Tap) {
			j.Options[i].Tap = ""
		}
	}
	for i := range j.Readings {
		if !has(j.Readings[i].Tap) {
			j.Readings[i].Tap = ""
		}
	}
}

// Into makes a slot of the job this cabinet; the slot keeps its filter. The
// allowance of the casing goes into the job's limits, which have one for all
// places.
func (c Cabinet) Into(j *sizing.Job, slot *sizing.Slot) {
	made := c.Slot()
	made.Filter = slot.Filter
	*slot = made
	if c.CasingFace > 0 {
		j.Limits.CasingFace = c.CasingFace
	}
	if c.CasingDepth > 0 {
		j.Limits.CasingDepth = c.CasingDepth
	}
	if c.Price > 0 && j.Prices.Cabinet == 0 {
		j.Prices.Cabinet = c.Price
	}
}

// Into puts the grille into a return.
func (g Grille) Into(j *sizing.Job, r *sizing.Return) {
	r.Grille = *grilleCopy(g.Grille)
	if g.Price > 0 && j.Prices.Grille == 0 {
		j.Prices.Grille = g.Price
	}
}

func grilleCopy(g duct.Grille) *duct.Grille {
	g.Rating = slices.Clone(g.Rating)
	return &g
}

// Sizes are the nominal sizes that the items name: sizes themselves, and those of
// cabinets and grilles.
func (l *Library) Sizes() (out []Size) {
	for _, e := range l.Entries {
		switch e.Kind() {
		case Sizes:
			out = append(out, *e.Size)
		case Cabinets:
			out = append(out, Size{Of: FilterSize, Width: e.Cabinet.Width, Height: e.Cabinet.Height, Depth: e.Cabinet.Depth})
		case Grilles:
			if g := e.Grille.Grille; g.Width > 0 && g.Height > 0 {
				out = append(out, Size{Of: GrilleSize, Width: g.Width, Height: g.Height})
			}
		}
	}
	return out
}

// AddSizes puts copies of sizes among those that a job's search looks at, none twice
// and no more than a job may hold. Duct sizes are left out: there are too many to be
// listed.
func AddSizes(j *sizing.Job, sizes []Size) {
	most := sizing.MostItems(reflect.TypeFor[sizing.StockSize]())
	for _, s := range sizes {
		one := s.inStock()
		if s.Of != DuctSize && len(j.StockSizes) < most && !slices.Contains(j.StockSizes, one) {
			j.StockSizes = append(j.StockSizes, one)
		}
	}
}

// Into puts the prices of work that are known into a job.
func (p PriceList) Into(j *sizing.Job) {
	have := PriceList{Work: j.Prices}
	to, from := have.workPrices(), p.workPrices()
	for i, price := range from {
		if *price > 0 {
			*to[i] = *price
		}
	}
	j.Prices = have.Work
}

// workPrices are all prices of work, in one order.
func (p *PriceList) workPrices() []*units.Money {
	w := &p.Work
	return []*units.Money{&w.Cabinet, &w.Slot, &w.Grille, &w.Return, &w.Duct, &w.Visit}
}

// BlowerOf makes an item of a job's equipment; the serial number stays behind.
func BlowerOf(j *sizing.Job) Item {
	b := Blower{Plate: j.Work.Plate, UnitWidth: j.Work.UnitWidth, UnitHeight: j.Work.UnitHeight, Equipment: j.Equipment}
	b.Plate.Serial = ""
	b.Name = strings.TrimSpace(b.Plate.Maker + " " + b.Plate.Model)
	return (Item{Blower: &b}).copied()
}

// CabinetOf makes an item of a filter place of a job.
func CabinetOf(j *sizing.Job, s sizing.Slot) Item {
	c := Cabinet{
		Width: s.Width, Height: s.Height, Depth: s.Depth, Count: s.Count, Stacked: s.Stacked,
		EntryCoefficient: s.EntryCoefficient, Gap: s.Gap, GapBends: s.GapBends, EdgeCover: s.EdgeCover,
		CasingFace: j.Limits.CasingFace, CasingDepth: j.Limits.CasingDepth, Price: j.Prices.Cabinet,
	}
	if c.Width > 0 {
		c.Name = "Cabinet " + Size{Width: c.Width, Height: c.Height, Depth: c.Depth}.Nominal().String()
	}
	return Item{Cabinet: &c}
}

// GrilleOf makes an item of the grille of a return.
func GrilleOf(j *sizing.Job, r sizing.Return) Item {
	g := Grille{Grille: *grilleCopy(r.Grille), Price: j.Prices.Grille}
	if g.Grille.Width > 0 {
		g.Name = "Grille " + Size{Width: g.Grille.Width, Height: g.Grille.Height}.Nominal().String()
	}
	return Item{Grille: &g}
}

// FilterOf makes an item of a filter.
func FilterOf(f filter.Filter) Item { return (Item{Filter: &f}).copied() }

// PricesOf makes an item of the prices of a job; its lines are of no option.
func PricesOf(j *sizing.Job) Item {
	p := PriceList{Name: "Prices", Work: j.Prices}
	for _, line := range j.Quote.Lines {
		line.Option = ""
		if !slices.ContainsFunc(p.Lines, func(l quote.Line) bool { return l.Item == line.Item }) {
			p.Lines = append(p.Lines, line)
		}
	}
	return Item{Prices: &p}
}

// TemplateOf makes an item of a job, without the data of its own house:
// customer, readings, serial number, dates and numbers.
func TemplateOf(j *sizing.Job, name string) Item {
	t := Template(j)
	t.Name = name
	return Item{Template: &t}
}

// Template is a job without the data of its own house.
func Template(j *sizing.Job) sizing.Job {
	t := j.Clone()
	t.Schema = sizing.Schema
	t.Name, t.Notes, t.Readings = "", "", nil
	t.Customer = quote.Customer{}
	t.Work.JobNumber, t.Work.Date, t.Work.Plate.Serial = "", "", ""
	t.Quote.Number = ""
	return t
}

// AddLines puts the lines of a price list into the job's offer; a line whose text
// the offer has already is not added again.
func (p PriceList) AddLines(j *sizing.Job) {
	for _, line := range p.Lines {
		if !slices.ContainsFunc(j.Quote.Lines, func(l quote.Line) bool { return l.Item == line.Item }) {
			j.Quote.Lines = append(j.Quote.Lines, line)
		}
	}
}
