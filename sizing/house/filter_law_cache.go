package house

import (
	"reflect"

	lru "github.com/hashicorp/golang-lru/v2"

	"returnbench/sizing/air"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// LawCacheSize is the number of laws kept: filters and faces of several houses.
const LawCacheSize = 512

// LawCache keeps the laws of filters by make, face and air. It may be used from
// several goroutines; nil keeps none.
type LawCache struct {
	Cache *lru.Cache[LawCacheKey, CachedLaw]
	moved *movedLaws // in place of the cache, for samples
}

// LawCacheKey is a make in a face, in some air.
type LawCacheKey struct {
	lawKey
	air air.Properties
}

// CachedLaw is the law of a make together with that make, which may change under its
// name.
type CachedLaw struct {
	filter filter.Filter
	law    filter.Law
}

// law is the clean law of a filter in a face, worked out once.
func (m *LawCache) law(f filter.Filter, width, height units.Length, a air.Properties) (filter.Law, error) {
	if m == nil || f.Pleats == 0 && f.MediaArea == 0 && f.MediaResistance == 0 && f.MediaPermeability == 0 {
		return f.Law(width, height, a) // the law of a rating is cheaper than a look-up
	}
	if m.moved != nil {
		if law, ok := m.moved.law(f, width, height, a); ok {
			return law, nil
		}
		return f.Law(width, height, a)
	}
	key := LawCacheKey{lawKey{name: f.Name, depth: f.Depth, width: width, height: height}, a}
	if made, ok := m.Cache.Get(key); ok && reflect.DeepEqual(made.filter, f) {
		return made.law, nil
	}
	l, err := f.Law(width, height, a)
	if err == nil {
		m.Cache.Add(key, CachedLaw{f, l})
	}
	return l, err
}
