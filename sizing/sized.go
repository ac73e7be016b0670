package sizing

import "sync"

// sized is the house with each size of a Study as an option, made when it is
// first asked for: to judge every size would cost more than the rest of a Study.
type sized struct {
	mutex   sync.Mutex
	job     Job // as it was solved
	memo    *lawMemo
	house   *house
	options map[string]Option
	results map[string]*OptionResult
}

// with is the house with a size of the Study put in.
func (d *sized) with(s *Study, z Size) (*OptionResult, error) {
	d.mutex.Lock()
	defer d.mutex.Unlock()
	if r := d.results[z.key()]; r != nil {
		return r, nil
	}
	if err := d.build(s); err != nil {
		return nil, err
	}
	o, listed := d.options[z.key()]
	if !listed { // of another list: the house has to take its make first
		o = d.take(z)
		var err error
		if d.house, err = newHouse(assume(d.job), d.memo); err != nil {
			return nil, err
		}
	}
	r, err := d.house.judged(o)
	if err != nil {
		return nil, err
	}
	d.results[z.key()] = r
	return r, nil
}

// build makes the house that holds every size of the list.
func (d *sized) build(s *Study) (err error) {
	if d.house != nil {
		return nil
	}
	d.options, d.results = map[string]Option{}, map[string]*OptionResult{}
	d.job.Options = nil
	for _, z := range s.Sizes {
		d.take(z)
	}
	for _, z := range s.Answer.sizes() {
		if _, listed := d.options[z.key()]; !listed {
			d.take(*z)
		}
	}
	d.house, err = newHouse(assume(d.job), d.memo)
	return err
}

func (d *sized) take(z Size) Option {
	d.job.Take(z)
	o := d.job.Options[len(d.job.Options)-1]
	d.options[z.key()] = o
	return o
}

func (z *Size) key() string { return string(z.Place) + " " + z.Label }

// judged solves an option and writes its findings and its verdict.
func (h *house) judged(o Option) (*OptionResult, error) {
	r, err := h.solveOption(o, KindOption)
	if err != nil {
		return nil, err
	}
	r.Findings = h.judgeOption(&r)
	GravestFirst(r.Findings)
	r.Verdict, r.Why = verdict(r.Findings)
	return &r, nil
}
