package form

import (
	"fmt"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/library"
	"returnbench/sizing/units"
)

// StockSizes are the fields of the sizes that a supplier has beside the listed ones,
// one after another; those of the library are copied into the job.
func StockSizes(b *Builder) {
	list := func(j *sizing.Job) *[]sizing.StockSize { return &j.StockSizes }
	b.Heading("Sizes in stock")
	for i := range b.Job().StockSizes {
		stockSize(b, i, list)
	}
	b.Buttons(
		Button{Label: "Add size", Action: func() {
			Append(b, "Add size", list, sizing.StockSize{Of: sizing.FilterSize}, "stock_sizes[%d].width")
		}},
		Button{Label: "All sizes from library", Action: func() {
			if l := b.form.library; l != nil {
				l.WithSizes(func(sizes []library.Size) {
					b.model().Apply(lang.T("Take the sizes of the library"), func(j *sizing.Job) { library.AddSizes(j, sizes) })
				})
			}
		}})
}

// StockShape names what decides the fields of the sizes in stock.
func StockShape(j *sizing.Job) string {
	shape := ""
	for _, s := range j.StockSizes {
		shape += fmt.Sprint(s.Of, hasDepth(s), " ")
	}
	return shape
}

// hasDepth tells of a filter; a depth left over from one has to be seen to be taken out.
func hasDepth(s sizing.StockSize) bool { return s.Of != sizing.GrilleSize || s.Depth != 0 }

func stockSize(b *Builder, i int, list func(*sizing.Job) *[]sizing.StockSize) {
	path := fmt.Sprintf("stock_sizes[%d]", i)
	at := func(j *sizing.Job) *sizing.StockSize { return item(list(j), i) }
	b.ListItem(path, "size")
	b.ListHeading("Size {number}", i, func() { removeAt(b, "Remove size", list, i) })
	Choice(b, path+".of", "Size of a", of(at, func(s *sizing.StockSize) *sizing.SizeUse { return &s.Of }), "",
		Item[sizing.SizeUse]{sizing.FilterSize, "filter"}, Item[sizing.SizeUse]{sizing.GrilleSize, "grille"})
	Quantity(b, path+".width", "Nominal width", of(at, func(s *sizing.StockSize) *units.Length { return &s.Width }))
	Quantity(b, path+".height", "Nominal height", of(at, func(s *sizing.StockSize) *units.Length { return &s.Height }))
	if now := at(b.Job()); now != nil && hasDepth(*now) {
		Quantity(b, path+".depth", "Nominal depth", of(at, func(s *sizing.StockSize) *units.Length { return &s.Depth }))
	}
}
