package sizing

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/units"
)

// 1500 cfm over 3 tons are 500 cfm a ton, 50 over the usual 450.
func TestHighAirflowHoldsItsLimit_Identity(t *testing.T) {
	f := findingOf(t, solved(t, steady(1500*units.CFM, rated("thin", units.Inch, 0.20, 8))).Today().Findings, "airflow_high")
	assert.Equal(t, AirflowHigh, f.Problem)
	assert.InDelta(t, 500, f.Measured.(units.FlowPerCapacity).In(units.CFMPerTon), 1)
	assert.InDelta(t, 450, f.Limit.(units.FlowPerCapacity).In(units.CFMPerTon), 1e-9)
}

// 880 cfm over 3 tons are 293 cfm a ton, under the 300 at which a coil may frost,
// while its surface stays over 40 F.
func TestFrostRiskByAirflowHoldsItsLimit_Identity(t *testing.T) {
	s := solved(t, steady(880*units.CFM, rated("thin", units.Inch, 0.20, 8)))
	assert.Greater(t, s.Today().Clean.ApparatusDewPt, units.Fahrenheit(40))
	f := findingOf(t, s.Today().Findings, "frost_risk")
	assert.InDelta(t, 293.3, f.Measured.(units.FlowPerCapacity).In(units.CFMPerTon), 0.5)
	assert.InDelta(t, 300, f.Limit.(units.FlowPerCapacity).In(units.CFMPerTon), 1e-9)
}

// Today's static of 0.60 in. w.c. is over the rated 0.50; with 0.10 for the filter it
// is 0.40 clean and 0.45 when changed at 0.15: the next step says that it goes.
func TestNextStepNamesTheProblemRemoved_Identity(t *testing.T) {
	j := steady(1200*units.CFM, rated("thin", units.Inch, 0.30, 8))
	j.Limits.ChangeDrop = 0.15 * units.InchWater
	offer(&j, rated("deep", 4*units.Inch, 0.10, 8), 600)
	next := solved(t, j).Recommendation.Next.In(units.IP)
	assert.Contains(t, next, "External static")
	assert.Contains(t, next, "Choose deep: this goes away; ")
}
