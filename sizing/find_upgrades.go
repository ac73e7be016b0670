package sizing

import (
	"context"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/pleats"
	"returnbench/sizing/units"
	"returnbench/sizing/upgrade"
)

// FindUpgrades tries what could be changed about today's house, alone and together:
// filters in other places and sizes that meet the job's limits, the job's other
// makes of filter, the return's ducts, grilles and branches, the blower's taps.
// Each is solved completely and judged. No upgrade contains a change that it does
// not need. The target is an airflow of cooling with clean filters, m3/s inside;
// within 1 % of it counts as reached (study.Short). done, where it is not nil, is
// called with the share of the work done; the error of a ctx that ended is the
// ctx's own.
func FindUpgrades(ctx context.Context, job Job, target units.Flow, done func(part float64)) (*UpgradeSearch, error) {
	if !(target > 0) || math.IsInf(float64(target), 0) {
		return nil, FieldErrors{{Path: "target", Given: target.String(), Wanted: message.New("an airflow above zero")}}
	}
	study, h, err := solveWith(job, nil, &pleats.Studies{})
	if err != nil {
		return nil, err
	}
	return upgrade.Find(ctx, job, study, h, target, done)
}
