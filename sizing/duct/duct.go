package duct

import (
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Shape of a duct run.
type Shape string

const (
	Round       Shape = "round"
	Flex        Shape = "flex"
	Rectangular Shape = "rectangular"
)

// Values are the words that a file may hold.
func (Shape) Values() []string {
	return []string{string(Round), string(Flex), string(Rectangular)}
}

// Show names the shape for a reader.
func (s Shape) Show(l units.Locale) string {
	if name, ok := map[Shape]message.ID{Round: "round", Flex: "flex", Rectangular: "rectangular"}[s]; ok {
		return message.Text(l, name)
	}
	return string(s)
}

// Run is one straight stretch of duct.
type Run struct {
	Shape    Shape        `json:"shape"`
	Diameter units.Length `json:"diameter,omitzero"` // round and flex
	Width    units.Length `json:"width,omitzero"`    // rectangular
	Height   units.Length `json:"height,omitzero"`   // rectangular
	Length   units.Length `json:"length"`            // straight, along the air
	// Compression is how much shorter than fully stretched a flex lies, as a share
	// of the stretched length: 0.04, 0.15, 0.30. Older files have 0 for one that is
	// fully stretched.
	Compression float64  `json:"compression,omitzero" field:"zero,share"`
	Material    Material `json:"material,omitzero"` // left open: galvanized, or flex liner
	// Roughness replaces the material's.
	Roughness units.Length `json:"roughness,omitzero"`
}

// Material names a wall whose roughness is published.
type Material string

const (
	Galvanized Material = "galvanized"
	Spiral     Material = "spiral"
	DuctBoard  Material = "duct_board"
	FacedLiner Material = "faced_liner"
	FlexLiner  Material = "flex_liner"
	Rough      Material = "rough"
)

// Values are the words that a file may hold.
func (Material) Values() []string {
	return []string{string(Galvanized), string(Spiral), string(DuctBoard), string(FacedLiner), string(FlexLiner), string(Rough)}
}

// Fitting is one or more equal fittings at one section of a branch.
type Fitting struct {
	Kind  FittingKind `json:"kind"`
	Count int         `json:"count,omitzero"` // left open: 1
	// Coefficient replaces the library's loss coefficient, on the velocity
	// pressure at the fitting's section.
	Coefficient float64 `json:"coefficient,omitzero"`
	RadiusRatio float64 `json:"radius_ratio,omitzero"`       // centreline radius / diameter (or width); of a bell mouth its edge radius / diameter
	Angle       float64 `json:"angle,omitzero" field:"zero"` // degrees, zero is an open damper; left open: by kind, 90 for elbows
	AreaRatio   float64 `json:"area_ratio,omitzero"`         // smaller area / larger area
	// Section whose velocity counts; left open: the first run of the branch.
	Diameter units.Length `json:"diameter,omitzero"`
	Width    units.Length `json:"width,omitzero"`
	Height   units.Length `json:"height,omitzero"`
}

// FittingKind names a row of the fitting library.
type FittingKind string

// Values are the words that a file may hold, in the order of the library.
func (FittingKind) Values() []string {
	out := make([]string, len(library))
	for i, row := range library {
		out[i] = string(row.Kind)
	}
	return out
}

// Grille is a return grille; sizes are nominal (the opening).
type Grille struct {
	Width  units.Length `json:"width"`
	Height units.Length `json:"height"`
	// FreeArea is net free area / gross area, 0 to 1; left open: by style.
	FreeArea float64     `json:"free_area,omitzero" field:"share"`
	Style    GrilleStyle `json:"style,omitzero"` // left open: stamped
	// Rating, where the maker prints one, replaces the free-area formula.
	Rating []GrilleRating `json:"rating,omitempty"`
}

// GrilleStyle names a kind of face.
type GrilleStyle string

const (
	Stamped    GrilleStyle = "stamped"
	Bar        GrilleStyle = "bar"
	Perforated GrilleStyle = "perforated"
)

// Values are the words that a file may hold.
func (GrilleStyle) Values() []string {
	return []string{string(Stamped), string(Bar), string(Perforated)}
}

// Show names the style for a reader.
func (s GrilleStyle) Show(l units.Locale) string {
	if name, ok := map[GrilleStyle]message.ID{Stamped: "stamped", Bar: "bar", Perforated: "perforated"}[s]; ok {
		return message.Text(l, name)
	}
	return string(s)
}

// GrilleRating is one printed point of a grille.
type GrilleRating struct {
	Airflow units.Flow     `json:"airflow"` // through the whole grille
	Drop    units.Pressure `json:"drop"`    // in standard air
}
