package sizing

import (
	"math"

	"returnbench/sizing/units"
)

// AsFound is the house at the moment of the gauge, dirty filter and all. What
// was read in it stays as it was read, whatever filter is named or chosen later.
type AsFound struct {
	Label        string `json:"label,omitzero"`
	Date         string `json:"date,omitzero"`
	Mode         Mode   `json:"mode"`
	Tap          string `json:"tap"`
	AirflowBasis string `json:"airflow_basis"` // "measured", "blower table" or "temperature rise"
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

func (r *Reading) mode() Mode {
	if r.Mode == Heating {
		return Heating
	}
	return Cooling
}

// bothName names the part of a round that read return and filter together.
const bothName = "return and filter"

// asFound is the house as the round that the study rests on met it.
func (h *house) asFound() (*AsFound, error) {
	g := h.gauge
	if g.round == nil {
		return nil, nil
	}
	r := g.round
	f := &AsFound{Label: r.Label, Date: r.Date, Mode: r.mode(), Tap: h.readingTap(r), AirflowBasis: g.basis,
		FilterIsClean: r.FilterIsClean, Unexplained: g.unexplained}
	a, err := h.arrange(Option{Name: TodayName}, KindToday)
	if err != nil {
		return nil, err
	}
	sys, err := h.system(a)
	if err != nil {
		return nil, err
	}
	if f.Mode == Heating {
		sys, _, _ = h.dry(sys)
	}
	law, err := dropsAt(sys, float64(g.flow))
	if err != nil {
		return nil, err
	}
	h.foundParts(f, law, h.filterBasis(a))
	if f.CleanDrop = g.cleanDrop; g.filterScale > 0 {
		f.CleanDrop *= units.Pressure(g.filterScale)
	}
	f.DustDrop = max(g.cleanDrop*units.Pressure(g.foundScale)-g.cleanDrop, 0)
	return f, h.foundWork(f, a)
}

// foundParts are the drops and the ports as read; law tells those that were not.
func (h *house) foundParts(f *AsFound, law map[string]float64, filterBasis string) {
	p, c, rated := h.portsRead(h.gauge.round), &f.Condition, float64(h.Equipment.RatedExternalStatic)
	sum := 0.0
	part := func(name, basis string, drop float64) {
		sum += drop
		c.Parts = append(c.Parts, PartDrop{Name: name, Drop: units.Pressure(drop), Share: drop / rated, Basis: basis, Budget: h.budget(name)})
	}
	either := func(name, basis string, has bool, read, otherwise float64) {
		if has {
			basis, otherwise = "gauge", read
		}
		if otherwise > 0 {
			part(name, basis, otherwise)
		}
	}
	lost := float64(f.Unexplained)
	plenum := law["return"] + lost
	if p.hasReturn {
		plenum = p.returnPlenum
	}
	suction := p.blowerInlet
	if p.hasInlet && !p.hasReturn && !p.hasFD {
		part(bothName, "gauge", suction)
	} else {
		either("return", h.basis("returns"), p.hasReturn, plenum-lost, plenum-lost)
		either(unexplainedLoss, "gauge", true, lost, lost)
		if !h.Slot.None {
			either("filter", filterBasis, p.hasFD, p.filterDrop, law["filter"]+law["slot entry"])
		}
		suction = sum
	}
	coil := law["coil"]
	either("coil", h.basis("coil"), p.hasOutlet && p.hasSupply, p.blowerOutlet-p.supplyPlenum, coil)
	supply := law["supply"]
	if p.hasSupply {
		supply = p.supplyPlenum
	}
	either("supply", h.basis("supply"), p.hasSupply, supply, supply)
	for i := range c.Parts {
		if c.Parts[i].Name == "filter" {
			c.FilterDrop = c.Parts[i].Drop
		}
	}
	if h.Slot.None {
		c.FilterDrop = units.Pressure(p.filterDrop) // within the return
	}
	outlet := supply + coil
	if p.hasOutlet {
		outlet = p.blowerOutlet
	}
	c.ExternalStatic = units.Pressure(sum)
	if static := h.gauge.static; static > 0 {
		c.ExternalStatic, f.StaticRead = static, true
	}
	c.ReturnStatic = units.Pressure(-suction)
	c.Ports = []Port{{Name: PortReturn, Static: units.Pressure(-plenum)}, {Name: PortInlet, Static: c.ReturnStatic}, {Name: PortOutlet, Static: units.Pressure(outlet)}, {Name: PortSupply, Static: units.Pressure(supply)}}
}

// foundWork is what that airflow does: to the watts, the filter's face, the heat.
func (h *house) foundWork(f *AsFound, a *arrangement) error {
	r, c, q := h.gauge.round, &f.Condition, h.gauge.flow
	c.Airflow, c.Inside = q, h.gauge.inside
	c.AirflowPerCapacity = units.FlowPerCapacity(float64(q) / float64(h.Equipment.CoolingCapacity))
	if c.BlowerPower = r.BlowerPower; c.BlowerPower == 0 {
		c.BlowerPower, _ = h.curves[f.Tap].Power(c.ExternalStatic)
	}
	c.FanEfficacy = units.FanEfficacy(float64(c.BlowerPower) / float64(q))
	if face, _ := a.areas(); face > 0 && a.central() != nil {
		c.FaceVelocity = units.Speed(float64(q) / face)
	}
	if f.Mode == Heating {
		c.HeatingAirflow, c.HeatingStatic, c.HeatingPower = q, c.ExternalStatic, c.BlowerPower
		c.TemperatureRise = h.rise(c.BlowerPower, q)
		return nil
	}
	return h.cooling(c)
}

// WorkResult sets a round read after the work beside what was predicted for the
// option that was installed, and beside the house before.
type WorkResult struct {
	Label  string `json:"label"`
	Date   string `json:"date,omitzero"`
	Option string `json:"option"`
	// Reading is the place of the round among the Study's readings.
	Reading int `json:"reading"`
	// BeforeRead says that the house before is as the gauge found it; else it is
	// as worked out.
	BeforeRead bool      `json:"before_read"`
	Rows       []WorkRow `json:"rows"` // airflow, external static, filter drop, ports
}

// WorkRow is one number before the work, as predicted, and after it.
type WorkRow struct {
	Name      string         `json:"name"`
	Before    units.Quantity `json:"before,omitempty"` // nil: not known in that season
	Predicted units.Quantity `json:"predicted"`
	After     units.Quantity `json:"after,omitempty"`  // nil: not read
	Agrees    bool           `json:"agrees,omitempty"` // after and predicted
}

func (h *house) works(s *Study) []WorkResult {
	var out []WorkResult
	for i := range s.Readings {
		r := &s.Readings[i]
		if !r.AfterWork {
			continue
		}
		w := WorkResult{Label: r.Label, Date: r.Date, Option: r.Option, Reading: i}
		var before *Condition
		switch {
		case s.AsFound != nil && s.AsFound.Mode == r.Mode:
			before, w.BeforeRead = &s.AsFound.Condition, true
		case r.Mode == Cooling:
			before = &s.Today().Clean
		}
		w.Rows = workRows(r, before)
		out = append(out, w)
	}
	return out
}

func workRows(r *ReadingResult, before *Condition) []WorkRow {
	var rows []WorkRow
	add := func(name string, of func(*Condition) units.Quantity, after units.Quantity, agree bool) {
		row := WorkRow{Name: name, Predicted: of(&r.predicted), After: after, Agrees: agree}
		if before != nil {
			row.Before = of(before)
		}
		rows = append(rows, row)
	}
	flow := func(c *Condition) units.Quantity { return c.Airflow }
	if r.Airflow > 0 {
		off := math.Abs(float64(r.Airflow)/float64(r.PredictedAirflow) - 1)
		add("airflow", flow, r.Airflow, off < ReadingShare)
	} else {
		add("airflow", flow, nil, false)
	}
	pressure := func(name string, of func(*Condition) units.Quantity) {
		if read, is := first(r.Rows, func(row ReadingRow) bool { return row.Name == name }); is {
			add(name, of, read.Measured, read.Agrees)
			return
		}
		add(name, of, nil, false)
	}
	pressure("external static", func(c *Condition) units.Quantity { return c.ExternalStatic })
	pressure("filter drop", func(c *Condition) units.Quantity { return c.FilterDrop })
	for _, port := range r.predicted.Ports {
		pressure(port.Name, func(c *Condition) units.Quantity { return c.port(port.Name) })
	}
	return rows
}
