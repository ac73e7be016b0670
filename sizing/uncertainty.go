package sizing

// Uncertainty says how well what went in is known, as relative standard
// deviations. One left out is the usual one; zero is exactly known.
type Uncertainty struct {
	Gauge       *float64 `json:"gauge,omitzero"`        // of a pressure or an airflow read
	BlowerTable *float64 `json:"blower_table,omitzero"` // of the airflow of a blower table
	Rating      *float64 `json:"rating,omitzero"`       // of a printed drop
	Assumed     *float64 `json:"assumed,omitzero"`      // of what nobody typed or measured
}

// Deviations are relative standard deviations of what went in, none left open.
type Deviations struct{ Gauge, BlowerTable, Rating, Assumed float64 }

// UsualDeviations stand where a job says nothing: common practice, no source.
func UsualDeviations() Deviations {
	return Deviations{Gauge: 0.03, BlowerTable: 0.04, Rating: 0.05, Assumed: 0.25}
}

// Deviations are those of the job, the usual ones where it leaves them open.
func (u Uncertainty) Deviations() Deviations {
	d := UsualDeviations()
	for _, x := range []struct {
		said *float64
		into *float64
	}{{u.Gauge, &d.Gauge}, {u.BlowerTable, &d.BlowerTable}, {u.Rating, &d.Rating}, {u.Assumed, &d.Assumed}} {
		if x.said != nil {
			*x.into = *x.said
		}
	}
	return d
}
