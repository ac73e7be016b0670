package study

import (
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// DuctSize is the duct that a branch's airflow needs: the smallest round, flex
// and rectangular size that keeps both limits of return ducts, velocity and
// friction.
type DuctSize struct {
	Branch  job.ReturnName `json:"branch"`
	Airflow units.Flow     `json:"airflow"` // m3/s, of the branch with clean filters

	Round DuctChoice `json:"round"`
	Flex  DuctChoice `json:"flex"`
	Rect  DuctChoice `json:"rectangular"`

	// Today's duct: its highest velocity, its highest drop per length, its drop
	// with its fittings, and the length of straight duct of its own sections
	// with the same drop.
	PresentVelocity  units.Speed        `json:"now"`
	PresentFriction  units.FrictionRate `json:"now_friction"`
	PresentDrop      units.Pressure     `json:"now_drop"`
	Length           units.Length       `json:"length"`
	EquivalentLength units.Length       `json:"equivalent_length"`
	Undersized       bool               `json:"undersized"`
}

// DuctChoice is one nominal duct for a branch, zero where no listed duct keeps
// the limits.
type DuctChoice struct {
	Diameter    units.Length       `json:"diameter,omitzero"`    // round and flex
	Width       units.Length       `json:"width,omitzero"`       // rectangular
	Height      units.Length       `json:"height,omitzero"`      // m, rectangular
	Compression float64            `json:"compression,omitzero"` // of a flex, as it will lie
	Velocity    units.Speed        `json:"velocity"`             // m/s, at the branch's airflow
	Friction    units.FrictionRate `json:"friction"`             // Pa/m, of straight duct
	// Drop is the drop of the branch's runs and fittings, all in this size, and
	// FittingsDrop the fittings' part of it.
	Drop         units.Pressure `json:"drop"`
	FittingsDrop units.Pressure `json:"fittings_drop"`
	// Length and Fittings are the branch's straight duct, and the number of its
	// fittings, that Drop is for.
	Length   units.Length `json:"length"`
	Fittings int          `json:"fittings"`
	// OverBudget is true where its drop is still over the usual share of a return in
	// the rated external static.
	OverBudget bool `json:"over,omitzero"`
	// GoverningLimit is the limit that sets the size: "velocity" or "friction".
	GoverningLimit string `json:"bound,omitzero"`

	Run duct.Run `json:"-"`
}

// Found reports whether a duct on the list keeps both limits.
func (c DuctChoice) Found() bool { return c.Run.Shape != "" }

// The limits that may decide a duct size.
const (
	ByVelocity = "velocity"
	ByFriction = "friction"
)
