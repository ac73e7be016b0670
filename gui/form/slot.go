package form

import (
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// SlotAt finds a slot in a Job.
type SlotAt func(*sizing.Job) *sizing.Slot

// Slot adds all fields of a filter place at the equipment; open is what no
// filter named is called.
func Slot(b *Builder, path string, at SlotAt, open message.ID) {
	b.Check(path+".none", "No filter at the unit", of(at, func(s *sizing.Slot) *bool { return &s.None }))
	size := func(j *sizing.Job) Sides {
		if s := at(j); s != nil {
			return Sides{&s.Width, &s.Height, &s.Depth}
		}
		return Sides{}
	}
	b.Size(path+".", "Size, W x H x D", size, sizeNames(b, append(stock.Filters(), stock.Cabinets()...), false), false, "")
	b.Integer(path+".count", "Number of filters", "", of(at, func(s *sizing.Slot) *int { return &s.Count }), 1, 4)
	b.Check(path+".stacked", "Stacked one above the other", of(at, func(s *sizing.Slot) *bool { return &s.Stacked }))
	b.Check(path+".at_grilles", "Behind return grilles in the wall", of(at, func(s *sizing.Slot) *bool { return &s.AtGrilles }))
	FilterPlace(b, path+".filter", "Filter", of(at, func(s *sizing.Slot) *string { return &s.Filter }), size, open)
	slotLibraryButtons(b, at)
	b.Heading("Fit and sealing")
	Measured(b, path+".gap", "Gap round the frame", of(at, func(s *sizing.Slot) *units.Length { return &s.Gap }), "in", "mm", QuantityOptions{Hint: "sealed"})
	b.Advanced(path, func() {
		b.Integer(path+".gap_bends", "Bends in the gap", "", of(at, func(s *sizing.Slot) *int { return &s.GapBends }), 0, 4)
		Quantity(b, path+".edge_cover", "Edge over the frame", of(at, func(s *sizing.Slot) *units.Length { return &s.EdgeCover }))
		b.Number(path+".entry_coefficient", "Loss coefficient of entry and turn", of(at, func(s *sizing.Slot) *float64 { return &s.EntryCoefficient }), "none")
	})
}
