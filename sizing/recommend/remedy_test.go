package recommend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/study"
	"returnbench/sizing/units"
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
	o.Against[0] = study.ProblemChange{Problem: study.StaticHigh, Effect: study.RemovedUnsure, Clean: &study.StateChange{After: 0.48 * units.InchWater}}
	assert.Equal(t, "this goes away, but not surely, at 0.480 in. w.c.", remedy(o, study.StaticHigh).In(units.IP))
	o.Against[0].Effect = study.EffectTooClose
	assert.Equal(t, "whether this helps is too close to tell", remedy(o, study.StaticHigh).String())
	for effect, want := range map[study.Effect]string{
		study.RemovedUnsure: "enough air, but not surely", study.EffectTooClose: "whether this brings more air is too close to tell",
		study.Lessened: "still short", study.RemovedClean: "still short with a dirty filter",
	} {
		o.Against[2].Effect = effect
		assert.Equal(t, want, remedy(o, study.AirflowShort).String())
	}
}
