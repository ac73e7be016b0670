package sizing

import (
	"reflect"

	lru "github.com/hashicorp/golang-lru/v2"

	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// Solver solves job after job and remembers the filters' laws, the dearest part
// of a solve, so that an edit elsewhere in the house costs little. Its answers
// are those of Solve. It may be used from several goroutines at once.
type Solver struct {
	memo   *lawMemo
	sweeps pleatStudies
}

// NewSolver makes a Solver that remembers nothing yet.
func NewSolver() *Solver {
	cache, err := lru.New[memoKey, madeLaw](remembered)
	if err != nil {
		panic(err) // the size is a constant above zero
	}
	return &Solver{memo: &lawMemo{cache: cache}}
}

// Solve is the package's Solve.
func (s *Solver) Solve(job Job) (*Study, error) {
	study, _, err := solveWith(job, s.memo, &s.sweeps)
	return study, err
}

// remembered laws: several houses' worth of filters and faces.
const remembered = 512

type lawMemo struct{ cache *lru.Cache[memoKey, madeLaw] }

type memoKey struct {
	lawKey
	air air.Properties
}

// madeLaw is the law of a make, and that make, for a make may change under its
// name.
type madeLaw struct {
	filter filter.Filter
	law    filter.Law
}

// law gives the clean law of a filter in a face, worked out once.
func (m *lawMemo) law(f filter.Filter, width, height units.Length, a air.Properties) (filter.Law, error) {
	if m == nil || f.Pleats == 0 && f.MediaArea == 0 && f.MediaResistance == 0 && f.MediaPermeability == 0 {
		return f.Law(width, height, a) // a rating is cheaper than to look it up
	}
	key := memoKey{lawKey{f.Name, f.Depth, width, height}, a}
	if made, ok := m.cache.Get(key); ok && reflect.DeepEqual(made.filter, f) {
		return made.law, nil
	}
	l, err := f.Law(width, height, a)
	if err == nil {
		m.cache.Add(key, madeLaw{f, l})
	}
	return l, err
}
