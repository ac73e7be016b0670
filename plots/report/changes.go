package report

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

// changes tells in plain sentences what is done to the house.
func (p *plan) changes(sys units.Locale) []string {
	if p.isToday() {
		return nil
	}
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if c := p.central(); c != nil {
		switch {
		case c.newPlace:
			old := ""
			if before, ok := centralOf(p.today); ok {
				old = " in place of the " + filterPlace{FilterPlace: before, size: p.sizeOf(before)}.label()
			}
			if c.Count > 1 {
				add("A %s for %d filters of %s, %s%s, holding: %s.", c.box(), c.Count, c.size, p.standing(), old, called(*c))
			} else {
				add("A %s for a %s filter%s, holding: %s.", c.box(), c.size, old, called(*c))
			}
		case c.newMake:
			add("Another filter in the place that is there, %s: %s.", c.label(), called(*c))
		}
	} else if p.change.Slot.None && !p.job.Slot.None {
		add("The central filter place is left empty.")
	}
	for _, b := range p.returns {
		if b.isNew {
			add("%s", p.returnChange(b, sys))
		}
	}
	p.grilleFilters(add)
	for _, t := range p.job.Returns {
		if len(p.change.Returns) > 0 && !p.keeps(t.Name) {
			add("The return %q is taken out of use.", t.Name)
		}
	}
	if p.change.Tap != "" && p.change.Tap != p.job.Equipment.Blower.CoolingTap {
		add("The blower's cooling tap is set: %s.", sizing.TapName(p.change.Tap))
	}
	if n := p.change.SpeedRatio; n != 0 && n != 1 {
		add("The blower's wheel is set to %.2f times its speed; on a belt drive by the motor's pulley. Read the motor's amperes after it.", n)
	}
	return out
}

// standing is how the filters of one casing stand to each other.
func (p *plan) standing() string {
	if a := p.option.Assembly; a != nil && a.Stacked {
		return "one above the other"
	}
	return "side by side"
}

// grilleFilters tells of other filters behind grilles that stay.
func (p *plan) grilleFilters(add func(string, ...any)) {
	for _, l := range p.places {
		if l.Branch < 0 && !l.atUnit() && l.newPlace {
			add("Filter grilles in the wall, %s, holding: %s.", l.label(), called(l))
		}
		if l.Branch >= 0 && !l.newPlace && l.newMake {
			add("Another filter behind the %s, %s: %s.", l.where, l.size, called(l))
		}
	}
}

// called is a filter's name with its MERV, unless the name holds it.
func called(l filterPlace) string {
	if l.filter.MERV > 0 && !namesMERV(l.filter.Name, l.filter.MERV) {
		return fmt.Sprintf("%s (MERV%c%d)", l.filter.Name, nbsp, l.filter.MERV)
	}
	return l.filter.Name
}

var mervInName = regexp.MustCompile(`(?i)\bMERV[ -]?(\d+)`)

func namesMERV(name string, merv int) bool {
	m := mervInName.FindStringSubmatch(name)
	return m != nil && m[1] == strconv.Itoa(merv)
}

func (p *plan) keeps(name string) bool {
	for _, b := range p.returns {
		if b.Name == name {
			return true
		}
	}
	return false
}

func (p *plan) returnChange(b branch, sys units.Locale) string {
	var parts []string
	if b.Grille.Width > 0 {
		style := b.Grille.Style
		if style == "" {
			style = duct.Stamped
		}
		parts = append(parts, fmt.Sprintf("a %s grille of %s", style, named(sys, p.series, b.Grille.Width, b.Grille.Height)))
	}
	for _, r := range b.Runs {
		parts = append(parts, longways(r.Length, sys)+" of "+runSize(r, sys, p.series))
	}
	text := strings.Join(parts, ", ")
	if b.Filter != "" {
		for _, l := range p.places {
			if l.where == b.name+" grille" {
				text += ", a filter behind the grille: " + called(l)
			}
		}
	}
	verb := "A new return"
	if _, had := p.todays(b.Name); had && b.Name != "" {
		verb = "A changed return"
	}
	return fmt.Sprintf("%s, %s: %s.", verb, b.name, text)
}

// runSize is a duct's section in words.
func runSize(r duct.Run, sys units.Locale, series units.System) string {
	switch r.Shape {
	case duct.Flex:
		return named(sys, series, r.Diameter) + " flex"
	case duct.Rectangular:
		return named(sys, series, r.Width, r.Height) + " rectangular duct"
	}
	return named(sys, series, r.Diameter) + " round duct"
}
