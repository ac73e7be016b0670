// Package recommend compares each option with today's problems and picks the option
// to take: fewest stops, then most problems removed clean and dirty, then no
// coarser filter than today's, then the least cost over ten years.
//
// Whether the samples show a difference is decided in this order, and each step has a
// value of its own for "too close to tell":
//
//  1. One number of an option against another's: compare.Agreement (agreement.go),
//     ClaimTooClose; in the table of options compare.TrendTooClose (compare.go).
//  2. One option against today, from its airflow and watts: compare.OptionRange.Against
//     (agreement.go), ClaimTooClose.
//  3. One problem of today under an option: as solved in problem_changes.go, then compared
//     with the samples in samples.go, study.EffectTooClose.
//  4. All options: recommend.go, study.ReasonTooClose.
//
// Steps 1 to 3 make a claim where compare.SureShare of the samples agree.
package recommend
