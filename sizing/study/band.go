package study

// Band is a curve moved to either end of what is known of it. Between the two
// lie nine tenths of the curves that what went in allows.
type Band struct {
	// Deviation is the relative standard deviation: of the airflow of a blower's
	// curve, of the static of a system's.
	Deviation float64      `json:"deviation"`
	Low       []CurvePoint `json:"low,omitempty"`
	High      []CurvePoint `json:"high,omitempty"`
}

// Bands are how well the two curves that cross at the operating point are known.
type Bands struct {
	Blower Band `json:"blower"` // of the cooling tap
	System Band `json:"system"` // of today's house, filter clean
}
