package assume

import (
	"returnbench/sizing/air"
	"returnbench/sizing/job"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// Loss of a furnace's output with altitude. Thin air has less oxygen, so the
// burner's input is reduced.
const (
	usualDerate  = 0.04 // for each 1000 ft
	derateBegins = 2000 * units.Foot
	derateSource = "fuel gas code, from secondary texts: 4 % for each 1000 ft (305 m) above sea level, at sites above 2000 ft (610 m); some read it as above 2000 ft, some sealed makes lose 2 %: type what the nameplate or its manual says"
)

// HeatingHumidity is the relative humidity of the return air in heating
// (common practice, no source).
const HeatingHumidity = 0.3

// IsFurnace reports whether the equipment is a furnace, which is derated with altitude.
func (a *CompleteJob) IsFurnace() bool { return a.Equipment.Kind != job.AirHandler }

// altitude derates the output of a furnace for its altitude.
func (a *CompleteJob) altitude() {
	e := &a.Equipment
	if !a.IsFurnace() || a.Site.Altitude <= derateBegins || e.HeatingOutputAt == job.OutputAtSite {
		e.AltitudeDerate = 0
		return
	}
	if e.HeatingOutputAt == "" {
		e.HeatingOutputAt = job.OutputAtSeaLevel
		a.Note("equipment.heating_output_at", derateSource, "the heating output is for sea level, not for {altitude}", "altitude", a.Site.Altitude)
	}
	if e.AltitudeDerate == 0 {
		e.AltitudeDerate = usualDerate
		a.Note("equipment.altitude_derate", derateSource, "the furnace gives 4 % less for each 1000 ft (305 m) of altitude: {output}", "output", a.Delivered())
	}
}

// Delivered is the heating output at the site:
//
//	output (1 - share z/1000 ft)
//
// of a furnace whose output was typed for sea level, W inside; a share left
// open is 4 % at sites above 2000 ft, else zero (fuel gas code, from secondary
// texts).
func (a *CompleteJob) Delivered() units.HeatRate {
	e := a.Equipment
	return e.HeatingOutput * units.HeatRate(1-e.AltitudeDerate*a.Site.Altitude.In(1000*units.Foot))
}

// heatingAirflow is, where left open, the airflow at the middle of
// the nameplate's range of temperature rise.
func (a *CompleteJob) heatingAirflow() {
	e := a.Equipment
	if e.NoHeating {
		a.HeatingAirflow = 0
		return
	}
	if a.HeatingAirflow != 0 {
		return
	}
	entering, err := air.New(a.Site.Altitude, a.Site.HeatingIndoor, HeatingHumidity)
	if err != nil {
		return // newHouse names the field
	}
	middle := (e.RiseLow + e.RiseHigh) / 2
	a.HeatingAirflow = thermal.AirflowForRise(a.Delivered(), middle, entering)
	a.Value("heating_airflow", "output and temperature rise range of the nameplate; the middle of the range is "+CommonPractice, a.HeatingAirflow,
		"heating airflow: {airflow}, which warms by {rise}, the middle of the range, at an output of {output}",
		"airflow", a.HeatingAirflow, "rise", middle, "output", a.Delivered())
}
