package compare

import (
	"math"

	"returnbench/sizing/study"
)

// Agreement is how many samples agree on a difference from the baseline (today
// where no other is named): the shares of samples in which the number is
// better, or worse, by more than study.Noticeable of the baseline's.
type Agreement struct {
	Better float64 `json:"better"`
	Worse  float64 `json:"worse"`
}

// SureShare is the share of samples from which a claim is made at all.
const SureShare = 0.95

// Claim is what the samples allow to be claimed of a number, or of an option,
// compared with today.
type Claim string

const (
	ClaimBetter   Claim = "better"
	ClaimWorse    Claim = "worse"
	ClaimMixed    Claim = "mixed" // less air for fewer watts
	ClaimTooClose Claim = "too close to tell"
)

// Holds reports whether the claim that the number is better may be made.
func (a Agreement) Holds() bool { return a.Better >= SureShare }

// Claim is the claim that may be made of the number.
func (a Agreement) Claim() Claim {
	switch {
	case a.Holds():
		return ClaimBetter
	case a.Worse >= SureShare:
		return ClaimWorse
	}
	return ClaimTooClose
}

// Against is one claim for an option: by the airflow, and by the watts where
// the airflow is too close to tell.
func (r *OptionRange) Against() Claim {
	air, watts := r.MoreAir.Claim(), r.FewerWatts.Claim()
	switch {
	case air == ClaimTooClose:
		return watts
	case air == ClaimWorse && watts == ClaimBetter:
		return ClaimMixed
	}
	return air
}

// Agree compares samples of a number of which more is better with the
// baseline's. A sample in which either is not known counts for neither side.
func Agree(n int, numbers func(int) (option, base float64)) Agreement {
	var a Agreement
	for i := range n {
		option, base := numbers(i)
		switch least := study.Noticeable * math.Abs(base); {
		case math.IsInf(base, -1) && option > base, option > base+least:
			a.Better++
		case option < base-least:
			a.Worse++
		}
	}
	a.Better /= float64(n)
	a.Worse /= float64(n)
	return a
}

// Agreement is how many samples agree that the measure is better, or worse,
// with an option than with a baseline. Both are compared within each sample, so
// that an uncertainty that both share does not blur the difference; known is
// false where the measure or an option was not sampled.
func (m *Measure) Agreement(option, base *OptionRange) (a Agreement, known bool) {
	if option == nil || base == nil {
		return a, false
	}
	x, y := option.Drawn[m.Key], base.Drawn[m.Key]
	if len(x) == 0 || len(x) != len(y) || m.Sense == Neither {
		return a, false
	}
	return Agree(len(x), func(k int) (float64, float64) { return m.merit(x[k]), m.merit(y[k]) }), true
}

// merit is a number that is higher where the figure is better.
func (m *Measure) merit(v float64) float64 {
	switch m.Sense {
	case Less:
		return -v
	case Nearer:
		return -math.Abs(v)
	}
	return v
}
