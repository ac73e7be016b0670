package sizing

import (
	"math"
	"math/rand/v2"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// scatter moves what goes into one sample. A nil scatter moves nothing.
type scatter struct {
	known  Deviations
	random *rand.Rand
	// straight is how far between monotone cubic and straight lines the blower's
	// table is read in this sample: nobody knows which its maker would draw.
	straight float64
	// pleats is the factor on a pleat model's drop.
	pleats float64
	parts  *rand.Rand // the stream of what is worked out from geometry
	drawn  map[[2]string]float64
}

// newScatter is that of the sample of a number: its stream of random numbers
// follows from seed and number alone.
func newScatter(known Deviations, seed uint64, number int) *scatter {
	// The multiplier of Weyl sequences keeps the streams of neighbours apart.
	s := &scatter{known: known, random: rand.New(rand.NewPCG(seed, uint64(number+1)*0x9e3779b97f4a7c15))}
	// A stream of its own, so that what a model leaves open moves no other draw.
	model := rand.New(rand.NewPCG(^seed, uint64(number+1)*0x9e3779b97f4a7c15))
	s.parts = rand.New(rand.NewPCG(seed, ^(uint64(number+1) * 0x9e3779b97f4a7c15)))
	s.drawn = map[[2]string]float64{}
	s.pleats = 1
	if known.BlowerTable > 0 {
		s.straight = model.Float64()
	}
	if known.Rating > 0 {
		s.pleats = math.Exp(filter.PleatTrust / 2 * model.NormFloat64())
	}
	return s
}

// reading is the share of straight lines in the reading of a blower's table.
func (s *scatter) reading() float64 {
	if s == nil {
		return 0
	}
	return s.straight
}

// factor is lognormal about 1, so that no sample turns a drop negative.
func (s *scatter) factor(deviation float64) float64 {
	if s == nil {
		return 1
	}
	return math.Exp(deviation * s.random.NormFloat64())
}

func (s *scatter) assumed() float64 {
	if s == nil {
		return 1
	}
	return s.factor(s.known.Assumed)
}

// built moves what the grille and the ducts of a branch take. Each is one draw:
// what makes up a part errs alike, by the same tables and the same hands, while
// a grille's law is from elsewhere than a duct's. Draws go by the branch's name,
// so that what an option leaves or puts in the same place moves as today's does,
// and does not blur the difference. A printed rating is as good as any other.
func (s *scatter) built(b airpath.Branch, g duct.Grille) airpath.Branch {
	if s == nil {
		return b
	}
	for i := range b.Parts {
		p := &b.Parts[i]
		switch {
		case p.Name == "grille" && len(g.Rating) > 0:
			p.Law = p.Law.Scale(s.part(b.Name, p.Name, s.known.Rating))
		case p.Name == "grille", p.Name == "duct":
			p.Law = p.Law.Scale(s.part(b.Name, p.Name, s.known.Geometry))
		}
	}
	return b
}

// entry is the factor on the coefficient of the slot's own entry and turn.
func (s *scatter) entry() float64 {
	if s == nil {
		return 1
	}
	return s.part("", "slot entry", s.known.Geometry)
}

// part is the factor on a part's drop, the same whenever it is asked for.
func (s *scatter) part(branch, name string, deviation float64) float64 {
	key := [2]string{branch, name}
	z, known := s.drawn[key]
	if !known {
		z = s.parts.NormFloat64()
		s.drawn[key] = z
	}
	return math.Exp(deviation * z)
}

// moved is the job with what was typed and read moved within its uncertainty.
func (s *scatter) moved(job Job) Job {
	j := job.Clone()
	scaleTaps(j.Equipment.Blower.Taps, s.factor(s.known.BlowerTable))
	for i := range j.Filters {
		k := units.Pressure(s.factor(s.known.Rating))
		for p := range j.Filters[i].Rating {
			j.Filters[i].Rating[p].Drop *= k
		}
		j.Filters[i].MediaResistance *= units.MediaResistance(k)
		j.Filters[i].MediaPermeability /= units.Permeability(k)
	}
	j.Coil.Drop *= units.Pressure(s.factor(s.known.Rating))
	j.Supply.Drop *= units.Pressure(s.factor(s.known.Rating))
	for i := range j.Readings {
		r := &j.Readings[i]
		for _, p := range []*units.Pressure{&r.ReturnPlenum, &r.BlowerInlet, &r.BlowerOutlet, &r.SupplyPlenum, &r.FilterDrop} {
			*p *= units.Pressure(s.factor(s.known.Gauge))
		}
		r.Airflow *= units.Flow(s.factor(s.known.Gauge))
	}
	return j
}

func scaleTaps(taps []blower.Tap, k float64) {
	for i := range taps {
		for p := range taps[i].Points {
			taps[i].Points[p].Airflow *= units.Flow(k)
		}
	}
}
