package library

import (
	"fmt"
	"strings"

	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Note says in a few words what an item is, beside its name.
func (i Item) Note() string {
	var parts []string
	add := func(ok bool, format string, args ...any) {
		if ok {
			parts = append(parts, fmt.Sprintf(format, args...))
		}
	}
	price := func(m units.Money) { add(m > 0, "%s", m.Show(units.IP)) }
	size := func(w, h, d units.Length) {
		s := Size{Width: w, Height: h, Depth: d}.Nominal()
		add(w > 0, "%s", stock.Size{Width: w, Height: h, Depth: d, System: s.System})
	}
	switch i.Kind() {
	case Filters:
		f := i.Filter
		size(f.Width, f.Height, f.Depth)
		add(f.MERV > 0, "MERV %d", f.MERV)
		add(len(f.Rating) > 0, "%s", counted(len(f.Rating), "rating point"))
		price(f.Price)
	case Blowers:
		b := i.Blower
		add(b.Plate.Maker != "" || b.Plate.Model != "", "%s", strings.TrimSpace(b.Plate.Maker+" "+b.Plate.Model))
		add(b.Equipment.CoolingCapacity > 0, "%s", b.Equipment.CoolingCapacity)
		add(b.Equipment.HeatingOutput > 0, "%s", b.Equipment.HeatingOutput)
		add(true, "%s", counted(len(b.Equipment.Blower.Taps), "tap"))
	case Cabinets:
		c := i.Cabinet
		size(c.Width, c.Height, c.Depth)
		add(c.Count > 1, "%d filters", c.Count)
		price(c.Price)
	case Grilles:
		size(i.Grille.Grille.Width, i.Grille.Grille.Height, 0)
		add(i.Grille.Grille.Style != "", "%s", i.Grille.Grille.Style)
		price(i.Grille.Price)
	case Sizes:
		add(true, "%s", i.Size.Of)
	case Prices:
		n := 0
		for _, m := range i.Prices.workPrices() {
			if *m > 0 {
				n++
			}
		}
		add(n > 0, "%s of work", counted(n, "price"))
		add(len(i.Prices.Lines) > 0, "%s", counted(len(i.Prices.Lines), "line"))
	case Templates:
		add(i.Template.Equipment.CoolingCapacity > 0, "%s", i.Template.Equipment.CoolingCapacity)
		add(len(i.Template.Returns) > 0, "%s", counted(len(i.Template.Returns), "return"))
		add(len(i.Template.Options) > 0, "%s", counted(len(i.Template.Options), "option"))
	}
	return strings.Join(parts, ", ")
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
