package job

// Uncertainty is how well the inputs are known, as relative standard
// deviations. One left out is the usual one; zero is exactly known.
type Uncertainty struct {
	Gauge       *float64 `json:"gauge,omitzero"`        // of a pressure or an airflow read
	BlowerTable *float64 `json:"blower_table,omitzero"` // of the airflow of a blower table
	Rating      *float64 `json:"rating,omitzero"`       // of a printed drop
	Geometry    *float64 `json:"geometry,omitzero"`     // of a drop worked out from ducts, fittings and grilles
	Assumed     *float64 `json:"assumed,omitzero"`      // of values that were neither typed nor measured
}

// Deviations are the relative standard deviations of the inputs, none left
// open.
type Deviations struct{ Gauge, BlowerTable, Rating, Geometry, Assumed float64 }

// UsualDeviations are used where a job states none: common practice, no source.
//
// That of the geometry is half of what has been found between calculation and
// measurement: friction charts are good to 15 % (White, Fluid Mechanics, from
// secondary text), and fittings set close together dropped 27 % more than the
// sum of each alone (ASHRAE research project 916, 1997, abstract). Flex that
// sags may drop several times as much; type how far it is compressed.
func UsualDeviations() Deviations {
	return Deviations{Gauge: 0.03, BlowerTable: 0.04, Rating: 0.05, Geometry: 0.15, Assumed: 0.25}
}

// Deviations are the job's own, with the usual ones where it leaves them open.
func (u Uncertainty) Deviations() Deviations {
	d := UsualDeviations()
	for _, x := range []struct {
		typed *float64
		into  *float64
	}{{u.Gauge, &d.Gauge}, {u.BlowerTable, &d.BlowerTable}, {u.Rating, &d.Rating}, {u.Geometry, &d.Geometry}, {u.Assumed, &d.Assumed}} {
		if x.typed != nil {
			*x.into = *x.typed
		}
	}
	return d
}
