package airpath

import (
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// PartName names a part of the air path: one name in every room, file and page.
type PartName string

// The parts in the order of the air.
const (
	PartReturn      PartName = "return" // room to return plenum, without its filters
	PartUnexplained PartName = "unexplained loss"
	PartFilter      PartName = "filter"
	PartSlotEntry   PartName = "slot entry"
	PartCoil        PartName = "coil"
	PartSupply      PartName = "supply"
	// PartInTable is the drop that the blower table already includes: a credit,
	// and no part that could be changed.
	PartInTable PartName = "in the blower table"
	// PartReturnAndFilter is the drop that a gauge read over both together.
	PartReturnAndFilter PartName = "return and filter"
)

// The parts of a return branch, beside its filter.
const (
	PartGrille PartName = "grille"
	PartDuct   PartName = "duct"
)

var partNames = map[PartName]message.ID{
	PartReturn: "return", PartUnexplained: "unexplained loss", PartFilter: "filter", PartSlotEntry: "slot entry",
	PartCoil: "coil", PartSupply: "supply", PartInTable: "in the blower table", PartReturnAndFilter: "return and filter",
	PartGrille: "grille", PartDuct: "duct",
}

// Show names the part for a reader.
func (n PartName) Show(l units.Locale) string {
	if name, ok := partNames[n]; ok {
		return message.Text(l, name)
	}
	return string(n)
}

// Part is a named law.
type Part struct {
	Name PartName
	Law  Law
}
