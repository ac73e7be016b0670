package search

import (
	"sync"

	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/option"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// SizeOptions is the house with each size of a Study as an option, made when it is
// first asked for: to judge every size would cost more than the rest of a Study.
type SizeOptions struct {
	mutex   sync.Mutex
	Job     job.Job // as it was solved
	Memo    *house.LawCache
	house   *house.House
	options map[string]job.Option
	results map[string]*study.OptionResult
}

// With is the house with a size of the Study put in.
func (d *SizeOptions) With(s *study.Study, z study.Size) (*study.OptionResult, error) {
	d.mutex.Lock()
	defer d.mutex.Unlock()
	if r := d.results[z.Key()]; r != nil {
		return r, nil
	}
	if err := d.build(s); err != nil {
		return nil, err
	}
	o, listed := d.options[z.Key()]
	if !listed { // of another list: the house has to take its make first
		o = d.addOption(z)
		var err error
		if d.house, err = house.New(assume.Job(d.Job), d.Memo); err != nil {
			return nil, err
		}
	}
	r, err := option.SolveWithFindings(d.house, o)
	if err != nil {
		return nil, err
	}
	d.results[z.Key()] = r
	return r, nil
}

// build makes the house that holds every size of the list.
func (d *SizeOptions) build(s *study.Study) (err error) {
	if d.house != nil {
		return nil
	}
	d.options, d.results = map[string]job.Option{}, map[string]*study.OptionResult{}
	d.Job.Options = nil
	for _, z := range s.Sizes {
		d.addOption(z)
	}
	d.house, err = house.New(assume.Job(d.Job), d.Memo)
	return err
}

func (d *SizeOptions) addOption(z study.Size) job.Option {
	AddSize(units.IP, &d.Job, z)
	o := d.Job.Options[len(d.Job.Options)-1]
	d.options[z.Key()] = o
	return o
}
