package library

import (
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Note describes an item in a few words, beside its name.
func (i Item) Note(l units.Locale) string {
	var parts []any
	add := func(ok bool, part any) {
		if ok {
			parts = append(parts, part)
		}
	}
	counted := func(n int, id message.ID) { add(n > 0, message.New(id, "count", n)) }
	exact := func(q units.Quantity) { add(q.SI() > 0, l.Mark(message.Exact(q))) }
	price := func(m units.Money) { add(m > 0, m) }
	size := func(w, h, d units.Length) {
		s := Size{Width: w, Height: h, Depth: d}.Nominal()
		add(w > 0, stock.Size{Width: w, Height: h, Depth: d, System: s.System})
	}
	switch i.Kind() {
	case Filters:
		f := i.Filter
		size(f.Width, f.Height, f.Depth)
		add(f.MERV > 0, message.New("MERV {merv}", "merv", f.MERV))
		counted(len(f.Rating), "{count} rating points")
		price(f.Price)
	case Blowers:
		b := i.Blower
		add(b.Plate.Maker != "" || b.Plate.Model != "", strings.TrimSpace(b.Plate.Maker+" "+b.Plate.Model))
		exact(b.Equipment.CoolingCapacity)
		exact(b.Equipment.HeatingOutput)
		add(true, message.New("{count} taps", "count", len(b.Equipment.Blower.Taps)))
	case Cabinets:
		c := i.Cabinet
		size(c.Width, c.Height, c.Depth)
		add(c.Count > 1, message.New("{count} filters", "count", c.Count))
		price(c.Price)
	case Grilles:
		size(i.Grille.Grille.Width, i.Grille.Grille.Height, 0)
		add(i.Grille.Grille.Style != "", i.Grille.Grille.Style)
		price(i.Grille.Price)
	case Sizes:
		add(true, i.Size.Of)
	case Prices:
		n := 0
		for _, m := range i.Prices.workPrices() {
			if *m > 0 {
				n++
			}
		}
		counted(n, "{count} prices of work")
		counted(len(i.Prices.Lines), "{count} lines")
	case Templates:
		exact(i.Template.Equipment.CoolingCapacity)
		counted(len(i.Template.Returns), "{count} returns")
		counted(len(i.Template.Options), "{count} options")
	}
	return message.Rows{Mark: ", ", Items: parts}.Show(l)
}
