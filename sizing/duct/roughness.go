package duct

import (
	"strconv"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// MaterialInfo is one row of the table of wall roughness.
type MaterialInfo struct {
	Material  Material
	Title     message.ID
	Roughness units.Length
	Source    message.ID
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

// Show is the title of the material; for a material that the table lacks, its
// own word.
func (m Material) Show(l units.Locale) string {
	for _, row := range materials {
		if row.Material == m {
			return message.Text(l, row.Title)
		}
	}
	return string(m)
}

// Materials is the table of wall roughness.
func Materials() []MaterialInfo { return append([]MaterialInfo(nil), materials[:]...) }

// RoughnessOf is the wall roughness of the run and where it is from: what was
// typed, else the material's, else that of galvanized steel or flex liner. A
// material that the table lacks is taken as rough, and the source states that.
func (r Run) RoughnessOf() (roughness units.Length, source message.Message) {
	if r.Roughness > 0 {
		return r.Roughness, message.New("as entered")
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
			return materials[i].Roughness, message.New(materials[i].Source)
		}
	}
	return 3.0 * units.Millimetre, message.New("material {material} is not in the table: taken as rough", "material", strconv.Quote(string(m)))
}
