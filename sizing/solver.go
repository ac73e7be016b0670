package sizing

import (
	lru "github.com/hashicorp/golang-lru/v2"

	"returnbench/sizing/house"
	"returnbench/sizing/pleats"
)

// Solver solves job after job and remembers the filters' laws, the slowest part
// of a solve, so that an edit elsewhere in the house costs little. Its answers
// are those of Solve. It may be used from several goroutines at once.
type Solver struct {
	memo   *house.LawCache
	sweeps pleats.Studies
}

// NewSolver makes a Solver that remembers nothing yet.
func NewSolver() *Solver {
	cache, err := lru.New[house.LawCacheKey, house.CachedLaw](house.LawCacheSize)
	if err != nil {
		panic(err) // the size is a constant above zero
	}
	return &Solver{memo: &house.LawCache{Cache: cache}}
}

// Solve is the package's Solve.
func (s *Solver) Solve(job Job) (*Study, error) {
	study, _, err := solveWith(job, s.memo, &s.sweeps)
	return study, err
}
