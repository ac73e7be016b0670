package recommend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/study"
)

// The problem that is named may be any of those that the option changes; of one that
// it does not touch nothing is said.
func TestRemedyIsOfTheNamedProblem(t *testing.T) {
	o := &study.OptionResult{Against: []study.ProblemChange{
		{Problem: study.StaticHigh, Effect: study.LimitHigher}, {Problem: study.FaceVelocity, Effect: study.Removed}, {Problem: study.AirflowShort, Effect: study.Removed}}}
	assert.Equal(t, "the figure stays, but its limit is higher", remedy(o, study.StaticHigh).String())
	assert.Equal(t, "this goes away", remedy(o, study.FaceVelocity).String())
	assert.Empty(t, remedy(o, study.AirflowShort).String(), "the airflow follows in any case")
	assert.Empty(t, remedy(o, study.RiseHigh).String())
}
