package option

import (
	"cmp"
	"errors"
	"fmt"

	"returnbench/sizing/fit"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/judge"
	"returnbench/sizing/money"
	"returnbench/sizing/study"
)

// SolveWithFindings solves an option and writes its findings and its verdict.
func SolveWithFindings(h *house.House, o job.Option) (*study.OptionResult, error) {
	r, err := Solve(h, o, study.KindOption)
	if err != nil {
		return nil, err
	}
	r.Findings = judge.OptionFindings(h, &r)
	judge.WorstFirst(r.Findings)
	r.Verdict, r.Why = judge.Verdict(r.Findings)
	return &r, nil
}

// SolveAll solves the house with no filter, as it is, and with each option.
func SolveAll(h *house.House, s *study.Study) error {
	todo := append([]job.Option{{Name: job.NoFilterName}, {Name: job.TodayName}}, h.Options...)
	s.Options = make([]study.OptionResult, 0, len(todo))
	for i, o := range todo {
		kind := study.KindOption
		switch i {
		case 0:
			kind = study.KindNoFilter
		case 1:
			kind = study.KindToday
		}
		r, err := Solve(h, o, kind)
		var faults job.FieldErrors
		if errors.As(err, &faults) {
			return faults // each names its field
		}
		if err != nil {
			return fmt.Errorf("%s: %w", o.Name, err)
		}
		s.Options = append(s.Options, r)
	}
	for i := range s.Options {
		money.AddCosts(h, &s.Options[i], s.Today())
	}
	return nil
}

// Solve solves one option: clean, loaded to its filters' change, its curves and its
// filters' lives. Costs and findings are added later.
func Solve(h *house.House, o job.Option, kind study.OptionKind) (study.OptionResult, error) {
	a, err := h.Arrange(o, kind)
	if err != nil {
		return study.OptionResult{}, err
	}
	a.NoFilters = kind == study.KindNoFilter
	sys, err := h.System(a)
	if err != nil {
		return study.OptionResult{}, err
	}
	quick, err := h.TabulatedSystem(a, sys)
	if err != nil {
		return study.OptionResult{}, err
	}
	r := study.OptionResult{Name: o.Name, Kind: kind, Tap: cmp.Or(o.Tap, h.Equipment.Blower.CoolingTap), SpeedRatio: o.SpeedRatio, Upgrade: a.Price, Returns: a.Returns}
	r.WattsAssumed = h.WattsAssumedOf(&r)
	r.UpgradeKnown = a.Price > 0 || !money.NeedsWork(h, o, a)
	if kind == study.KindOption {
		r.Breaches = fit.Breaches(h, a)
	}
	if r.Clean, err = h.Condition(a, sys); err != nil {
		return r, err
	}
	drawn := h.Perturbation == nil // of a sample only the numbers are wanted
	if drawn {
		if r.SystemClean, err = h.SystemCurve(quick, r.Clean.Airflow); err != nil {
			return r, err
		}
	}
	if a.NoFilters {
		r.Loaded, r.SystemLoaded = r.Clean, r.SystemClean
		return r, nil
	}
	h.DescribeFilters(a, &r)
	if err := h.LoadToChange(a, quick, &r); err != nil {
		return r, err
	}
	if r.Loaded, err = h.Condition(a, sys); err != nil {
		return r, err
	}
	if drawn {
		r.SystemLoaded, err = h.SystemCurve(quick, r.Clean.Airflow)
	}
	return r, err
}
