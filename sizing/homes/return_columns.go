package homes

import (
	"fmt"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// returnColumns describe one return by its grille and its duct, in place of
// return_drop.
func returnColumns() []column {
	r := func(h *home) *duct.Run { return &h.run }
	return []column{
		size("return_grille", "returns[0].grille", "nominal size of the one return's grille, \"20x30\"; empty: a duct without a grille", func(h *home) *sizing.Slot { return &h.grille }),
		number("return_grille_free_area", "returns[0].grille.free_area", "share of its face that is open; empty: a usual one", func(h *home) *float64 { return &h.free }),
		oneOf("return_duct_shape", runPath+".shape", "of its duct; empty: rectangular where its sides are given, else round", func(h *home) *duct.Shape { return &r(h).Shape }),
		quantity("return_duct_diameter", runPath+".diameter", "of a round or flex duct", func(h *home) *units.Length { return &r(h).Diameter }),
		number("return_duct_compression", runPath+".compression", "of flex, the share by which it is shorter than fully stretched, such as 0.04; empty: fully stretched", func(h *home) *float64 { return &r(h).Compression }),
		quantity("return_duct_width", runPath+".width", "of a rectangular duct", func(h *home) *units.Length { return &r(h).Width }),
		quantity("return_duct_height", runPath+".height", "of a rectangular duct", func(h *home) *units.Length { return &r(h).Height }),
		quantity("return_duct_length", runPath+".length", "from the grille to the return plenum", func(h *home) *units.Length { return &r(h).Length }),
		whole("return_duct_elbows", "returns[0].fittings[0].count", "turns of 90 degrees: of five gores in a round duct, smooth in flex, on a radius in a rectangular duct; empty: none", 0, func(h *home) *int { return &h.elbows }),
	}
}

// elbowOf is the usual elbow of a duct.
var elbowOf = map[duct.Shape]duct.FittingKind{
	duct.Round: duct.ElbowFiveGore, duct.Flex: duct.ElbowSmooth, duct.Rectangular: duct.ElbowRectangular,
}

// builtReturn is the return that its columns describe.
func (h *home) builtReturn() sizing.Return {
	b := sizing.Return{Name: "return", Grille: duct.Grille{Width: h.grille.Width, Height: h.grille.Height, FreeArea: h.free}}
	run := h.run
	switch {
	case run.Shape != "" || run == (duct.Run{}):
	case run.Width > 0 || run.Height > 0:
		run.Shape = duct.Rectangular
	default:
		run.Shape = duct.Round
	}
	if run != (duct.Run{}) {
		b.Runs = []duct.Run{run}
	}
	if h.elbows > 0 {
		kind := elbowOf[run.Shape]
		if kind == "" {
			kind = duct.ElbowFiveGore
		}
		b.Fittings = []duct.Fitting{{Kind: kind, Count: h.elbows}}
	}
	return b
}

// points is a column that holds a blower's table of one tap.
func points(name, path string, text message.ID) column {
	return column{Column{name, message.New("points"), text}, path, nil, func(h *home, cell, _ string) error {
		tap := blower.Tap{Name: "as listed"}
		for part := range strings.SplitSeq(cell, ";") {
			if strings.TrimSpace(part) == "" {
				continue
			}
			p, err := onePoint(part)
			if err != nil {
				return err
			}
			tap.Points = append(tap.Points, p)
		}
		if len(tap.Points) < 2 {
			return fmt.Errorf("%q: want two points or more, parted by semicolons", cell)
		}
		h.Equipment.Blower.Taps = []blower.Tap{tap}
		return nil
	}}
}

func onePoint(text string) (blower.Point, error) {
	var p blower.Point
	parts := strings.Split(text, "@")
	if len(parts) < 2 || len(parts) > 3 {
		return p, fmt.Errorf("%q: want airflow @ external static, or airflow @ external static @ power, such as 1150 @ 0.5 @ 410", strings.TrimSpace(text))
	}
	flow, err := p.Airflow.Kind().Parse(parts[0], "cfm")
	if err != nil {
		return p, err
	}
	static, err := p.ExternalStatic.Kind().Parse(parts[1], "in. w.c.")
	if err != nil {
		return p, err
	}
	p.Airflow, p.ExternalStatic = units.Flow(flow), units.Pressure(static)
	if len(parts) == 3 {
		power, err := p.Power.Kind().Parse(parts[2], "W")
		if err != nil {
			return p, err
		}
		p.Power = units.Power(power)
	}
	return p, nil
}
