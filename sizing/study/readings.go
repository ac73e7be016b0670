package study

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// AsFound is the house at the moment of the gauge readings, with its dirty
// filter. The readings in it stay as they were, whatever filter is named or
// chosen later.
type AsFound struct {
	Label        string     `json:"label,omitzero"`
	Date         string     `json:"date,omitzero"`
	Mode         job.Mode   `json:"mode"`
	Tap          string     `json:"tap"`
	AirflowBasis message.ID `json:"airflow_basis"` // "measured", "blower table" or "temperature rise"
	// StaticRead is true where the external static was read; else it is the sum
	// of the parts that were read and, for the others, of their laws.
	StaticRead bool `json:"static_read"`

	// Condition is the operating condition. Parts and ports that were not read
	// follow from their own laws at the airflow of the round; their Basis tells
	// which.
	Condition Condition `json:"condition"`
	// NotRead are the ports, and the filter drop, that were not read.
	NotRead []message.ID `json:"not_read,omitempty"`

	FilterIsClean bool `json:"filter_is_clean,omitzero"`
	// CleanDrop is the drop of today's filter, clean, at that airflow by its own
	// law, and DustDrop the drop read beyond it. Both are zero where the drop of
	// the filter alone was not read.
	CleanDrop units.Pressure `json:"clean_drop,omitzero"`
	DustDrop  units.Pressure `json:"dust_drop,omitzero"`
	// Unexplained is the drop of the return that was read beyond that of its
	// description.
	Unexplained units.Pressure `json:"unexplained,omitzero"`
}

// AfterWorkComparison compares a round read after the work with the prediction for the
// installed option, and with the house before.
type AfterWorkComparison struct {
	Label  string `json:"label"`
	Date   string `json:"date,omitzero"`
	Option string `json:"option"`
	// Reading is the place of the round among the Study's readings.
	Reading int `json:"reading"`
	// BeforeMeasured is true where the house before is as the gauge found it; else
	// it is as calculated.
	BeforeMeasured bool           `json:"before_read"`
	Rows           []AfterWorkRow `json:"rows"` // airflow, external static, filter drop, ports
}

// AfterWorkRow is one number before the work, as predicted, and after it.
type AfterWorkRow struct {
	Name      message.ID     `json:"name"`
	Before    units.Quantity `json:"before,omitempty"` // nil: not known in that season
	Predicted units.Quantity `json:"predicted"`        // for the installed option, filter clean
	After     units.Quantity `json:"after,omitempty"`  // nil: not read
	Agrees    bool           `json:"agrees,omitempty"` // after and predicted
	// What was not read though the numbers round it were.
	BeforeWorkedOut bool `json:"before_worked_out,omitzero"`
	AfterWorkedOut  bool `json:"after_worked_out,omitzero"`
}
