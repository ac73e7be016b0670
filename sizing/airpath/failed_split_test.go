package airpath

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Where the branches cannot share the air, that is the error, not that blower and
// system do not meet.
func TestAFailedSplitIsReported(t *testing.T) {
	none := Part{Law: func(float64) float64 { return math.NaN() }}
	s := System{Branches: []Branch{{Parts: []Part{none}}, {Parts: []Part{none}}}}
	_, err := s.Solve(func(static float64) float64 { return math.Max(0, (300-static)/200) }, nil)
	assert.ErrorIs(t, err, ErrSplit)
	assert.NotErrorIs(t, err, ErrNoPoint)
}
