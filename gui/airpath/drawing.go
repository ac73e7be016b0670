package airpath

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Parts of an Airpath, as OnTapped names them. A single branch is BranchPart.
const (
	PartReturn = string(sizing.PartReturn)
	PartFilter = string(sizing.PartFilter)
	PartBlower = "blower"
	PartCoil   = string(sizing.PartCoil)
	PartSupply = string(sizing.PartSupply)
)

// BranchPart names the return branch at an index of the Study.
func BranchPart(i int) string { return fmt.Sprintf("return[%d]", i) }

// Drawing draws the way of the air from the rooms through grilles, ducts,
// return plenum, filter, blower and coil to the supply. Each part tells its
// drop and its share of the rated static, each test port the static there.
// Parts are clicked or reached with the tab key.
type Drawing struct {
	widget.BaseWidget

	// OnTapped is called with the part that was clicked or entered.
	OnTapped func(part string)

	study  *sizing.Study
	option *sizing.OptionResult
	loaded bool
	sys    units.Locale

	buttons map[string]*partButton
	order   []string
}

// New makes an empty drawing.
func New() *Drawing {
	a := &Drawing{buttons: map[string]*partButton{}}
	a.ExtendBaseWidget(a)
	return a
}

// Set shows one option of a Study, with its filter clean or at its change
// limit.
func (a *Drawing) Set(s *sizing.Study, option *sizing.OptionResult, loaded bool, sys units.Locale) {
	a.study, a.option, a.loaded, a.sys = s, option, loaded, sys
	a.Refresh()
}

// Parts are the parts now drawn, in the order of the air.
func (a *Drawing) Parts() []string { return append([]string(nil), a.order...) }

// PartArea is where a part is drawn and can be clicked.
func (a *Drawing) PartArea(part string) (fyne.Position, fyne.Size) {
	if s := a.buttons[part]; s != nil {
		return s.Position(), s.Size()
	}
	return fyne.Position{}, fyne.Size{}
}

// Part is what takes the keyboard for a part, nil where it is not drawn.
func (a *Drawing) Part(part string) fyne.Focusable {
	if s := a.buttons[part]; s != nil {
		return s
	}
	return nil
}

func (a *Drawing) condition() *sizing.Condition {
	if a.option == nil {
		return nil
	}
	if a.loaded && a.option.Kind != sizing.KindNoFilter {
		return &a.option.Loaded
	}
	return &a.option.Clean
}

func (a *Drawing) drop(name sizing.PartName) (sizing.PartDrop, bool) {
	for _, p := range a.condition().Parts {
		if p.Name == name {
			return p, true
		}
	}
	return sizing.PartDrop{}, false
}
