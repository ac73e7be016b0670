package house

import (
	"math"

	"returnbench/sizing/airpath"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

const curvePoints = 25

// SystemCurve samples the external static against airflow from zero to well
// past the operating point.
func (h *House) SystemCurve(sys airpath.System, flow units.Flow) ([]study.CurvePoint, error) {
	top := 1.5 * math.Max(float64(flow), float64(h.DesignAirflow))
	var flows [curvePoints]float64
	for i := range flows {
		flows[i] = top * float64(i) / (curvePoints - 1)
	}
	statics, err := sys.Statics(flows[:])
	if err != nil {
		return nil, err
	}
	out := make([]study.CurvePoint, curvePoints)
	for i, q := range flows {
		out[i] = study.CurvePoint{Airflow: units.Flow(q), Static: external(statics[i], q, h.TableIncludes)}
	}
	return out, nil
}
