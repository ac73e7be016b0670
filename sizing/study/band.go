package study

// Band is the low and the high end of an uncertain curve: the true curve lies
// between them in nine cases of ten, by the uncertainty of the inputs.
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
