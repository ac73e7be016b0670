package perturb

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"strconv"

	"returnbench/sizing/airpath"
	"returnbench/sizing/blower"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/job"
	"returnbench/sizing/units"
)

// Perturbation moves what goes into one sample. Each draw goes by what it moves, not
// by when it is asked for, so that a thing more or less in the job leaves the
// draws of all others as they are. A nil scatter moves nothing.
type Perturbation struct {
	known        job.Deviations
	seed, number uint64
}

// New is that of the sample of a number.
func New(known job.Deviations, seed uint64, number int) *Perturbation {
	return &Perturbation{known: known, seed: seed, number: uint64(number)}
}

// stream is the random numbers of a thing, which follow from its name, the seed
// and the sample's number alone.
func (s *Perturbation) stream(name []string) *rand.Rand {
	h := fnv.New64a()
	for _, part := range name {
		h.Write([]byte(part))
		h.Write([]byte{0}) // "ab", "c" is not "a", "bc"
	}
	// The multiplier of Weyl sequences keeps the streams of neighbours apart.
	return rand.New(rand.NewPCG(s.seed^h.Sum64(), (s.number+1)*0x9e3779b97f4a7c15))
}

// Factor is lognormal about 1, so that no sample turns a drop negative, and the
// same whenever it is asked for.
func (s *Perturbation) Factor(deviation float64, name ...string) float64 {
	if s == nil || deviation == 0 {
		return 1
	}
	return math.Exp(deviation * s.stream(name).NormFloat64())
}

// partFactor is the factor on what a part takes.
func (s *Perturbation) partFactor(deviation float64, part airpath.PartName, of ...string) float64 {
	return s.Factor(deviation, append([]string{string(part)}, of...)...)
}

// TableReading is how far between monotone cubic and straight lines the blower's
// table is read: which one its maker would draw is unknown.
func (s *Perturbation) TableReading() float64 {
	if s == nil || s.known.BlowerTable == 0 {
		return 0
	}
	return s.stream([]string{"between the rows of the blower table"}).Float64()
}

// PleatModel is the factor on a pleat model's drop.
func (s *Perturbation) PleatModel() float64 {
	if s == nil || s.known.Rating == 0 {
		return 1
	}
	return s.Factor(filter.PleatTrust/2, "pleat model")
}

// Assumed is the factor on what was neither typed nor measured.
func (s *Perturbation) Assumed(name string) float64 {
	if s == nil {
		return 1
	}
	return s.Factor(s.known.Assumed, "assumed", name)
}

// PerturbBranch moves what the grille and the ducts of a branch take. Each is one draw:
// the errors within a part are shared, since its tables and installer are, while
// a grille's law is from elsewhere than a duct's. Draws go by the branch's name,
// so that what an option leaves or puts in the same place moves as today's does,
// and does not blur the difference. A printed rating is as good as any other.
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

// PerturbJob is the job with what was typed and read moved within its uncertainty.
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

// perturbReadings counts the rounds of each option that read something: an empty
// one, or one of another option, moves no other.
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

func ScaleTaps(taps []blower.Tap, k float64) {
	for i := range taps {
		for p := range taps[i].Points {
			taps[i].Points[p].Airflow *= units.Flow(k)
		}
	}
}
