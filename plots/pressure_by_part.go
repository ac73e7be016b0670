package plots

import (
	"cmp"
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/message"
)

// PressureByPart shows the drops of return, filter, coil and supply in the
// external static, option by option, against the rated static.
func PressureByPart(s *sizing.Study, look Look) Chart { return pressureByPartKind.Chart(s, look) }

var pressureByPartKind = Kind{"pressure-by-part", "Where the pressure goes", pressureByPart}

func pressureByPart(s Subject, look Look) *frame {
	look = look.complete()
	b := &bars{total: "External static, {unit}", whole: "external static {value}", unit: look.unit(s.RatedExternalStatic), limit: look.in(s.RatedExternalStatic), word: look.say("rated {static}", "static", s.RatedExternalStatic)}
	if !finite(b.limit) {
		b.limit = 0
	}
	parts := partNames(s.Study)
	for _, name := range shownParts(s.Study, parts) {
		b.key = append(b.key, swatch(look.part(name), look.fill(slices.Index(parts, name))))
	}
	for i := range s.Options {
		o := &s.Options[i]
		g := barGroup{name: sizing.OptionName(o.Name).Show(look.Units), rows: []bar{pressureBar(&o.Clean, cleanWord(o), parts, look)}}
		if known := s.ranges(i); known != nil {
			g.rows[0].reach = reach(known.ExternalStatic, look)
		}
		if !noFilter(o) {
			g.rows = append(g.rows, pressureBar(&o.Loaded, loadedState, parts, look))
		}
		b.groups = append(b.groups, g)
	}
	return newBarFrame(look, b)
}

func cleanWord(o *sizing.OptionResult) message.ID {
	if noFilter(o) {
		return ""
	}
	return cleanState
}

func pressureBar(c *sizing.Condition, state message.ID, parts []sizing.PartName, look Look) bar {
	r := bar{state: state, total: look.in(c.ExternalStatic), read: c.ExternalStatic.Show(look.Units), sum: c.ExternalStatic.Kind().Number(c.ExternalStatic.SI(), look.Units)}
	for _, p := range c.Parts {
		if p.Internal {
			continue
		}
		r.pieces = append(r.pieces, piece{
			name: look.part(p.Name), read: p.Drop.Show(look.Units),
			value: look.in(p.Drop), text: p.Drop.Kind().Number(p.Drop.SI(), look.Units), fill: look.fill(slices.Index(parts, p.Name))})
	}
	return r
}

// partNames are all parts in the order of the airpath, the usual ones first, so
// that a part keeps its color from house to house.
func partNames(s *sizing.Study) []sizing.PartName {
	names := []sizing.PartName{sizing.PartReturn, sizing.PartFilter, sizing.PartCoil, sizing.PartSupply}
	for _, name := range shownParts(s, nil) {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// shownParts are the external parts of the options, in the order of all where
// that is given.
func shownParts(s *sizing.Study, all []sizing.PartName) []sizing.PartName {
	var names []sizing.PartName
	for _, o := range s.Options {
		for _, p := range slices.Concat(o.Clean.Parts, o.Loaded.Parts) {
			if !p.Internal && !slices.Contains(names, p.Name) {
				names = append(names, p.Name)
			}
		}
	}
	slices.SortStableFunc(names, func(a, b sizing.PartName) int { return cmp.Compare(slices.Index(all, a), slices.Index(all, b)) })
	return names
}
