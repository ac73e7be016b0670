package house

import (
	"cmp"
	"slices"

	"returnbench/sizing/airpath"
	"returnbench/sizing/assume"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// Arrangement is the return side with one set of filters.
type Arrangement struct {
	name       string
	kind       study.OptionKind
	Returns    []job.Return
	Slot       job.Slot
	Tap        TapSpeed // in cooling
	heatingTap TapSpeed
	fanTap     TapSpeed // with neither
	Price      units.Money
	NoFilters  bool // every filter taken out
	// KeepsReturns: the return side is today's.
	KeepsReturns bool
	factors      []GaugeFactors // by branch
	Places       []place
	// As last solved: the point; for each place, the share of its air that leaks past
	// its frame, and the share of all return air that it carries.
	point  airpath.Point
	leaks  []float64
	shares []float64
}

// Arrange lays out the returns, filter places and taps of an option. What the
// option leaves open is as today.
func (h *House) Arrange(o job.Option, kind study.OptionKind) (*Arrangement, error) {
	a := &Arrangement{}
	return a, h.Rearrange(a, o, kind)
}

// Rearrange is Arrange in the memory of an arrangement that is of no more use, nor
// any system of it.
func (h *House) Rearrange(a *Arrangement, o job.Option, kind study.OptionKind) error {
	*a = Arrangement{Places: a.Places[:0], name: o.Name, kind: kind, Returns: h.Returns, Slot: h.Slot, Price: o.Price}
	var err error
	if a.Tap, err = h.tapAtSpeed(cmp.Or(o.Tap, h.Equipment.Blower.CoolingTap), o.SpeedRatio); err != nil {
		return err
	}
	if a.heatingTap, err = h.tapAtSpeed(h.Equipment.Blower.HeatingTap, o.SpeedRatio); err != nil {
		return err
	}
	// A fan tap left open is the cooling tap, in options too.
	if a.fanTap = a.Tap; h.Site.FanHours > 0 && !h.Assumes("equipment.blower.fan_tap") {
		if a.fanTap, err = h.tapAtSpeed(h.Equipment.Blower.FanTap, o.SpeedRatio); err != nil {
			return err
		}
	}
	if a.KeepsReturns = len(o.Returns) == 0; !a.KeepsReturns {
		a.Returns = make([]job.Return, len(o.Returns))
		for i, r := range o.Returns {
			a.Returns[i] = h.Complete(r)
		}
	}
	if o.Slot != (job.Slot{}) {
		a.Slot = h.completeSlot(o.Slot, o.Filter)
	}
	if o.Filter != "" {
		a.Returns = withFilter(a.Returns, o.Filter)
		if !a.Slot.None {
			a.Slot.Filter = o.Filter
		}
	}
	a.factors = h.RetainedFactors(a.Returns)
	return h.placeFilters(a)
}

// withFilter replaces the filter in each branch that has one.
func withFilter(branches []job.Return, name string) []job.Return {
	other := func(r job.Return) bool { return r.Filter != "" && r.Filter != name }
	if !slices.ContainsFunc(branches, other) {
		return branches
	}
	branches = slices.Clone(branches)
	for i := range branches {
		if branches[i].Filter != "" {
			branches[i].Filter = name
		}
	}
	return branches
}

// completeSlot fills what a new slot leaves open from its filter or from today's slot.
func (h *House) completeSlot(s job.Slot, name string) job.Slot {
	if s.None {
		return s
	}
	if s.Filter == "" {
		s.Filter = name
	}
	if s.Filter == "" {
		s.Filter = h.Slot.Filter
	}
	f, _ := h.Filter(s.Filter)
	if s.Width == 0 {
		s.Width, s.Height = f.Width, f.Height
	}
	if s.Width == 0 {
		s.Width, s.Height = h.Slot.Width, h.Slot.Height
		if s.Count == 0 {
			s.Count, s.Stacked = h.Slot.Count, h.Slot.Stacked
		}
	}
	if s.Width == 0 {
		s.Width, s.Height = assume.UsualSlot(h.DesignAirflow)
	}
	if s.Depth == 0 {
		s.Depth = f.Depth
	}
	if s.Depth == 0 {
		s.Depth = units.Inch
	}
	if s.Filter == "" {
		s.Filter = assume.GenericFilterName
	}
	return s
}

func (h *House) placeFilters(a *Arrangement) error {
	n := 0 // a place is large, and most branches hold none
	for _, r := range a.Returns {
		if r.Filter != "" {
			n++
		}
	}
	if !a.Slot.None {
		n++
	}
	a.Places = slices.Grow(a.Places, n)
	for i, r := range a.Returns {
		if r.Filter == "" {
			continue
		}
		if err := h.fillPlace(a.newPlace(), i, r.Filter, job.Slot{Width: r.Grille.Width, Height: r.Grille.Height}); err != nil {
			return err
		}
	}
	if !a.Slot.None {
		p := a.newPlace()
		if err := h.fillPlace(p, -1, a.Slot.Filter, a.Slot); err != nil {
			return err
		}
		p.count = a.Slot.Filters()
	}
	return nil
}

// newPlace lengthens the list by one place, in memory that is there already.
func (a *Arrangement) newPlace() *place {
	a.Places = a.Places[:len(a.Places)+1]
	return &a.Places[len(a.Places)-1]
}

func (a *Arrangement) Central() *place {
	for i := range a.Places {
		if a.Places[i].branch < 0 {
			return &a.Places[i]
		}
	}
	return nil
}

func (a *Arrangement) inBranch(i int) *place {
	for k := range a.Places {
		if a.Places[k].branch == i {
			return &a.Places[k]
		}
	}
	return nil
}

// Areas are the nominal face area and the media area, m2, that the air crosses side by
// side: of the filter at the unit, which all of it crosses, else of all filters in the
// branches. Filters one after the other share no air.
func (a *Arrangement) Areas() (face, media float64) {
	add := func(p *place) {
		face += p.face()
		media += p.face() * p.Law.MediaAreaRatio
	}
	if p := a.Central(); p != nil {
		add(p)
		return face, media
	}
	for i := range a.Places {
		add(&a.Places[i])
	}
	return face, media
}
