package sizing_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// houseMaker makes invented houses in which nothing is left for either solver
// to assume, but for a few that have no return described.
type houseMaker struct {
	*rand.Rand
	job  sizing.Job
	tons float64
	// A study shows one filter's curve an option: where there are filters in
	// grilles and a slot, none is known by its pleats alone.
	mixed bool
}

// randomHouse makes a house of the random numbers: furnace with coil, furnace
// or air handler; no to four returns of round, flex or rectangular duct, with
// filter grilles or a central slot; filters by rating, by make and generic.
func randomHouse(r *rand.Rand) sizing.Job {
	m := houseMaker{Rand: r, tons: float64(3+r.IntN(8)) / 2}
	m.job = sizing.Job{Schema: sizing.Schema, Name: "invented", Notes: "An invented house with invented equipment."}
	m.job.DesignAirflow = units.Flow(m.tons*m.between(350, 420)) * units.CFM
	m.job.HeatingAirflow = units.Flow(m.between(0.75, 1)) * m.job.DesignAirflow
	m.job.TargetFaceVelocity = units.Speed(m.between(200, 350)) * units.FPM
	m.equip()
	m.site()
	m.returnSide()
	if m.job.Slot.Width > 0 && m.IntN(4) == 0 {
		e := &m.job.Equipment.Blower
		e.Includes = append(e.Includes, blower.IncludesFilter)
	}
	m.job.Coil = sizing.Part{Drop: units.Pressure(m.between(0.12, 0.3)) * units.InchWater, Airflow: m.about(m.job.DesignAirflow), Exponent: m.between(1.6, 2)}
	m.job.Supply = sizing.Part{Drop: units.Pressure(m.between(0.05, 0.2)) * units.InchWater, Airflow: m.about(m.job.DesignAirflow), Exponent: m.between(1.8, 2)}
	if m.job.Equipment.Kind == sizing.Furnace {
		m.job.Coil = sizing.Part{}
	}
	if m.IntN(3) == 0 { // the usual exponents and airflow
		m.job.Coil.Exponent, m.job.Supply.Exponent, m.job.Supply.Airflow = 0, 0, 0
	}
	m.job.Limits = sizing.Limits{
		ChangeDrop:        units.Pressure(m.between(0.3, 0.9)) * units.InchWater,
		ChangeAirflowLoss: m.between(0.05, 0.2),
		ChangeMonths:      units.Duration(1+m.IntN(18)) * units.Month,
	}
	m.options()
	return m.job
}

func (m *houseMaker) between(low, high float64) float64 { return low + (high-low)*m.Float64() }

// about is a quantity within a fifth of one.
func (m *houseMaker) about(q units.Flow) units.Flow { return units.Flow(m.between(0.8, 1.2)) * q }

func pick[T any](m *houseMaker, of ...T) T { return of[m.IntN(len(of))] }

func (m *houseMaker) equip() {
	e := &m.job.Equipment
	e.Kind = pick(m, sizing.FurnaceWithCoil, sizing.FurnaceWithCoil, sizing.Furnace, sizing.AirHandler)
	e.CoolingCapacity = units.Capacity(m.tons) * units.Ton
	e.SensibleHeatRatio = m.between(0.7, 0.8)
	e.HeatingOutput = units.HeatRate(m.tons*m.between(12000, 22000)) * units.BtuPerHour
	e.RiseLow, e.RiseHigh = 25*units.FahrenheitDegree, 75*units.FahrenheitDegree
	e.RatedExternalStatic = 0.5 * units.InchWater
	e.CoilDryShare = m.between(0.7, 0.95)
	e.Blower.Motor = pick(m, blower.PSC, blower.ConstantTorque, blower.ConstantAirflow)
	for i := range 1 + m.IntN(4) {
		e.Blower.Taps = append(e.Blower.Taps, m.tap(fmt.Sprintf("tap %d", i+1), m.between(1.0, 1.15)-0.1*float64(i)))
	}
	e.Blower.CoolingTap = e.Blower.Taps[0].Name
	e.Blower.HeatingTap = e.Blower.Taps[m.IntN(len(e.Blower.Taps))].Name
	if m.IntN(2) == 0 {
		e.Blower.FanTap = e.Blower.Taps[m.IntN(len(e.Blower.Taps))].Name
		e.EER = m.between(8, 16)
	}
	if e.Kind != sizing.Furnace && m.IntN(4) == 0 {
		e.Blower.Includes = append(e.Blower.Includes, blower.IncludesWetCoil)
	}
}

// tap is a table that falls as its motor's does, of uneven spacing.
func (m *houseMaker) tap(name string, share float64) blower.Tap {
	tap := blower.Tap{Name: name}
	static := m.between(0.02, 0.1)
	watts := m.between(0.3, 0.5)
	for static < 1.6 {
		var fall, power float64
		switch m.job.Equipment.Blower.Motor {
		case blower.PSC:
			fall, power = 1.04-0.12*static-0.13*static*static, 1.1-0.3*static
		case blower.ConstantTorque:
			fall, power = 1.05-0.16*static-0.03*static*static, 0.9+0.15*static
		default:
			fall, power = 1.01-0.01*static-0.3*math.Pow(max(static-1, 0), 2), 0.6+0.8*static
		}
		flow := m.job.DesignAirflow * units.Flow(share*fall)
		tap.Points = append(tap.Points, blower.Point{
			ExternalStatic: units.Pressure(static) * units.InchWater, Airflow: flow,
			Power: units.Power(watts*power*share*share) * units.Power(m.job.DesignAirflow.In(units.CFM)) * units.Watt,
		})
		static += m.between(0.08, 0.25)
	}
	return tap
}

func (m *houseMaker) site() {
	s := &m.job.Site
	s.Altitude = units.Length(m.between(0, 2400))
	s.IndoorDryBulb, s.IndoorWetBulb = units.Fahrenheit(m.between(73, 79)), units.Fahrenheit(m.between(60, 65))
	if m.IntN(5) == 0 { // air so dry that the coil may stay so
		s.IndoorWetBulb = units.Fahrenheit(m.between(51, 57))
	}
	s.HeatingIndoor = units.Fahrenheit(m.between(66, 72))
	s.PowerPrice = units.EnergyPrice(m.between(0.1, 0.3)) * units.MoneyPerKilowattHour
	s.CoolingHours, s.HeatingHours = units.Duration(m.between(400, 2200))*units.Hour, units.Duration(m.between(400, 2200))*units.Hour
	if m.IntN(2) == 0 {
		s.FanHours = units.Duration(m.between(200, 2000)) * units.Hour
	}
	s.DiscountRate = 0.03
	s.Dust = pick(m, sizing.DustLow, sizing.DustOrdinary, sizing.DustPets)
	if m.IntN(4) == 0 {
		s.Dust, s.DustRate = "", units.MassRate(m.between(0.5, 3))*units.GramPerDay
	}
}

// returnSide gives the house its returns and filters.
func (m *houseMaker) returnSide() {
	n := m.IntN(5)
	grilles := n > 0 && m.IntN(3) == 0
	slot := !grilles || m.IntN(5) == 0
	m.mixed = grilles && slot
	if slot {
		depth := pick(m, 1, 2, 4, 5)
		m.job.Slot = m.slot(depth)
		m.job.Slot.Filter = m.addFilter("central", m.job.Slot.Width, depth)
	} else {
		m.job.Slot.None = true
	}
	// How many pleats another width holds is a whole number, and its maker's
	// choice: all filter grilles have one width.
	width := units.Length(16+2*m.IntN(4)) * units.Inch
	for i := range n {
		r := m.branch(fmt.Sprintf("room %d", i+1), 1/float64(n))
		if grilles && (i == 0 || m.IntN(3) > 0) {
			if i == 0 {
				m.addFilter("grille", width, pick(m, 1, 2, 4))
			}
			r.Filter, r.Grille.Width = "grille", width
		}
		m.job.Returns = append(m.job.Returns, r)
	}
}

// slot is a central place of a nominal size that suits the airflow.
func (m *houseMaker) slot(depth int) sizing.Slot {
	face := m.job.DesignAirflow.In(units.CFM) / m.between(250, 480) * 144
	height := pick(m, 20.0, 24, 25)
	s := sizing.Slot{}
	if m.IntN(4) == 0 {
		s.Count, s.Stacked, face = 2, m.IntN(2) == 0, face/2
	}
	s = sizing.Slot{
		Count: s.Count, Stacked: s.Stacked,
		Width: units.Length(math.Round(face/height)) * units.Inch, Height: units.Length(height) * units.Inch,
		Depth: units.Length(depth) * units.Inch, EdgeCover: units.Length(m.between(1, 18)) * units.Millimetre,
	}
	if m.IntN(3) > 0 {
		s.Gap, s.GapBends = units.Length(m.between(0.4, 2.5))*units.Millimetre, m.IntN(4)
	}
	if m.IntN(3) == 0 {
		s.EntryCoefficient = m.between(0.3, 2.5)
	}
	return s
}

// addFilter adds a filter to the job's list: by its rating, one point of it, its
// make, or generic.
func (m *houseMaker) addFilter(name string, width units.Length, depth int) string {
	name = fmt.Sprintf("%s %d", name, len(m.job.Filters))
	if name == "grille 0" || name == "grille 1" {
		name = "grille"
	}
	f := filter.Filter{
		Name: name, Width: width, Height: pick(m, 20*units.Inch, 25*units.Inch),
		Depth: units.Length(depth) * units.Inch, MERV: 5 + m.IntN(9), Price: units.Money(5+m.IntN(40)) * units.Dollar,
		Bracing:      pick(m, filter.Unbraced, filter.OneSide, filter.BothSides, filter.WireBacked, filter.RigidBox),
		DustCapacity: units.Mass(float64(depth)*m.between(40, 90)) * units.Gram,
		MediaArea:    units.Area(m.between(1.8, 2.5)*20*25*(0.6+1.4*float64(depth))) * units.SquareInch,
		FinalDrop:    units.Pressure(m.between(1.1, 1.6)) * units.InchWater,
	}
	clean := m.between(0.1, 0.3) / math.Sqrt(float64(depth))
	point := func(fpm, share float64) filter.RatingPoint {
		return filter.RatingPoint{FaceVelocity: units.Speed(fpm) * units.FPM, Drop: units.Pressure(clean*share) * units.InchWater}
	}
	switch m.IntN(5) {
	case 0:
		f.Rating = []filter.RatingPoint{point(295, 1), point(492, m.between(1.8, 2.6))}
	case 1: // of a size, by airflow
		f.Rating = []filter.RatingPoint{point(150, m.between(0.42, 0.48)), point(300, 1), point(450, m.between(1.6, 1.75))}
		for i, p := range f.Rating {
			f.Rating[i] = filter.RatingPoint{Airflow: units.Flow(p.FaceVelocity.SI() * (f.Width * f.Height).SI()), Drop: p.Drop}
		}
	case 2:
		f.Rating = []filter.RatingPoint{point(300, 1)}
		f.Exponent = pick(m, 0, m.between(1.05, 1.6))
	case 3:
		if m.mixed {
			f.Rating = []filter.RatingPoint{point(300, 1), point(400, 1.5)}
			break
		}
		f.Pleats, f.PleatDepth = pick(m, 14, 18, 24, 30), units.Length(float64(depth)*22)*units.Millimetre
		f.MediaThickness, f.FoldGap = units.Length(m.between(0.5, 0.9))*units.Millimetre, units.Length(m.between(1.2, 1.8))*units.Millimetre
		f.MediaResistance = units.MediaResistance(m.between(30, 60) * math.Sqrt(float64(depth)))
		f.MediaArea = 0
	default: // an area printed would count as its make
		f.MediaArea = 0
		f.MERV = map[int]int{1: pick(m, 4, 8, 11, 13), 2: pick(m, 8, 13), 4: pick(m, 8, 11, 13), 5: pick(m, 11, 16)}[depth]
	}
	m.job.Filters = append(m.job.Filters, f)
	return name
}

// branch is a return that carries its share of the air.
func (m *houseMaker) branch(name string, share float64) sizing.Return {
	cfm := m.job.DesignAirflow.In(units.CFM) * share * m.between(0.7, 1.3)
	height := pick(m, 14.0, 18, 20, 24)
	r := sizing.Return{Name: name, Grille: duct.Grille{
		Width: units.Length(math.Round(max(cfm/m.between(250, 480)*144/height, 6))) * units.Inch, Height: units.Length(height) * units.Inch,
		Style: pick(m, duct.Stamped, duct.Bar),
	}}
	if m.IntN(3) == 0 {
		r.Grille.Style, r.Grille.FreeArea = duct.Perforated, m.between(0.4, 0.8)
	}
	for range 1 + m.IntN(2) {
		r.Runs = append(r.Runs, m.run(cfm))
	}
	if m.IntN(4) > 0 { // a duct begins and ends somewhere, said or not
		r.Fittings = []duct.Fitting{{Kind: pick(m, duct.BootStraight, duct.BootSide)}}
	}
	for range m.IntN(3) {
		r.Fittings = append(r.Fittings, m.fitting())
	}
	if m.IntN(4) > 0 {
		r.Fittings = append(r.Fittings, duct.Fitting{Kind: pick(m, duct.DischargeIntoPlenum, duct.CabinetTurn)})
	} else if m.IntN(4) == 0 {
		r.Ends = sizing.NoEnds
	}
	return r
}

func (m *houseMaker) run(cfm float64) duct.Run {
	area := cfm / m.between(450, 850) * 144 // in2
	r := duct.Run{Length: units.Length(m.between(4, 30)) * units.Foot}
	diameter := units.Length(math.Ceil(math.Sqrt(4*area/math.Pi))) * units.Inch
	switch m.IntN(3) {
	case 0:
		r.Shape, r.Diameter, r.Material = duct.Round, diameter, pick(m, duct.Galvanized, duct.Spiral, duct.DuctBoard)
	case 1:
		r.Shape, r.Diameter, r.Compression = duct.Flex, diameter, m.between(0, 0.15)
	default:
		height := pick(m, 8.0, 10)
		r.Shape, r.Width, r.Height = duct.Rectangular, units.Length(math.Ceil(max(area/height, 5)))*units.Inch, units.Length(height)*units.Inch
		r.Material = pick(m, duct.Galvanized, duct.FacedLiner)
	}
	return r
}

func (m *houseMaker) fitting() duct.Fitting {
	f := duct.Fitting{Kind: pick(m, duct.ElbowFiveGore, duct.TeeBranch, duct.PlenumTakeoff), Coefficient: m.between(0.1, 1.2), Count: m.IntN(3)}
	switch m.IntN(4) {
	case 0:
		f.Diameter = units.Length(12+m.IntN(6)) * units.Inch
	case 1:
		f = duct.Fitting{Kind: duct.AbruptExpansion, AreaRatio: m.between(0.3, 0.8)}
	case 2:
		f.Width, f.Height = units.Length(12+m.IntN(8))*units.Inch, 10*units.Inch
	}
	return f
}

// options proposes another filter or slot, a tap, a speed or more returns.
func (m *houseMaker) options() {
	if m.job.Slot.Width > 0 && m.IntN(2) == 0 {
		depth := pick(m, 2, 4, 5)
		slot := m.slot(depth)
		slot.Filter = m.addFilter("deeper", slot.Width, depth)
		m.job.Options = append(m.job.Options, sizing.Option{Name: "cabinet", Slot: slot})
	}
	taps := m.job.Equipment.Blower.Taps
	switch m.IntN(4) {
	case 0:
		m.job.Options = append(m.job.Options, sizing.Option{Name: "tap", Tap: taps[len(taps)-1].Name})
	case 1:
		if m.job.Equipment.Blower.Motor == blower.PSC {
			m.job.Options = append(m.job.Options, sizing.Option{Name: "speed", SpeedRatio: m.between(0.93, 1.07)})
		}
	case 2:
		if len(m.job.Returns) > 0 {
			more := append([]sizing.Return{}, m.job.Returns...)
			m.job.Options = append(m.job.Options, sizing.Option{Name: "one more return", Returns: append(more, m.branch("added", 0.3))})
		}
	}
}
