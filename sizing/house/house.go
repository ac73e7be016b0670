package house

import (
	"returnbench/sizing/air"
	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

// House is a job made ready to solve: nothing open, every law compiled.
type House struct {
	*assume.CompleteJob
	CoolingAir    air.State // return air in cooling
	HeatingAir    air.State // return air in heating
	Air           air.Properties
	ratio         float64                   // density to that of blower tables
	Curves        map[TapSpeed]blower.Curve // of each tap, and of those made by the fan laws
	laws          map[lawKey]filter.Law
	lawCache      *LawCache   // across solves; nil: none
	TableIncludes airpath.Law // what the blower table already holds
	Gauge         gauge
	CoolingCoil   thermal.Coil      // as rated; of no use without cooling
	wetBulb       units.Temperature // of the air that enters it; zero: not found yet
	afterFilters  []airpath.Part    // unexplained loss, coil and supply
	bases         map[airpath.PartName]message.ID
	// adjustedTaps are the curves made by the fan laws, in the order of the options.
	adjustedTaps []TapSpeed
	// Today's branches without filters, and return sides as one tabulated law each, once made.
	todayBranches []airpath.Branch
	returnTables  []returnTable
	ductLaws      map[ductKey]airpath.Law
	dry           dryCoil
	lastPoints    []tapPoint // where each tap was last solved
	points        airpath.Memory
	Trial         *filter.Filter // a make being tried that is not in the job
}

// New makes a complete job ready to solve: air, blower curves, coil, and the law of
// each part, corrected by the first round of readings. memo may be nil. An error of
// a field is a job.FieldErrors.
func New(a *assume.CompleteJob, memo *LawCache) (*House, error) {
	h := &House{CompleteJob: a, lawCache: memo, Curves: map[TapSpeed]blower.Curve{}, laws: map[lawKey]filter.Law{}, ductLaws: map[ductKey]airpath.Law{}, bases: map[airpath.PartName]message.ID{}}
	var err error
	if h.CoolingAir, err = air.FromWetBulb(a.Site.Altitude, a.Site.IndoorDryBulb, a.Site.IndoorWetBulb); err != nil {
		return nil, job.FieldErrors{{Path: "site.indoor_wet_bulb", Given: a.Site.IndoorWetBulb.String(), Wanted: message.OfError(err)}}
	}
	if h.HeatingAir, err = air.New(a.Site.Altitude, a.Site.HeatingIndoor, assume.HeatingHumidity); err != nil {
		return nil, job.FieldErrors{{Path: "site.heating_indoor", Given: a.Site.HeatingIndoor.String(), Wanted: message.OfError(err)}}
	}
	h.Air = h.CoolingAir.Properties()
	h.ratio = float64(h.Air.Density) / float64(air.StandardDensity)
	for _, tap := range a.Equipment.Blower.Taps {
		if h.Curves[AtTableSpeed(tap.Name)], err = h.curve(tap); err != nil {
			return nil, job.FieldErrors{{Path: "equipment.blower.taps", Given: tap.Name, Wanted: message.OfError(err)}}
		}
	}
	if h.Equipment.Kind != job.Furnace {
		if h.CoolingCoil, err = h.coolingCoil(); err != nil {
			return nil, err
		}
	}
	if err := h.readTableIncludes(); err != nil {
		return nil, err
	}
	if err := h.readGauge(); err != nil {
		return nil, err
	}
	h.todayBranches = nil // compiled before the gauge corrected them
	h.compileAfterFilters()
	return h, nil
}

// AirResult is the return air in cooling, as the Study shows it.
func (h *House) AirResult() study.Air {
	return study.Air{
		Altitude: h.Site.Altitude, Pressure: h.CoolingAir.Pressure, Temperature: h.CoolingAir.Temperature,
		Density: h.Air.Density, DensityRatio: h.ratio,
	}
}

// HasCoil reports whether the air passes a coil with a drop of its own.
func (h *House) HasCoil() bool { return h.Coil.Drop > 0 }

// CoilIsInside reports whether the coil's drop is within the rated static.
func (h *House) CoilIsInside() bool {
	if h.Equipment.Kind == job.AirHandler {
		return true
	}
	for _, in := range h.Equipment.Blower.Includes {
		if in == blower.IncludesWetCoil {
			return true
		}
	}
	return false
}

// HoldsAirflow reports whether the blower's motor holds its airflow, so that a
// restriction raises static and watts in place of taking air away.
func (h *House) HoldsAirflow() bool { return h.Equipment.Blower.Motor == blower.ConstantAirflow }
