package house

import (
	"reflect"
	"sync"

	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// NewMovedLaws keeps laws for many samples of one job, in which the media of its
// filters resist more or less and all else of them stays. It may be used from
// several goroutines at once, and which of them asks first does not matter.
func NewMovedLaws(filters []filter.Filter) *LawCache {
	m := &movedLaws{typed: filters, kept: map[LawCacheKey]*movedLaw{}}
	return &LawCache{moved: m}
}

type movedLaws struct {
	typed []filter.Filter
	mu    sync.Mutex
	kept  map[LawCacheKey]*movedLaw
}

// movedLaw is one make in a face: as typed, and as its media move.
type movedLaw struct {
	once     sync.Once
	typed    filter.Filter
	law      filter.Law
	sound    bool
	family   filter.Family
	isFamily bool
}

// law is that of a make as a sample has it; ok is false where none is kept.
func (m *movedLaws) law(f filter.Filter, width, height units.Length, a air.Properties) (filter.Law, bool) {
	typed, ok := m.typedAs(f)
	if !ok {
		return filter.Law{}, false
	}
	key := LawCacheKey{lawKey{name: f.Name, depth: f.Depth, width: width, height: height}, a}
	m.mu.Lock()
	k := m.kept[key]
	if k == nil {
		k = &movedLaw{typed: typed}
		m.kept[key] = k
	}
	m.mu.Unlock()
	k.once.Do(func() {
		law, err := k.typed.Law(width, height, a)
		k.law, k.sound = law, err == nil
		k.family, k.isFamily = k.typed.Family(width, height, a)
	})
	switch {
	case reflect.DeepEqual(f, k.typed):
		return k.law, k.sound
	case k.isFamily:
		return k.family.Law(f)
	}
	return filter.Law{}, false
}

// typedAs is the filter of the job that a sample has moved: all but what its
// media resist is the same.
func (m *movedLaws) typedAs(f filter.Filter) (filter.Filter, bool) {
	for _, t := range m.typed {
		if t.Name != f.Name {
			continue
		}
		t.Depth = f.Depth // as the place has it
		as := f
		as.MediaResistance, as.MediaPermeability = t.MediaResistance, t.MediaPermeability
		return t, len(f.Rating) == 0 && reflect.DeepEqual(as, t)
	}
	return filter.Filter{}, false
}
