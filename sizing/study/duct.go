package study

import (
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// DuctSize is the duct that a branch's airflow wants: of each make the smallest
// nominal size that keeps both limits of return ducts, velocity and friction.
type DuctSize struct {
	Branch  job.ReturnName `json:"branch"`
	Airflow units.Flow     `json:"airflow"`

	Round DuctChoice `json:"round"`
	Flex  DuctChoice `json:"flex"`
	Rect  DuctChoice `json:"rectangular"`

	// Today's duct: its fastest and its steepest run, what it takes with its
	// fittings, and the straight duct of its own sections that takes as much.
	PresentVelocity  units.Speed        `json:"now"`
	PresentFriction  units.FrictionRate `json:"now_friction"`
	PresentDrop      units.Pressure     `json:"now_drop"`
	Length           units.Length       `json:"length"`
	EquivalentLength units.Length       `json:"equivalent_length"`
	Undersized       bool               `json:"undersized"`
}

// DuctChoice is one nominal duct for a branch, zero where none on the list does.
type DuctChoice struct {
	Diameter    units.Length       `json:"diameter,omitzero"` // round and flex
	Width       units.Length       `json:"width,omitzero"`    // rectangular
	Height      units.Length       `json:"height,omitzero"`
	Compression float64            `json:"compression,omitzero"` // of a flex, as it will lie
	Velocity    units.Speed        `json:"velocity"`
	Friction    units.FrictionRate `json:"friction"`
	// Drop is what the branch's runs and fittings take in this size throughout, and
	// FittingsDrop the fittings' part of it.
	Drop         units.Pressure `json:"drop"`
	FittingsDrop units.Pressure `json:"fittings_drop"`
	// Length and Fittings are what it was judged with: the branch's straight duct,
	// and how many of its fittings.
	Length   units.Length `json:"length"`
	Fittings int          `json:"fittings"`
	// OverBudget says that even so it takes more than a return usually may of the rated
	// external static.
	OverBudget bool `json:"over,omitzero"`
	// GoverningLimit is the limit that sets the size: "velocity" or "friction".
	GoverningLimit string `json:"bound,omitzero"`

	Run duct.Run `json:"-"`
}

// Found reports whether a duct on the list keeps both limits.
func (c DuctChoice) Found() bool { return c.Run.Shape != "" }

// Limits that a duct size may rest on.
const (
	ByVelocity = "velocity"
	ByFriction = "friction"
)
