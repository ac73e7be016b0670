package filter

import "returnbench/sizing/units"

// Filter is one make of filter as a person knows it: what is printed on it, or
// how it is made. Figures belong to the nominal size given; the same make in
// another face size keeps them by face velocity and by pleat pitch.
type Filter struct {
	Name   string       `json:"name"`            // by which a job refers to it
	Width  units.Length `json:"width,omitzero"`  // nominal, across the pleats
	Height units.Length `json:"height,omitzero"` // nominal, along the pleats
	Depth  units.Length `json:"depth,omitzero"`  // nominal, along the air
	// Actual size where printed; left open: nominal less 1/2 in. each way.
	ActualWidth  units.Length `json:"actual_width,omitzero"`
	ActualHeight units.Length `json:"actual_height,omitzero"`

	MERV int `json:"merv,omitzero"` // as printed, 1 to 16 by ASHRAE 52.2
	// Efficiency by the twelve size ranges of ASHRAE 52.2, 0 to 1, smallest
	// first; left open: typical of the MERV.
	Efficiency []float64 `json:"efficiency,omitempty" field:"share"`

	Rating   []RatingPoint `json:"rating,omitempty"`  // drops as printed
	Exponent float64       `json:"exponent,omitzero"` // of a one-point rating

	Pleats            int                   `json:"pleats,omitzero"`                        // in the width
	PleatDepth        units.Length          `json:"pleat_depth,omitzero"`                   // left open: the depth less its frame
	MediaThickness    units.Length          `json:"media_thickness,omitzero"`               // left open: usual
	FoldGap           units.Length          `json:"fold_gap,omitzero"`                      // between media at a fold; left open: usual
	MediaResistance   units.MediaResistance `json:"media_resistance,omitzero"`              // drop over the velocity through the media
	MediaPermeability units.Permeability    `json:"media_permeability,omitzero"`            // in place of the resistance
	MediaArea         units.Area            `json:"media_area,omitzero"`                    // as printed
	GridOpenShare     float64               `json:"grid_open_share,omitzero" field:"share"` // open share of the grid that supports the pack; left open: no grid

	Bracing      Bracing        `json:"bracing,omitzero"`       // of the pack against bowing
	FinalDrop    units.Pressure `json:"final_drop,omitzero"`    // at which it is changed, as printed
	DustCapacity units.Mass     `json:"dust_capacity,omitzero"` // dust that one filter of its own size holds
	Price        units.Money    `json:"price,omitzero"`         // of one
}

// RatingPoint is one printed point: an airflow through the nominal size, or a
// face velocity, and the clean drop there.
type RatingPoint struct {
	Airflow      units.Flow     `json:"airflow,omitzero"`       // through the nominal size
	FaceVelocity units.Speed    `json:"face_velocity,omitzero"` // in place of the airflow
	Drop         units.Pressure `json:"drop"`                   // clean, in standard air
}

// Bracing is how the pack is held against bowing.
type Bracing string

const (
	Unbraced   Bracing = "none"
	OneSide    Bracing = "one_side"
	BothSides  Bracing = "both_sides"
	WireBacked Bracing = "wire_backed"
	RigidBox   Bracing = "rigid_box"
)

// Values are the words that a file may hold.
func (Bracing) Values() []string {
	return []string{string(Unbraced), string(OneSide), string(BothSides), string(WireBacked), string(RigidBox)}
}
