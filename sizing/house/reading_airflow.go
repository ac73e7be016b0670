package house

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// Measured is the basis of an airflow that was measured.
const Measured message.ID = "measured"

// ByTable is the basis of an airflow read off the blower's table.
const ByTable message.ID = "blower table"

// ReadingTap is the tap of a round: its own, else the tap of its season.
func (h *House) ReadingTap(r *job.Reading) string {
	switch {
	case r.Tap != "":
		return r.Tap
	case r.Mode == job.Heating:
		return h.Equipment.Blower.HeatingTap
	}
	return h.Equipment.Blower.CoolingTap
}

// FlowOf is the airflow of a round, with its external static (zero where that was
// not read): measured, or read off the blower's table at the measured external
// static, or computed from the temperature rise in heating. inside is false where
// it is outside the table or not known.
func (h *House) FlowOf(r *job.Reading) (q units.Flow, static units.Pressure, basis message.ID, inside bool) {
	static, hasStatic := h.external(h.PortsRead(r))
	if r.Airflow > 0 {
		return r.Airflow, static, Measured, true
	}
	if !hasStatic {
		q, known := h.FlowByRise(r)
		return q, 0, ByRise, known
	}
	tap, err := h.tapAtSpeed(h.ReadingTap(r), h.speedRatio(r.Option))
	curve, ok := h.Curves[tap]
	if err != nil || !ok {
		return 0, static, "", false
	}
	q, inside = curve.Airflow(static)
	return q, static, ByTable, inside
}

// ByRise is the basis of an airflow worked out from a temperature rise.
const ByRise message.ID = "temperature rise"

// TemperatureChange is the temperature rise read in heating, or the drop in cooling,
// K inside; false where one of the two was not read or the change has the wrong
// sign.
func TemperatureChange(r *job.Reading) (units.TemperatureDifference, bool) {
	if r.ReturnTemperature == 0 || r.SupplyTemperature == 0 {
		return 0, false
	}
	d := units.Rise(r.ReturnTemperature, r.SupplyTemperature)
	if r.Mode != job.Heating {
		d = -d
	}
	return d, d > 0
}

// FlowByRise is the airflow by the temperature rise read (thermal.AirflowForRise),
// with the heating output of the nameplate and the blower's power, as read or from
// its table; false where rise or output is not known.
func (h *House) FlowByRise(r *job.Reading) (units.Flow, bool) {
	rise, read := TemperatureChange(r)
	if !read || r.Mode != job.Heating || h.Equipment.HeatingOutput == 0 || h.Assumes("equipment.heating_output") {
		return 0, false
	}
	entering := h.HeatingAir
	entering.Temperature = r.ReturnTemperature
	flow := func(watts units.Power) units.Flow {
		return thermal.AirflowForRise(h.Delivered()+units.HeatRate(watts), rise, entering)
	}
	q := flow(r.BlowerPower)
	tap, err := h.tapAtSpeed(h.ReadingTap(r), h.speedRatio(r.Option))
	curve, ok := h.Curves[tap]
	if r.BlowerPower > 0 || err != nil || !ok {
		return q, true
	}
	// The watts are a few hundredths of the output, so this converges at once.
	for range riseRounds {
		static, _ := curve.Static(q)
		watts, _ := curve.Power(static)
		q = flow(watts)
	}
	return q, true
}

// riseRounds is the number of iterations between the airflow and the blower's power
// at it.
const riseRounds = 20
