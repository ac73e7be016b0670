package report

import (
	"fmt"
	"regexp"
	"strconv"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// changes are plain sentences about the work on the house.
func (p *plan) changes(sys units.Locale) []string {
	if p.isToday() {
		return nil
	}
	var out []string
	add := func(id message.ID, args ...any) { out = append(out, message.Text(sys, id, args...)) }
	if c := p.central(); c != nil {
		switch {
		case c.newPlace:
			p.newCasing(*c, sys, add)
		case c.newMake:
			add("Another filter in the place that is there, {size}: {filter}.", "size", c.label(), "filter", p.called(*c))
		}
	} else if p.change.Slot.None && !p.job.Slot.None {
		add("The central filter place is left empty.")
	}
	for _, b := range p.returns {
		if b.isNew {
			out = append(out, p.returnChange(b, sys))
		}
	}
	p.grilleFilters(add)
	p.emptiedGrilles(add)
	for i := range p.job.Returns {
		if t := &p.job.Returns[i]; len(p.change.Returns) > 0 && !p.replaced(t) {
			add("The return \"{return}\" is taken out of use.", "return", sizing.NameOf(*t, i))
		}
	}
	if p.change.Tap != "" && p.change.Tap != p.job.Equipment.Blower.CoolingTap {
		add("The blower's cooling tap is set: {tap}.", "tap", sizing.TapName(p.change.Tap).In(sys))
	}
	if n := p.change.SpeedRatio; n != 0 && n != 1 {
		add("The blower's wheel is set to {ratio} times its speed; on a belt drive by the motor's pulley. Read the motor's amperes after it.", "ratio", message.Fixed(n, 2))
	}
	return out
}

// newCasing describes a new casing at the equipment and its filters.
func (p *plan) newCasing(c filterPlace, sys units.Locale, add func(message.ID, ...any)) {
	filters, size, arrangement, holds := c.Count, c.size.String(), p.arrangement(), p.called(c)
	before, had := centralOf(p.today)
	old := filterPlace{FilterPlace: before, size: p.sizeOf(before)}.label()
	switch {
	case filters > 1 && had:
		add(c.boxed("A filter cabinet for {filters} filters of {size}, {standing} in place of the {old}, holding: {filter}.",
			"A filter grille for {filters} filters of {size}, {standing} in place of the {old}, holding: {filter}.",
			"A filter slot for {filters} filters of {size}, {standing} in place of the {old}, holding: {filter}."),
			"filters", filters, "size", size, "standing", arrangement, "old", old, "filter", holds)
	case filters > 1:
		add(c.boxed("A filter cabinet for {filters} filters of {size}, {standing}, holding: {filter}.",
			"A filter grille for {filters} filters of {size}, {standing}, holding: {filter}.",
			"A filter slot for {filters} filters of {size}, {standing}, holding: {filter}."),
			"filters", filters, "size", size, "standing", arrangement, "filter", holds)
	case had:
		add(c.boxed("A filter cabinet for a {size} filter in place of the {old}, holding: {filter}.",
			"A filter grille for a {size} filter in place of the {old}, holding: {filter}.",
			"A filter slot for a {size} filter in place of the {old}, holding: {filter}."),
			"size", size, "old", old, "filter", holds)
	default:
		add(c.boxed("A filter cabinet for a {size} filter, holding: {filter}.",
			"A filter grille for a {size} filter, holding: {filter}.",
			"A filter slot for a {size} filter, holding: {filter}."),
			"size", size, "filter", holds)
	}
}

// arrangement is the arrangement of the filters of one casing: stacked or side by
// side.
func (p *plan) arrangement() message.ID {
	if a := p.option.Assembly; a != nil && a.Stacked {
		return "one above the other"
	}
	return "side by side"
}

// grilleFilters describes the filters behind grilles that stay.
func (p *plan) grilleFilters(add func(message.ID, ...any)) {
	for _, l := range p.places {
		if l.Branch < 0 && !l.atUnit() && l.newPlace {
			add("Filter grilles in the wall, {size}, holding: {filter}.", "size", l.label(), "filter", p.called(l))
		}
		if l.Branch >= 0 && !l.newPlace && l.newMake {
			add("Another filter behind the {place}, {size}: {filter}.", "place", l.where, "size", l.size.String(), "filter", p.called(l))
		}
	}
}

// emptiedGrilles names the filters that come out of the grilles, and why.
func (p *plan) emptiedGrilles(add func(message.ID, ...any)) {
	for _, b := range p.returns {
		switch {
		case b.old == nil || b.old.Filter == "" || b.Filter != "":
		case len(p.places) > 0 && p.places[len(p.places)-1].Branch < 0: // the place for all air is the last
			add("Take the filter out of the grille of {return} and leave it out: all air then passes the filter at the unit, and two filters in a row cost their drop twice.", "return", b.name)
		default:
			add("Take the filter out of the grille of {return} and leave it out: its air is then not filtered.", "return", b.name)
		}
	}
}

// called is a filter's name with its MERV, unless the name holds it.
func (p *plan) called(l filterPlace) string {
	name := sizing.FilterName(l.filter.Name).Show(p.reader)
	if l.filter.MERV > 0 && !namesMERV(l.filter.Name, l.filter.MERV) {
		return fmt.Sprintf("%s (MERV%c%d)", name, nbsp, l.filter.MERV)
	}
	return name
}

var mervInName = regexp.MustCompile(`(?i)\bMERV[ -]?(\d+)`)

func namesMERV(name string, merv int) bool {
	m := mervInName.FindStringSubmatch(name)
	return m != nil && m[1] == strconv.Itoa(merv)
}

func (p *plan) returnChange(b branch, sys units.Locale) string {
	var parts []any
	if b.Grille.Width > 0 {
		style := b.Grille.Style
		if style == "" {
			style = duct.Stamped
		}
		parts = append(parts, message.New("a {style} grille of {size}", "style", style, "size", named(sys, p.series, b.Grille.Width, b.Grille.Height)))
	}
	for _, r := range b.Runs {
		parts = append(parts, message.New("{length} of {duct}", "length", longways(r.Length, sys), "duct", runSize(r, sys, p.series)))
	}
	if b.Filter != "" {
		for _, l := range p.places {
			if l.behind == b.name {
				parts = append(parts, message.New("a filter behind the grille: {filter}", "filter", p.called(l)))
			}
		}
	}
	id := message.ID("A new return, {return}: {parts}.")
	if b.old != nil {
		id = "A changed return, {return}: {parts}."
	}
	return message.Text(sys, id, "return", b.name, "parts", message.Rows{Mark: ", ", Items: parts})
}

// runSize is a duct's section in words.
func runSize(r duct.Run, sys units.Locale, series units.System) string {
	switch r.Shape {
	case duct.Flex:
		return message.Text(sys, "{size} flex", "size", named(sys, series, r.Diameter))
	case duct.Rectangular:
		return message.Text(sys, "{size} rectangular duct", "size", named(sys, series, r.Width, r.Height))
	}
	return message.Text(sys, "{size} round duct", "size", named(sys, series, r.Diameter))
}
