package blower

import "returnbench/sizing/units"

// Motor is the kind of blower motor, which decides how airflow and power change
// as static rises.
type Motor string

const (
	PSC             Motor = "psc"              // permanent split capacitor: airflow and watts fall
	ConstantTorque  Motor = "constant_torque"  // ECM: falls less, watts near level
	ConstantAirflow Motor = "constant_airflow" // ECM: holds its airflow, watts rise
)

// Values are the words that a file may hold.
func (Motor) Values() []string {
	out := make([]string, len(Motors()))
	for i, m := range Motors() {
		out[i] = string(m)
	}
	return out
}

// Table is a blower as its nameplate and its maker's table describe it.
type Table struct {
	Motor Motor `json:"motor,omitzero"`
	Taps  []Tap `json:"taps,omitempty"`
	// CoolingTap and HeatingTap name the taps in use, FanTap that of the blower
	// alone; left open: as in cooling.
	CoolingTap string `json:"cooling_tap,omitzero"`
	HeatingTap string `json:"heating_tap,omitzero"`
	FanTap     string `json:"fan_tap,omitzero"`
	// Includes are the parts with which the table was measured: their drop is
	// already in the table's airflow and does not count as external.
	Includes []Included `json:"includes,omitempty"`
}

// Included is a part whose drop the blower table already contains.
type Included string

const (
	IncludesWetCoil Included = "wet_coil"
	IncludesFilter  Included = "filter"
)

// Values are the words that a file may hold.
func (Included) Values() []string {
	return []string{string(IncludesWetCoil), string(IncludesFilter)}
}

// Tap is one speed setting.
type Tap struct {
	Name   string  `json:"name"`
	Points []Point `json:"points"`
}

// Point is one row of a blower table, for standard air.
type Point struct {
	ExternalStatic units.Pressure `json:"external_static"`
	Airflow        units.Flow     `json:"airflow"`        // at the static of the row
	Power          units.Power    `json:"power,omitzero"` // electric; left open: not printed
	Speed          units.Rotation `json:"speed,omitzero"` // of the wheel; left open: not printed
}
