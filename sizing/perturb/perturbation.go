package perturb

import (
	"hash"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"strconv"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// Perturbation changes the inputs of one sample. Each draw depends on the name of
// its input and not on the order of the draws, so that adding or removing an input
// leaves the draws of all others as they are. A nil Perturbation changes nothing.
// It belongs to one goroutine.
type Perturbation struct {
	known        job.Deviations
	seed, number uint64

	// Kept from one draw to the next, which sets them anew.
	hash    hash.Hash64
	name    []byte
	pcg     rand.PCG
	numbers *rand.Rand
}

// New makes the perturbation of the sample with a number.
func New(known job.Deviations, seed uint64, number int) *Perturbation {
	s := &Perturbation{known: known, seed: seed, number: uint64(number), hash: fnv.New64a()}
	s.numbers = rand.New(&s.pcg)
	return s
}

// stream is the random numbers of an input, which depend on its name, the seed
// and the sample's number alone. The next call starts another stream.
func (s *Perturbation) stream(name []string) *rand.Rand {
	s.name = s.name[:0]
	for _, part := range name {
		s.name = append(append(s.name, part...), 0) // "ab", "c" is not "a", "bc"
	}
	s.hash.Reset()
	s.hash.Write(s.name)
	// The multiplier of Weyl sequences keeps the streams of neighbors apart.
	s.pcg.Seed(s.seed^s.hash.Sum64(), (s.number+1)*0x9e3779b97f4a7c15)
	return s.numbers
}

// Factor is a lognormal factor with median 1 and a relative standard deviation,
// so that no drop becomes negative. The same name gives the same factor each
// time; 1 where the deviation is zero.
func (s *Perturbation) Factor(deviation float64, name ...string) float64 {
	if s == nil || deviation == 0 {
		return 1
	}
	return math.Exp(deviation * s.stream(name).NormFloat64())
}

// partFactor is the factor on the drop of a part.
func (s *Perturbation) partFactor(deviation float64, part airpath.PartName, of ...string) float64 {
	return s.Factor(deviation, append([]string{string(part)}, of...)...)
}

// TableReading is where the blower's table is read between monotone cubic (0)
// and straight lines (1), evenly distributed: which curve its maker would draw
// is unknown.
func (s *Perturbation) TableReading() float64 {
	if s == nil || s.known.BlowerTable == 0 {
		return 0
	}
	return s.stream([]string{"between the rows of the blower table"}).Float64()
}

// PleatModel is the factor on the drop of a filter by its make; half of its trust
// (Pack.PleatTrust) is taken as its standard deviation. All filters of a sample share
// one draw.
func (s *Perturbation) PleatModel(trust float64) float64 {
	if s == nil || s.known.Rating == 0 {
		return 1
	}
	return s.Factor(trust/2, "pleat model")
}

// Assumed is the factor on a value that was neither typed nor measured.
func (s *Perturbation) Assumed(name string) float64 {
	if s == nil {
		return 1
	}
	return s.Factor(s.known.Assumed, "assumed", name)
}

// PerturbBranch changes the drop of the grille and of the ducts of a branch, with one
// draw for each: the pieces of a duct share their errors, since they share tables and
// installer, while a grille's law has another source. Draws depend on the branch's
// name, so that a branch that an option keeps or replaces gets the same error as
// today's and the difference is not blurred. A grille's printed rating has the
// uncertainty of any rating.
func (s *Perturbation) PerturbBranch(b airpath.Branch, g duct.Grille) airpath.Branch {
	if s == nil {
		return b
	}
	for i := range b.Parts {
		p := &b.Parts[i]
		switch {
		case p.Name == airpath.PartGrille && len(g.Rating) > 0:
			p.Law = p.Law.Scale(s.partFactor(s.known.Rating, airpath.PartReturn, b.Name, string(p.Name)))
		case p.Name == airpath.PartGrille, p.Name == airpath.PartDuct:
			p.Law = p.Law.Scale(s.partFactor(s.known.Geometry, airpath.PartReturn, b.Name, string(p.Name)))
		}
	}
	return b
}

// SlotEntry is the factor on the coefficient of the slot's own entry and turn.
func (s *Perturbation) SlotEntry() float64 {
	if s == nil {
		return 1
	}
	return s.partFactor(s.known.Geometry, airpath.PartSlotEntry)
}

// PerturbJob is the job with its typed and measured inputs changed within their
// uncertainty.
func (s *Perturbation) PerturbJob(jb job.Job) job.Job {
	j := jb.Clone()
	ScaleTaps(j.Equipment.Blower.Taps, s.Factor(s.known.BlowerTable, "blower table"))
	for i := range j.Filters {
		f := &j.Filters[i]
		k := units.Pressure(s.partFactor(s.known.Rating, airpath.PartFilter, f.Name))
		for p := range f.Rating {
			f.Rating[p].Drop *= k
		}
		f.MediaResistance *= units.MediaResistance(k)
		f.MediaPermeability /= units.Permeability(k)
	}
	j.Coil.Drop *= units.Pressure(s.partFactor(s.known.Rating, airpath.PartCoil))
	j.Supply.Drop *= units.Pressure(s.partFactor(s.known.Rating, airpath.PartSupply))
	s.perturbReadings(j.Readings)
	return j
}

// perturbReadings numbers the rounds with readings of each option separately: an
// empty round, or one of another option, does not change the draws of the
// others.
func (s *Perturbation) perturbReadings(rounds []job.Reading) {
	counted := map[string]int{}
	for i := range rounds {
		r := &rounds[i]
		fields := []struct {
			name  string
			value *units.Pressure
		}{
			{"return plenum", &r.ReturnPlenum}, {"blower inlet", &r.BlowerInlet}, {"blower outlet", &r.BlowerOutlet},
			{"supply plenum", &r.SupplyPlenum}, {"filter drop", &r.FilterDrop},
		}
		reads := r.Airflow != 0
		for _, f := range fields {
			reads = reads || *f.value != 0
		}
		if !reads {
			continue
		}
		round := strconv.Itoa(counted[r.Option])
		counted[r.Option]++
		for _, f := range fields {
			*f.value *= units.Pressure(s.Factor(s.known.Gauge, "reading", r.Option, round, f.name))
		}
		r.Airflow *= units.Flow(s.Factor(s.known.Gauge, "reading", r.Option, round, "airflow"))
	}
}

// ScaleTaps multiplies the airflows of all rows of the taps by k.
func ScaleTaps(taps []blower.Tap, k float64) {
	for i := range taps {
		for p := range taps[i].Points {
			taps[i].Points[p].Airflow *= units.Flow(k)
		}
	}
}
