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

// SizeOptions solves and judges the house with a size of a Study when that is
// first asked for: doing so for every size would take longer than the rest of a
// Study.
type SizeOptions struct {
	mutex   sync.Mutex
	Job     job.Job // as it was solved
	Memo    *house.LawCache
	house   *house.House
	options map[string]job.Option
	results map[string]*study.OptionResult
}

// With is the result of the house with a size of the Study.
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
	if !listed { // of another list: its filter must be added to the job first
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

// build makes a house that has the filters of every size of the list.
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
