package recommend

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/compare"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// A problem is surely removed only where it is so in both states of the filter.
func TestEffectInBothStates(t *testing.T) {
	for _, c := range []struct{ clean, loaded, want study.Effect }{
		{study.Removed, study.Removed, study.Removed},
		{study.Removed, study.RemovedUnsure, study.RemovedUnsure},
		{study.RemovedUnsure, study.Removed, study.RemovedUnsure},
		{study.RemovedUnsure, study.RemovedUnsure, study.RemovedUnsure},
		{study.Removed, study.Lessened, study.RemovedClean},
		{study.RemovedUnsure, study.Lessened, study.Lessened},
		{study.RemovedUnsure, study.Left, study.LessenedClean},
		{study.Lessened, study.RemovedUnsure, study.Lessened},
	} {
		assert.Equal(t, c.want, bothStates(&study.StateChange{Effect: c.clean}, &study.StateChange{Effect: c.loaded}), "%s clean, %s dirty", c.clean, c.loaded)
	}
}

// What stays is named beside what the sentence began with: two problems, and how many more.
func TestProblemsThatStay(t *testing.T) {
	today := &study.OptionResult{Findings: []study.Finding{{Severity: study.Stop, Problem: study.RiseHigh}}}
	of := func(effect study.Effect, problem study.Problem) study.ProblemChange {
		return study.ProblemChange{Problem: problem, Severity: study.Caution, Effect: effect}
	}
	o := &study.OptionResult{Against: []study.ProblemChange{
		of(study.Lessened, study.RiseHigh), of(study.Removed, study.FilterLeak), of(study.RemovedUnsure, study.FilterDrop), of(study.Added, "merv"),
	}}
	assert.True(t, stays(o, today).Empty(), "the first is told of already")
	o.Against = append(o.Against, of(study.Lessened, study.AirflowShort))
	assert.Equal(t, "still there: short airflow", stays(o, today).String())
	o.Against = append(o.Against, of(study.Left, study.StaticHigh), of(study.Worsened, study.FaceVelocity), of(study.RemovedClean, study.Frost))
	assert.Equal(t, "still there: short airflow, high external static and 2 more", stays(o, today).String())
}

// In all samples but one of twenty $100 more: that is said. In eighteen: about the same.
func TestTenYearCostTooCloseToTell(t *testing.T) {
	for _, c := range []struct {
		more int // samples of twenty in which the option costs more
		want string
	}{{19, "$200 now, about $100 more over ten years"}, {18, "$200 now, about the same cost over ten years"}} {
		today, option := compare.OptionRange{Drawn: map[string][]float64{}}, compare.OptionRange{Drawn: map[string][]float64{}}
		for k := range 20 {
			dear := 100.0
			if k >= c.more {
				dear = -100
			}
			today.Drawn["ten_year_cost"] = append(today.Drawn["ten_year_cost"], 1000)
			option.Drawn["ten_year_cost"] = append(option.Drawn["ten_year_cost"], 1000+dear)
		}
		now := &study.OptionResult{TenYearCost: 1000, TenYearKnown: true}
		then := &study.OptionResult{TenYearCost: 1100, TenYearKnown: true, UpgradeKnown: true, Upgrade: 200, TenYearTooClose: tenYearTooClose(&option, &today)}
		assert.Equal(t, c.want, CostPoints(then, now).Show(units.IP))
	}
	assert.False(t, tenYearTooClose(nil, nil), "without ranges the numbers decide")
}
