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

// One law without a usable number is found wherever it stands, before a sound one or
// after it.
func TestOneUnusableLawIsFound(t *testing.T) {
	sound := func(q float64) float64 { return 100 * q * q }
	none := func(float64) float64 { return math.NaN() }
	for wrong := -1; wrong < 5; wrong++ {
		law := func(i int) Law {
			if i == wrong {
				return none
			}
			return sound
		}
		s := System{
			Branches: []Branch{{Parts: []Part{{Law: law(0)}}}, {Parts: []Part{{Law: law(1)}}}},
			Series:   []Part{{Law: law(2)}, {Law: law(3)}},
		}
		p := s.start(Point{}, law(4), &Memory{})
		p.Flow = 0.4
		guessShares(p.Branches, p.Flow)
		assert.Equal(t, wrong < 0, s.evaluate(&p, make([]line, len(p.exponents)), law(4)), "law %d", wrong)
	}
}
