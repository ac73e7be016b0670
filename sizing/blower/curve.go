package blower

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/interp"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Curve is one tap ready to solve: airflow falls, or stays, as static rises.
// Make one with NewCurve. A Curve is read-only and may be shared.
type Curve struct {
	flow  cubic // m3/s over Pa
	power cubic // W over Pa, empty when the table has no watts
	speed cubic // 1/s over Pa, empty when the table has no speeds
}

// PointError is the row of a tap's points that is wrong, and why.
type PointError struct {
	Row    int    // index into the points as given, from 0
	Field  string // of the point, by its name in a file: "airflow"
	Reason message.Message
	Want   message.Message
}

func (e *PointError) Error() string { return e.In(units.IP) }

// In writes the fault for a reader.
func (e *PointError) In(l units.Locale) string {
	return message.Text(l, "row {row}: {reason}; want {wanted}", "row", e.Row+1, "reason", e.Reason, "wanted", e.Want)
}

// ErrTooFewPoints is the fault of a tap that no line can be drawn through.
var ErrTooFewPoints = message.Errorf("a blower tap needs at least two points")

// NewCurve joins the points of one tap, in any order. Static must be zero or
// more and differ from row to row; airflow must not rise with static (equal
// airflows are a plateau, as a constant-airflow motor holds). Watts and speed
// may be missing from some rows or all. Every fault found is reported, each as
// a *PointError, joined.
func NewCurve(points []Point) (Curve, error) {
	rows, err := sortedRows(points)
	if err != nil {
		return Curve{}, err
	}
	return Curve{
		flow:  through(rows, func(p Point) float64 { return p.Airflow.SI() }, false),
		power: through(rows, func(p Point) float64 { return p.Power.SI() }, true),
		speed: through(rows, func(p Point) float64 { return p.Speed.SI() }, true),
	}, nil
}

// CheckPoints finds the faults that NewCurve would find.
func CheckPoints(points []Point) error {
	_, err := sortedRows(points)
	return err
}

// sortedRows are the points by their static, once they are found to make a curve.
func sortedRows(points []Point) ([]row, error) {
	if len(points) < 2 {
		return nil, message.Errorf("a blower tap needs at least two points, {given} given", "given", len(points), "cause", ErrTooFewPoints)
	}
	rows := make([]row, len(points))
	for i, p := range points {
		rows[i] = row{i, p}
	}
	if err := checkEach(rows); err != nil {
		return nil, err
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(a.ExternalStatic, b.ExternalStatic) })
	return rows, checkFall(rows)
}

// Curve joins the points of the tap; a fault carries the tap's name.
func (t Tap) Curve() (Curve, error) {
	c, err := NewCurve(t.Points)
	if err != nil {
		return Curve{}, message.Errorf("tap {tap}: {why}", "tap", strconv.Quote(t.Name), "why", err)
	}
	return c, nil
}

// row is a point that remembers where it was typed.
type row struct {
	index int
	Point
}

func checkEach(rows []row) error {
	var faults []error
	for _, r := range rows {
		if usable(r.ExternalStatic.SI()) && usable(r.Airflow.SI()) && usable(r.Power.SI()) && usable(r.Speed.SI()) {
			continue
		}
		for _, f := range []struct {
			name   string
			value  units.Quantity
			reason message.ID
		}{
			{"external_static", r.ExternalStatic, "external static is {given}"}, {"airflow", r.Airflow, "airflow is {given}"},
			{"power", r.Power, "power is {given}"}, {"speed", r.Speed, "speed is {given}"},
		} {
			if !usable(f.value.SI()) {
				faults = append(faults, &PointError{r.index, f.name, message.New(f.reason, "given", f.value), message.New("a number at or over zero")})
			}
		}
	}
	return errors.Join(faults...)
}

func usable(v float64) bool { return v >= 0 && !math.IsInf(v, 0) }

// checkFall wants rows sorted by static.
func checkFall(rows []row) error {
	var faults []error
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		switch {
		case a.ExternalStatic == b.ExternalStatic:
			faults = append(faults, &PointError{b.index, "external_static",
				message.New("external static {static} is also in row {row}", "static", b.ExternalStatic, "row", a.index+1),
				message.New("each static once")})
		case b.Airflow > a.Airflow:
			faults = append(faults, &PointError{b.index, "airflow",
				message.New("airflow rises from {airflow} at {static} (row {row}) to {more} at {higher}",
					"airflow", a.Airflow, "static", a.ExternalStatic, "row", a.index+1, "more", b.Airflow, "higher", b.ExternalStatic),
				message.New("airflow that falls or stays as static rises")})
		}
	}
	return errors.Join(faults...)
}

// through fits a cubic through one column of the sorted rows. With skipZero,
// rows without the figure are passed over, and fewer than two make no cubic.
func through(rows []row, column func(Point) float64, skipZero bool) cubic {
	xs, ys := make([]float64, 0, len(rows)), make([]float64, 0, len(rows))
	for _, r := range rows {
		if y := column(r.Point); y != 0 || !skipZero {
			xs, ys = append(xs, r.ExternalStatic.SI()), append(ys, y)
		}
	}
	if len(xs) < 2 {
		return cubic{}
	}
	return fitCubic(xs, ys)
}

// fitCubic takes the slopes of the monotone cubic from gonum.
func fitCubic(xs, ys []float64) cubic {
	var fb interp.FritschButland
	// Fit never fails: it panics where xs is not rising, which NewCurve rules out.
	_ = fb.Fit(xs, ys)
	ds := make([]float64, len(xs))
	for i, x := range xs {
		ds[i] = fb.PredictDerivative(x)
	}
	return cubic{x: xs, y: ys, d: ds}
}

// Airflow reads the table at an external static pressure, by the monotone cubic
// (see the package). Outside the table it gives the airflow at the nearer end
// and inside is false.
func (c Curve) Airflow(static units.Pressure) (q units.Flow, inside bool) {
	p := static.SI()
	return units.Flow(c.flow.at(p)), c.flow.covers(p)
}

// Static is the inverse of Airflow, read from the same curve: the external
// static pressure at which the tap moves q. On a plateau it is the highest
// static that still moves q. Outside the table it gives the static at the
// nearer end and inside is false.
func (c Curve) Static(q units.Flow) (p units.Pressure, inside bool) {
	x, inside := c.flow.inverse(q.SI())
	return units.Pressure(x), inside
}

// Power reads the watts at an external static pressure; outside the airflow
// table, those at its nearer end. known is false where the table gives no
// watts.
func (c Curve) Power(static units.Pressure) (p units.Power, known bool) {
	v, known := c.column(&c.power, static.SI())
	return units.Power(v), known
}

// Speed reads the wheel's speed at an external static pressure, as Power reads
// the watts.
func (c Curve) Speed(static units.Pressure) (n units.Rotation, known bool) {
	v, known := c.column(&c.speed, static.SI())
	return units.Rotation(v), known
}

// column reads watts or speed at a static held inside the airflow table.
func (c *Curve) column(k *cubic, p float64) (float64, bool) {
	p = min(max(p, c.flow.first()), c.flow.last())
	if !k.covers(p) {
		return 0, false
	}
	return k.at(p), true
}

// Range is the ends of the table as given: its lowest and highest static, and
// its lowest and highest airflow (which is at the lowest static).
func (c Curve) Range() (lowStatic, highStatic units.Pressure, lowFlow, highFlow units.Flow) {
	n := len(c.flow.x)
	if n == 0 {
		return 0, 0, 0, 0
	}
	return units.Pressure(c.flow.x[0]), units.Pressure(c.flow.x[n-1]),
		units.Flow(c.flow.y[n-1]), units.Flow(c.flow.y[0])
}

// LinearAirflow reads the table along straight lines between its points, the
// usual way to read one by hand; outside, the airflow at the nearer end.
func (c Curve) LinearAirflow(static units.Pressure) units.Flow {
	return units.Flow(c.flow.linear(static.SI()))
}

// ReadingSpread is the difference in airflow of the two ways to read the table
// at a static: |Airflow - LinearAirflow|.
func (c Curve) ReadingSpread(static units.Pressure) units.Flow {
	return units.Flow(math.Abs(c.flow.at(static.SI()) - c.flow.linear(static.SI())))
}

// BlendLinear is a curve between this one (share 0) and straight lines between
// its points (share 1), as a person reads a printed table. Both pass through
// the points and fall, so every curve between them does too.
func (c Curve) BlendLinear(share float64) Curve {
	c.flow.straight, c.power.straight, c.speed.straight = share, share, share
	return c
}

// Extended is the airflow in m3/s at a static in Pa for root finding: the table
// where it reaches, and OFF THE TABLE a straight line with the slope of its end:
// above it at least so steep that the blower moves nothing at twice the highest
// static, below it up to twice the highest airflow, so that a blower meets every
// system. Off the table it is only a guess, to find a bracket or the nearest
// point; a result there must be reported as off the table, by the value inside
// of Airflow. The continuation is this program's own.
func (c *Curve) Extended(static float64) float64 {
	k := &c.flow
	n := len(k.x)
	switch {
	case n == 0:
		return 0
	case static < k.x[0]:
		return min(2*k.y[0], k.y[0]+k.d[0]*(static-k.x[0]))
	case static > k.x[n-1]:
		fall := min(k.d[n-1], -k.y[n-1]/k.x[n-1])
		return max(0, k.y[n-1]+fall*(static-k.x[n-1]))
	}
	return k.at(static)
}

// Rows are the two rows of the table between which a static lies, as the curve is
// scaled to air and speed; false outside the table.
func (c Curve) Rows(static units.Pressure) (below, above Point, ok bool) {
	p, x, y := static.SI(), c.flow.x, c.flow.y
	for i := 1; i < len(x); i++ {
		if p >= x[i-1] && p <= x[i] {
			row := func(k int) Point {
				return Point{ExternalStatic: units.Pressure(x[k]), Airflow: units.Flow(y[k])}
			}
			return row(i - 1), row(i), true
		}
	}
	return Point{}, Point{}, false
}
