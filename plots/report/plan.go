package report

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// plan is the house as it stands after the work, and what of it is new.
type plan struct {
	job    sizing.Job
	today  *sizing.OptionResult
	option *sizing.OptionResult // today where the job has nothing to propose
	change sizing.Option        // of the job; empty for today

	places  []filterPlace
	returns []branch
	tap     string
	series  units.System // of nominal sizes
	reader  units.Locale
}

// filterPlace is one place for a filter.
type filterPlace struct {
	sizing.FilterPlace
	where    string // what a reader calls the place
	behind   string // name of the return whose grille holds it; empty at the unit
	filter   filter.Filter
	size     stock.Size // nominal, of one filter
	newPlace bool
	newMake  bool
}

// branch is one return after the work.
type branch struct {
	sizing.Return
	name  string
	old   *sizing.Return // of today's that it replaces; nil: none
	isNew bool           // or changed
}

// planFor decides what is proposed: the option of a name, else the one recommended, else
// today.
func planFor(job sizing.Job, s *sizing.Study, name string, reader units.Locale) (*plan, error) {
	p := &plan{job: job, today: s.Today(), series: units.InchPound, reader: reader}
	if job.Limits.NominalSizes == sizing.MetricSizes {
		p.series = units.Metric
	}
	if name == "" {
		p.option = s.Proposed()
	} else if p.option = s.Option(name); p.option == nil || p.option.Kind == sizing.KindNoFilter {
		return nil, &OptionError{"option", name, message.Rows{Mark: ", ", Items: optionNames(s)}}
	}
	for _, o := range job.Options {
		if o.Name == p.option.Name {
			p.change = o
		}
	}
	p.tap = cmp.Or(p.change.Tap, s.Blower.CoolingTap)
	p.branches()
	p.filterPlaces()
	return p, nil
}

func optionNames(s *sizing.Study) []any {
	var out []any
	for _, o := range s.Options {
		if o.Kind != sizing.KindNoFilter {
			out = append(out, o.Name)
		}
	}
	return out
}

// isToday reports whether nothing is proposed.
func (p *plan) isToday() bool { return p.option.Kind == sizing.KindToday }

// branches compares the returns with today's.
func (p *plan) branches() {
	returns := p.job.Returns
	if len(p.change.Returns) > 0 {
		returns = p.change.Returns
	}
	for i, r := range returns {
		b := branch{Return: r, name: sizing.NameOf(r, i).Show(p.reader), old: p.existing(r)}
		if b.old == nil {
			b.old, b.isNew = sizing.Replaced(p.job.Returns, r, i), true
		}
		p.returns = append(p.returns, b)
	}
}

// existing finds a return among today's. A second one like it is new.
func (p *plan) existing(r sizing.Return) *sizing.Return {
	for i := range p.job.Returns {
		if t := &p.job.Returns[i]; alike(*t, r) && !p.replaced(t) {
			return t
		}
	}
	return nil
}

// replaced reports whether a return of the proposal takes the place of today's.
func (p *plan) replaced(t *sizing.Return) bool {
	return slices.ContainsFunc(p.returns, func(b branch) bool { return b.old == t })
}

// alike reports whether two returns are the same. The filter in it and the wall round it
// do not count.
func alike(a, b sizing.Return) bool {
	a.Filter, a.OpeningWidth, a.OpeningHeight = b.Filter, b.OpeningWidth, b.OpeningHeight
	return reflect.DeepEqual(a, b)
}

func (p *plan) filterPlaces() {
	for _, at := range p.option.Places {
		l := filterPlace{FilterPlace: at, filter: p.filter(at),
			size: stock.Size{Width: at.Width, Height: at.Height, Depth: at.Depth, System: p.series}}
		if at.Branch >= 0 {
			b := p.returns[at.Branch]
			l.where, l.behind = message.Text(p.reader, "{return} grille", "return", b.name), b.name
			l.newPlace, l.newMake = b.isNew, b.old == nil || b.old.Filter != at.Filter
		} else {
			l.where = message.Text(p.reader, "central filter place")
			if at.Where == sizing.InGrille {
				l.where = message.Text(p.reader, "return grilles")
			}
			before, had := centralOf(p.today)
			l.newPlace = !had || before.Where != at.Where || before.Count != at.Count || p.sizeOf(before) != l.size
			l.newMake = !had || before.Filter != at.Filter
		}
		p.places = append(p.places, l)
	}
}

// centralOf is an option's filter place before the blower.
func centralOf(o *sizing.OptionResult) (sizing.FilterPlace, bool) {
	for _, l := range o.Places {
		if l.Branch < 0 {
			return l, true
		}
	}
	return sizing.FilterPlace{}, false
}

func (p *plan) sizeOf(l sizing.FilterPlace) stock.Size {
	return stock.Size{Width: l.Width, Height: l.Height, Depth: l.Depth, System: p.series}
}

// filter is the job's filter of a place, or one of which only name, depth and
// rating are known.
func (p *plan) filter(at sizing.FilterPlace) filter.Filter {
	for _, f := range p.job.Filters {
		if f.Name == at.Filter {
			return f
		}
	}
	return filter.Filter{Name: at.Filter, Depth: at.Depth, MERV: p.option.Efficiency.MERV}
}

// central is the filter place at the equipment, nil where there is none.
func (p *plan) central() *filterPlace {
	for i := range p.places {
		if p.places[i].Branch < 0 && p.places[i].atUnit() {
			return &p.places[i]
		}
	}
	return nil
}

// actual is the filter's frame: as printed where the job has that size.
func (l filterPlace) actual() stock.Size {
	a := l.size.Actual()
	f := l.filter
	if f.ActualWidth > 0 && f.ActualHeight > 0 && f.Width == l.size.Width && f.Height == l.size.Height {
		a.Width, a.Height = f.ActualWidth, f.ActualHeight
	}
	return a
}

// box is what the place is sold as.
func (l filterPlace) box() message.ID {
	return l.boxed("filter cabinet", "filter grille", "filter slot")
}

// boxed chooses between messages by what the place is sold as.
func (l filterPlace) boxed(cabinet, grille, slot message.ID) message.ID {
	switch l.Where {
	case sizing.InCabinet:
		return cabinet
	case sizing.InGrille:
		return grille
	}
	return slot
}

// atUnit reports whether the place is a casing at the equipment.
func (l filterPlace) atUnit() bool { return l.Where != sizing.InGrille }

// label is the place's filters: "2 x 20x24x4".
func (l filterPlace) label() string {
	if l.Count > 1 {
		return fmt.Sprintf("%d x %s", l.Count, l.size)
	}
	return l.size.String()
}
