package filter

import (
	"math"
	"sync"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/root"
	"returnbench/sizing/units"
)

// Push is the force of the air on a face, N inside: drop times area.
func Push(drop units.Pressure, face units.Area) units.Force {
	return units.Force(float64(drop) * float64(face)) // Pa m2 = N
}

// plateTerms is how many odd terms each way the double series of PlateBow
// keeps: the terms fall as the sixth power.
const plateTerms = 11

// PlateBow is alpha of w = alpha q a^4/D: the middle of a thin rectangular plate
// with simply supported edges under even pressure q, short side a, long side
// b = ratio a (Navier's double series):
//
//	alpha = 16/pi^6 sum over odd m, n of sin(m pi/2) sin(n pi/2)/(m n (m^2 + n^2/ratio^2)^2)
//
// Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, table 8
// (from memory). Range: ratio 1 and over; a ratio under 1 is turned round.
func PlateBow(ratio float64) float64 {
	if ratio < 1 {
		ratio = 1 / ratio
	}
	sum := 0.0
	for m := 0; m < plateTerms; m++ {
		// A long plate needs more terms along its length.
		for n := 0; n < plateTerms*int(math.Ceil(ratio)); n++ {
			i, j := float64(2*m+1), float64(2*n+1)
			d := i*i + j*j/(ratio*ratio)
			sign := float64(1 - 2*((m+n)%2))
			sum += sign / (i * j * d * d)
		}
	}
	return 16 / math.Pow(math.Pi, 6) * sum
}

// bowsKnown keeps PlateBow for the side ratios used so far: a series of hundreds
// of terms, and nominal sizes have few ratios.
var bowsKnown = struct {
	sync.RWMutex
	of map[float64]float64
}{of: map[float64]float64{}}

// mostBowsKnown bounds what is kept.
const mostBowsKnown = 1000

func knownPlateBow(ratio float64) float64 {
	bowsKnown.RLock()
	bow, known := bowsKnown.of[ratio]
	bowsKnown.RUnlock()
	if known {
		return bow
	}
	bow = PlateBow(ratio)
	bowsKnown.Lock()
	if len(bowsKnown.of) < mostBowsKnown {
		bowsKnown.of[ratio] = bow
	}
	bowsKnown.Unlock()
	return bow
}

// HeldPlateBow is the bow of a plate whose edges cannot draw in, so that it
// stretches as it bows:
//
//	w (1 + 1.5 (w/t)^2) = alpha q a^4/D
//
// t the thickness, linear the right side, all in m. Berger's approximation
// (1955, J. Appl. Mech. 22), which drops the second invariant of the membrane
// strain and holds for any side ratio; within some 8 % of the full equations,
// on the high side under moderate load. For w much under t it is the linear bow: the
// one form is used at every load, so that the bow has no step. That the edges cannot
// draw in, where DrawIn moves them by under a millimeter, makes the bow too small
// rather than too large.
func HeldPlateBow(linear, t float64) float64 {
	if !(linear > 0) {
		return 0
	}
	// w^3 + p w = q, p = t^2/1.5, in units of s, where it is 4 y^3 + 3 y = x. Halley's
	// method converges in two or three steps, which take less time than Cardano's
	// formula.
	s := t * heldScale // 2 sqrt(p/3)
	x := 3 * linear / s
	y := x * (27 + 8*x*x) / (81 + 36*x*x) // its series as a fraction
	if x > 4 {
		y = math.Cbrt(x / 4)
	}
	for range 50 {
		square := y * y
		miss, slope := y*(4*square+3)-x, 12*square+3
		step := miss * slope / (slope*slope - 12*y*miss)
		y -= step
		if math.Abs(step) <= 1e-5*y {
			break // what is left is of the order of its third power
		}
	}
	return s * y
}

var heldScale = 2 / math.Sqrt(4.5)

// braceStiffness is the flexural stiffness of a pleated pack 1 in. deep, in N m,
// by how it is braced: an engineering estimate of this project, from none (soft
// media in a card frame) to a rigid box.
var braceStiffness = map[Bracing]float64{
	Unbraced: 1, OneSide: 3, BothSides: 8, WireBacked: 25, RigidBox: 150,
}

// inchPack is the depth of the pack in a filter 1 in. deep.
const inchPack = 0.75 * units.Inch

// Bow estimates how far the middle of the filter bows under a drop: the pack as
// a plate of its nominal face, its edges held by the slot, with a stiffness by
// bracing that goes with the square of depth (a corrugation's stiffness goes with
// the square of its height) and a stretch that sets in as the bow nears the
// depth. An estimate, to rank bracings and to warn; not a structural check.
func (f Filter) Bow(width, height units.Length, drop units.Pressure) (units.Length, error) {
	plate, err := f.plate(width, height)
	if err != nil {
		return 0, err
	}
	w, _ := plate.bow(math.Abs(float64(drop)))
	return units.Length(math.Copysign(w, float64(drop))), nil
}

// plate is a filter's pack as a plate: the linear bow of its middle per Pa, its
// thickness and its shorter span, all in m.
type plate struct{ perPascal, thick, span float64 }

func (f Filter) plate(width, height units.Length) (plate, error) {
	if !(width > 0 && height > 0) {
		return plate{}, &FieldError{"width", width.String() + " x " + height.String(), message.New("both more than zero")}
	}
	class := f.Bracing
	if class == "" {
		class = OneSide
	}
	stiffness, ok := braceStiffness[class]
	if !ok {
		return plate{}, &FieldError{"bracing", string(class), message.New("none, one_side, both_sides, wire_backed or rigid_box")}
	}
	depth := float64(f.pack().Depth)
	if depth <= 0 {
		depth = float64(inchPack)
	}
	inches := depth / float64(inchPack)
	a, b := float64(min(width, height)), float64(max(width, height))
	return plate{knownPlateBow(b/a) * (a * a) * (a * a) / (stiffness * inches * inches), depth, a}, nil
}

// bow is the bow and its slope over the drop, m and m/Pa.
func (p plate) bow(drop float64) (w, slope float64) {
	w = HeldPlateBow(p.perPascal*drop, p.thick)
	return w, p.perPascal / (1 + 4.5*w*w/(p.thick*p.thick))
}

// DrawIn is how far a bow w draws each edge of a plate of span L inward, in the
// plane of its seat: half the difference between the length of a parabola and
// its chord,
//
//	(4/3) w^2 / L
//
// for w well under L; m.
func DrawIn(bow, span units.Length) units.Length {
	return units.Length(4.0 / 3 * float64(bow) * float64(bow) / float64(span))
}

// bowAtDrawIn is the bow that draws an edge in so far.
func bowAtDrawIn(in, span float64) float64 { return math.Sqrt(0.75 * in * span) }

// Seat is the place a filter sits in.
type Seat struct {
	Crack              // around the filter without a drop; its gap is the side clearance too
	Cover units.Length // how far the place's edge overlaps the frame
	// Left is true where the frame has buckled out of its seat; it stays so.
	Left bool
}

// Seated is a filter in its seat: the law of both, fast enough for use inside a
// root finder. As the filter bows, its edges are drawn in:
//
//	path = path at no drop - draw-in(bow(dp))
//
// for the whole frame by the shorter span, whose edges are drawn in most, and nothing
// else of the crack changes until draw-in and side clearance together exceed the cover. Beyond that the frame leaves its seat: the edge moves out of
// the plane by the bow at which it left, and the path has no cover any more. That
// opening is an estimate of this project.
type Seated struct {
	law            Curve
	face           float64 // m2
	seat           Seat
	plate          plate
	perPath, darcy float64 // darcy = 12 mu/(W d^3) x path, Pa s/m3
	inertia        float64
	bows           bool // the path shortens with the bow
}

// SeatedState is a filter in its seat at one airflow.
type SeatedState struct {
	Bypass              // of the filter with its gap as the bow leaves it
	Push   units.Force  // of the drop on the face, N inside
	Bow    units.Length // of its middle, m inside
	DrawIn units.Length // of each edge of the shorter span
	// CoverUsed is draw-in plus side clearance over the cover; above 1 the frame
	// leaves its seat.
	CoverUsed float64
	Left      bool // the frame is out of its seat
}

// Seat puts a filter of the given law into its seat.
func (f Filter) Seat(law Curve, width, height units.Length, seat Seat, a air.Properties) (Seated, error) {
	if err := seat.Crack.check(); err != nil {
		return Seated{}, err
	}
	if !(seat.Cover >= 0) {
		return Seated{}, &FieldError{"edge_cover", seat.Cover, message.New("zero or more")}
	}
	if err := checkAir(a); err != nil {
		return Seated{}, err
	}
	p, err := f.plate(width, height)
	if err != nil {
		return Seated{}, err
	}
	s := Seated{law: law, face: float64(width) * float64(height), seat: seat, plate: p}
	s.compile(a)
	return s, nil
}

// newSeated is a filter that does not bow.
func newSeated(law Curve, face float64, seat Seat, a air.Properties) *Seated {
	s := &Seated{law: law, face: face, seat: seat}
	s.compile(a)
	return s
}

// compile works out the crack in the seat's present state.
func (s *Seated) compile(a air.Properties) {
	c := s.seat.Crack
	s.bows = s.plate.perPascal > 0 && !s.seat.Left
	if s.seat.Left {
		slack := max(0, float64(s.seat.Cover-c.Gap))
		c.Gap += units.Length(bowAtDrawIn(slack, s.plate.span))
		c.Path = max(0, c.Path-s.seat.Cover)
	}
	if s.seat.Crack = c; !c.open() {
		return
	}
	s.perPath, s.inertia = Crack{c.Gap, c.Breadth, 1, c.Bends}.coefficients(a)
	s.darcy = s.perPath * float64(c.Path)
}

// With is the same seat with another law of the media.
func (s Seated) With(law Curve) Seated {
	s.law = law
	return s
}

// leak is the flow past the frame and its slope at a drop of zero or more.
func (s *Seated) leak(dp float64) (q, slope float64) {
	darcy, shorter := s.darcy, 0.0
	if s.bows && dp > 0 {
		w, dw := s.plate.bow(dp)
		in := 4.0 / 3 * w * w / s.plate.span
		if in < min(float64(s.seat.Path), max(0, float64(s.seat.Cover-s.seat.Gap))) {
			darcy -= s.perPath * in
			shorter = s.perPath * 8 / 3 * w * dw / s.plate.span
		} else {
			darcy -= s.perPath * min(float64(s.seat.Path), max(0, float64(s.seat.Cover-s.seat.Gap)))
		}
	}
	root := math.Sqrt(darcy*darcy + 4*s.inertia*dp) // darcy + 2 inertia Q
	if darcy+root == 0 {
		return 0, math.Inf(1)
	}
	q = 2 * dp / (darcy + root)
	return q, (1 + shorter*q) / root
}

// Leak is the flow past the frame at a drop of zero or more, by Crack in the
// seat's present state.
func (s *Seated) Leak(drop units.Pressure) units.Flow {
	if !s.seat.open() || drop <= 0 {
		return 0
	}
	q, _ := s.leak(float64(drop))
	return units.Flow(q)
}

// velocity is that of the air through the media, over the face, where the face
// and the crack together pass a flow of zero or more:
//
//	face v + Q_crack(dp(v)) = total
//
// found by Halley's steps on v in [0, total/face]; both terms rise with v, so
// there is one root. The crack's second slope is taken as that of the power of v
// which has its flow and slope: the crack passes little, and it saves a step.
func (s *Seated) velocity(total float64) float64 {
	v := total / s.face
	if total == 0 || !s.seat.open() {
		return v
	}
	return root.RisingFrom(func(v float64) (excess, slope, second float64) {
		dp, rise := s.law.at(v)
		q, more := s.leak(dp)
		crack := more * rise
		if q > 0 {
			second = crack * (crack/q - 1/v)
		}
		return s.face*v + q - total, s.face + crack, second
	}, 0, v, v)
}

// Drop is the drop that media and crack share at a flow, odd in the flow; see
// velocity.
func (s *Seated) Drop(total units.Flow) units.Pressure {
	d, _ := s.law.at(s.velocity(math.Abs(float64(total))))
	return units.Pressure(math.Copysign(d, float64(total)))
}

func (s *Seated) split(total float64) Bypass {
	v := s.velocity(total)
	b := Bypass{Drop: s.law.Drop(units.Speed(v)), Media: units.Flow(s.face * v)}
	if s.seat.open() {
		b.Leak = max(0, units.Flow(total)-b.Media)
	} else {
		b.Media = units.Flow(total)
	}
	if total > 0 {
		b.Share = min(1, float64(b.Leak)/total)
	}
	return b
}

// At is the state of the filter in its seat at a flow of zero or more.
func (s *Seated) At(total units.Flow) SeatedState {
	h := SeatedState{Bypass: s.split(float64(total)), Left: s.seat.Left}
	h.Push = Push(h.Drop, units.Area(s.face))
	w, _ := s.plate.bow(float64(h.Drop))
	h.Bow = units.Length(w)
	h.DrawIn = DrawIn(h.Bow, units.Length(s.plate.span))
	if !h.Left && s.seat.Cover > 0 {
		h.CoverUsed = float64((h.DrawIn + s.seat.Gap) / s.seat.Cover)
	}
	return h
}
