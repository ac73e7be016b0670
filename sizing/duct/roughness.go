package duct

import (
	"fmt"

	"returnbench/sizing/units"
)

// MaterialInfo is one row of the table of wall roughness.
type MaterialInfo struct {
	Material  Material
	Title     string
	Roughness units.Length
	Source    string
}

const roughnessSource = "ASHRAE Handbook Fundamentals (2021, SI) ch. 21, duct roughness"

var materials = [...]MaterialInfo{
	{Galvanized, "galvanized steel", 0.09 * units.Millimetre, roughnessSource},
	{Spiral, "spiral galvanized steel", 0.12 * units.Millimetre, roughnessSource},
	{DuctBoard, "fibrous duct board", 0.9 * units.Millimetre, roughnessSource},
	{FacedLiner, "faced fibrous liner", 1.52 * units.Millimetre, roughnessSource},
	{FlexLiner, "flex, fully stretched", 0.9 * units.Millimetre, roughnessSource + ", range 0.09 to 0.9 mm"},
	{Rough, "rough", 3.0 * units.Millimetre, roughnessSource},
}

// Materials is the table of wall roughness.
func Materials() []MaterialInfo { return append([]MaterialInfo(nil), materials[:]...) }

// RoughnessOf is the wall roughness of the run and where it is from: what was
// typed, else the material's, else that of galvanized steel or flex liner. A
// material that the table lacks is taken as rough, and the source says so.
func (r Run) RoughnessOf() (roughness units.Length, source string) {
	if r.Roughness > 0 {
		return r.Roughness, "as entered"
	}
	m := r.Material
	if m == "" {
		m = Galvanized
		if r.Shape == Flex {
			m = FlexLiner
		}
	}
	for i := range materials {
		if materials[i].Material == m {
			return materials[i].Roughness, materials[i].Source
		}
	}
	return 3.0 * units.Millimetre, fmt.Sprintf("material %q is not in the table: taken as rough", m)
}
