package report

import (
	"cmp"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/filter"
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
}

// filterPlace is one spot that holds a filter.
type filterPlace struct {
	where    string
	filter   filter.Filter
	size     stock.Size // nominal
	inSlot   bool
	newPlace bool
	newMake  bool
}

// branch is one return after the work.
type branch struct {
	sizing.Return
	name  string
	isNew bool // or changed
}

// planFor settles what is proposed: the option of a name, else the one recommended, else today.
func planFor(job sizing.Job, s *sizing.Study, name string) (*plan, error) {
	p := &plan{job: job, today: s.Today(), series: units.IP}
	if job.Limits.NominalSizes == sizing.MetricSizes {
		p.series = units.SI
	}
	if name == "" {
		p.option = s.Proposed()
	} else if p.option = s.Option(name); p.option == nil || p.option.Kind == sizing.KindNoFilter {
		return nil, &OptionError{"option", name, strings.Join(optionNames(s), ", ")}
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

func optionNames(s *sizing.Study) []string {
	var out []string
	for _, o := range s.Options {
		if o.Kind != sizing.KindNoFilter {
			out = append(out, o.Name)
		}
	}
	return out
}

// isToday tells that nothing is proposed.
func (p *plan) isToday() bool { return p.option.Kind == sizing.KindToday }

// branches compares the returns with today's.
func (p *plan) branches() {
	returns := p.job.Returns
	if len(p.change.Returns) > 0 {
		returns = p.change.Returns
	}
	for i, r := range returns {
		b := branch{Return: r, name: r.Name, isNew: len(p.change.Returns) > 0 && !p.stands(r)}
		if b.name == "" {
			b.name = "return " + string(rune('1'+i%9))
		}
		p.returns = append(p.returns, b)
	}
}

// stands tells that a return is one of today's. The filter in it and the wall
// round it do not count.
func (p *plan) stands(r sizing.Return) bool {
	return slices.ContainsFunc(p.job.Returns, func(t sizing.Return) bool {
		t.Filter, t.OpeningWidth, t.OpeningHeight = r.Filter, r.OpeningWidth, r.OpeningHeight
		return reflect.DeepEqual(t, r)
	})
}

// todays is today's return of a name.
func (p *plan) todays(name string) (sizing.Return, bool) {
	for _, r := range p.job.Returns {
		if r.Name == name {
			return r, true
		}
	}
	return sizing.Return{}, false
}

func (p *plan) filterPlaces() {
	for _, b := range p.returns {
		if b.Filter == "" {
			continue
		}
		f := p.filter(cmp.Or(p.change.Filter, b.Filter))
		old, had := p.todays(b.Name)
		p.places = append(p.places, filterPlace{
			where: b.name + " grille", filter: f, newPlace: b.isNew, newMake: !had || old.Filter != f.Name,
			size: stock.Size{Width: b.Grille.Width, Height: b.Grille.Height, Depth: f.Depth, System: p.series},
		})
	}
	slot := p.job.Slot
	if p.change.Slot != (sizing.Slot{}) {
		slot = p.change.Slot
	}
	size, ok := slotSize(p.option.Place, p.series)
	if !ok {
		return
	}
	f := p.filter(cmp.Or(p.change.Filter, slot.Filter, p.job.Slot.Filter, sizing.GenericFilterName))
	before, had := slotSize(p.today.Place, p.series)
	p.places = append(p.places, filterPlace{
		where: "central filter place", filter: f, size: size, inSlot: true,
		newPlace: !had || before != size, newMake: f.Name != cmp.Or(p.job.Slot.Filter, sizing.GenericFilterName),
	})
}

// filter is the job's filter of a name, or one of which only the name is known.
func (p *plan) filter(name string) filter.Filter {
	for _, f := range p.job.Filters {
		if f.Name == name {
			return f
		}
	}
	f := filter.Filter{Name: name}
	if size, ok := slotSize(p.option.Place, p.series); ok {
		f.Depth = size.Depth
	}
	if p.option.Filter == name {
		f.MERV = p.option.Efficiency.MERV
	}
	return f
}

var slotName = regexp.MustCompile(`^slot ([0-9.]+)x([0-9.]+)(?:x([0-9.]+))?( mm)?$`)

// slotSize reads the central filter's nominal size, which the Study tells as
// the place's name because a job may leave it open.
func slotSize(place string, series units.System) (stock.Size, bool) {
	m := slotName.FindStringSubmatch(place)
	if m == nil {
		return stock.Size{}, false
	}
	unit := "in"
	if m[4] != "" {
		unit = "mm"
	}
	size := stock.Size{System: series}
	for i, l := range []*units.Length{&size.Width, &size.Height, &size.Depth} {
		if m[i+1] == "" {
			continue
		}
		if err := l.UnmarshalText([]byte(m[i+1] + " " + unit)); err != nil {
			return stock.Size{}, false
		}
	}
	return size, true
}

// central is the filter place before the blower, nil where there is none.
func (p *plan) central() *filterPlace {
	for i := range p.places {
		if p.places[i].inSlot {
			return &p.places[i]
		}
	}
	return nil
}

// actual is the filter's frame: as printed where the job says so.
func (l filterPlace) actual() stock.Size {
	a := l.size.Actual()
	f := l.filter
	if f.ActualWidth > 0 && f.ActualHeight > 0 && f.Width == l.size.Width && f.Height == l.size.Height {
		a.Width, a.Height = f.ActualWidth, f.ActualHeight
	}
	return a
}

// box calls the place by its depth: what is deeper than two inches is sold as
// a cabinet.
func (l filterPlace) box() string {
	if l.size.Depth > 2*units.Inch+units.Millimetre {
		return "filter cabinet"
	}
	return "filter slot"
}
