package study

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// AsFound is the house at the moment of the gauge, dirty filter and all. What
// was read in it stays as it was read, whatever filter is named or chosen later.
type AsFound struct {
	Label        string     `json:"label,omitzero"`
	Date         string     `json:"date,omitzero"`
	Mode         job.Mode   `json:"mode"`
	Tap          string     `json:"tap"`
	AirflowBasis message.ID `json:"airflow_basis"` // "measured", "blower table" or "temperature rise"
	// StaticRead says that the external static was read; else it is made up of
	// the parts that were, and of the laws of the others.
	StaticRead bool `json:"static_read"`

	// Condition is what the house did. Parts and ports that were not read go by
	// their own laws at the airflow of the round, as their Basis says.
	Condition Condition `json:"condition"`

	FilterIsClean bool `json:"filter_is_clean,omitzero"`
	// CleanDrop is what today's filter, clean, takes at that airflow by its own
	// law, and DustDrop what was read beyond it. Both are zero where the drop of
	// the filter alone was not read.
	CleanDrop units.Pressure `json:"clean_drop,omitzero"`
	DustDrop  units.Pressure `json:"dust_drop,omitzero"`
	// Unexplained is what the return took beyond its description.
	Unexplained units.Pressure `json:"unexplained,omitzero"`
}

// AfterWorkComparison sets a round read after the work beside what was predicted for the
// option that was installed, and beside the house before.
type AfterWorkComparison struct {
	Label  string `json:"label"`
	Date   string `json:"date,omitzero"`
	Option string `json:"option"`
	// Reading is the place of the round among the Study's readings.
	Reading int `json:"reading"`
	// BeforeMeasured says that the house before is as the gauge found it; else it is
	// as worked out.
	BeforeMeasured bool           `json:"before_read"`
	Rows           []AfterWorkRow `json:"rows"` // airflow, external static, filter drop, ports
}

// AfterWorkRow is one number before the work, as predicted, and after it.
type AfterWorkRow struct {
	Name      message.ID     `json:"name"`
	Before    units.Quantity `json:"before,omitempty"` // nil: not known in that season
	Predicted units.Quantity `json:"predicted"`
	After     units.Quantity `json:"after,omitempty"`  // nil: not read
	Agrees    bool           `json:"agrees,omitempty"` // after and predicted
}
