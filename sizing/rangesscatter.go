package sizing

import (
	"math"
	"math/rand/v2"

	"returnbench/sizing/blower"
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
}

// newScatter is that of the sample of a number: its stream of random numbers
// follows from seed and number alone.
func newScatter(known Deviations, seed uint64, number int) *scatter {
	// The multiplier of Weyl sequences keeps the streams of neighbours apart.
	s := &scatter{known: known, random: rand.New(rand.NewPCG(seed, uint64(number+1)*0x9e3779b97f4a7c15))}
	// A stream of its own, so that what a model leaves open moves no other draw.
	model := rand.New(rand.NewPCG(^seed, uint64(number+1)*0x9e3779b97f4a7c15))
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
