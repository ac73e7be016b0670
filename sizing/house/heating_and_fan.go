package house

import (
	"returnbench/sizing/airpath"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// otherSeasons solves the heating tap, with the furnace's temperature rise, and
// the blower alone, each with the coil dry.
func (h *House) otherSeasons(a *Arrangement, sys airpath.System, cool airpath.Point, c *study.Condition) error {
	p, err := h.heating(a, sys, cool)
	if err != nil {
		return err
	}
	if !h.Equipment.NoHeating {
		c.HeatingAirflow, c.HeatingStatic, c.HeatingPower = units.Flow(p.Flow), p.External, p.Power
		c.TemperatureRise = h.Rise(c.HeatingPower, c.HeatingAirflow)
	}
	c.FanPower, err = h.fanAlone(a, sys, cool, p)
	return err
}

// heating is the operating point of the heating tap, with the coil dry; zero
// where nothing heats.
func (h *House) heating(a *Arrangement, sys airpath.System, cool airpath.Point) (operatingPoint, error) {
	if h.Equipment.NoHeating {
		return operatingPoint{}, nil
	}
	return h.dryPoint(a, sys, cool, a.heatingTap)
}

// fanAlone is the power of the blower with neither cooling nor heating, on its own
// tap and with a dry coil. Without such hours it has no effect, and is that of
// cooling.
func (h *House) fanAlone(a *Arrangement, sys airpath.System, cool airpath.Point, heating operatingPoint) (units.Power, error) {
	switch {
	case h.Site.FanHours == 0:
		return h.readTable(cool, a.Tap, h.TableIncludes).Power, nil
	case !h.Equipment.NoHeating && a.fanTap == a.heatingTap:
		return heating.Power, nil
	}
	p, err := h.dryPoint(a, sys, cool, a.fanTap)
	return p.Power, err
}

// dryPoint is the operating point of a tap with the coil dry.
func (h *House) dryPoint(a *Arrangement, sys airpath.System, cool airpath.Point, tap TapSpeed) (operatingPoint, error) {
	dry, offset, changed := h.DryCoil(sys)
	if !changed && tap == a.Tap {
		return h.readTable(cool, tap, offset), nil
	}
	return h.OperatingPoint(dry, tap, offset)
}
