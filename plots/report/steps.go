package report

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// method is an equation with the meaning of its symbols. Its uses are the texts and
// the sources of the steps that use it.
type method struct {
	equation string
	terms    []atom
	uses     []use
}

type use struct{ text, source string }

// methods are printed once, and referred to by their numbers.
type methods struct {
	units units.Locale
	list  []method
	known map[string]int
}

// of names the method of a step, "17" or "17b" where it has several uses, and gives
// its number.
func (m *methods) of(s sizing.Step) (number, use int) {
	equation, terms := equationOf(s, m.units), termsOf(s, m.units)
	key := fmt.Sprint(equation, terms)
	if m.known[key] == 0 {
		m.list = append(m.list, method{equation: equation, terms: terms})
		m.known[key] = len(m.list)
	}
	number = m.known[key]
	x := &m.list[number-1]
	return number, x.useOf(s, m.units)
}

func (x *method) useOf(s sizing.Step, reader units.Locale) int {
	u := use{wordOf(s.Text, reader), wordOf(s.Source, reader)}
	if i := slices.Index(x.uses, u); i >= 0 {
		return i
	}
	x.uses = append(x.uses, u)
	return len(x.uses) - 1
}

// name of a use of a method.
func (m *methods) name(number, use int) string {
	if len(m.list[number-1].uses) < 2 {
		return fmt.Sprint(number)
	}
	return fmt.Sprint(number, letterFor(use))
}

// letterFor counts a, b ... z, aa, ab.
func letterFor(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return letterFor(n/26-1) + letterFor(n%26)
}

// equationOf is the equation with a decimal point, which the typesetter reads; it
// writes the reader's decimal mark.
func equationOf(s sizing.Step, sys units.Locale) string {
	sys.Comma = false
	return s.Equation(sys)
}

// termsOf are the meanings of an equation's symbols, grouped by their units.
func termsOf(s sizing.Step, sys units.Locale) []atom {
	var order []string
	by := map[string][][]atom{}
	for _, in := range s.Inputs {
		term, unit := in.Term(sys)
		what := wordOf(term, sys)
		if by[unit] == nil {
			order = append(order, unit)
		}
		by[unit] = append(by[unit], append([]atom{symbolSpans(in.Symbol)}, plainAtoms(what)...))
	}
	var out []atom
	for i, unit := range order {
		if i > 0 {
			out = closed(out, ";")
		}
		for k, term := range by[unit] {
			if k > 0 {
				out = closed(out, ",")
			}
			out = append(out, term...)
		}
		if unit != "" {
			out = append(out, atom{{text: message.Text(sys, "in\u00a0[{unit}]", "unit", strings.ReplaceAll(unit, " ", string(nbsp)))}})
		}
	}
	return out
}

// closed ends the last word with a mark.
func closed(list []atom, mark string) []atom {
	if len(list) > 0 {
		last := slices.Clone(list[len(list)-1])
		list[len(list)-1] = append(last, span{text: mark})
	}
	return list
}

// section is the workings of one option, or of the house.
type section struct {
	title, option string
	workings      []sizing.Working
	lines         []stepLine
}

// stepLine is a step with its numbers, clean and dirty together.
type stepLine struct {
	working     string
	number, use int
	atoms       []atom
	plain       string
}

// steps writes every working, an option a section: the method by its number, and the
// numbers in it. Steps that several options share are printed once, before them.
func (d *document) steps(f *flow) {
	m := &methods{units: d.System, known: map[string]int{}}
	list := d.sections()
	seen := map[string]int{}
	for i := range list {
		list[i].lines = d.linesOf(list[i], m)
		once := map[string]bool{}
		for _, l := range list[i].lines {
			if !once[l.key()] {
				once[l.key()] = true
				seen[l.key()]++
			}
		}
	}
	f.heading(d.say(methodsTitle))
	f.paragraph(style{size: stepSize}, d.say("Each step below has the number of its method, the value of each symbol in the unit listed here, and the result. Clean: a new filter; dirty: one due for a change. Values that both share come first."))
	f.gap(3)
	d.methodList(f, m)
	shared := map[string]int{}
	var common []stepLine
	for _, s := range list {
		for _, l := range s.lines {
			if s.option != "" && seen[l.key()] > 1 && shared[l.key()] == 0 {
				common = append(common, l)
				shared[l.key()] = len(common)
			}
		}
	}
	for _, s := range list {
		if s.option != "" && len(common) > 0 {
			d.commonSteps(f, m, common)
			common = nil
		}
		f.heading(s.title)
		d.sectionSteps(f, m, s, shared)
	}
}

func (l stepLine) key() string { return fmt.Sprint(l.number, " ", l.plain) }

const stepSize, stepIndent = 7.25, 19.0

// methodList sets the equations.
func (d *document) methodList(f *flow, m *methods) {
	t, wide := style{size: stepSize}, f.columnWidth(2)
	var pieces []piece
	for i, x := range m.list {
		b := f.equation(style{size: 9}, x.equation, wide-stepIndent)
		pieces = append(pieces, piece{height: b.up + b.down + 2.5, keep: true, draw: func(px, y float64) {
			f.put(style{size: stepSize, bold: true}, px, y+b.up+1, fmt.Sprint(i+1))
			b.draw(px+stepIndent, y+b.up+1)
		}})
		if len(x.terms) > 0 {
			pieces = append(pieces, held(f.block(t, wide, "", stepIndent, x.terms))...)
		}
		for k, u := range x.uses {
			mark := plainAtoms("")
			if len(x.uses) > 1 {
				mark = boldAtoms(letterFor(k))
			}
			text := u.text
			if k > 0 && u.text == x.uses[k-1].text {
				text = d.say("The same.")
			}
			p := f.block(t, wide, "", stepIndent, append(mark, plainAtoms(text+" ["+u.source+"]")...))
			p[len(p)-1].keep = k == 0 && len(x.uses) > 1
			pieces = append(pieces, p...)
		}
		pieces = append(pieces, piece{height: 2.5, space: true})
	}
	f.columns(2, pieces)
}

func (d *document) commonSteps(f *flow, m *methods, common []stepLine) {
	f.heading(d.say(commonTitle))
	t, wide := style{size: stepSize}, f.columnWidth(2)
	var pieces []piece
	last := ""
	for i, l := range common {
		if l.working != last {
			pieces = append(pieces, d.workingName(f, l.working))
			last = l.working
		}
		pieces = append(pieces, f.block(t, wide, fmt.Sprintf("S%d", i+1), stepIndent, append(boldAtoms(m.name(l.number, l.use)), l.atoms...))...)
	}
	f.columns(2, pieces)
}

func (d *document) workingName(f *flow, name string) piece {
	t := style{size: stepSize, bold: true}
	lines := f.cutLines(t, name, f.columnWidth(2), 1)
	return piece{height: t.dense() + 1, keep: true, draw: func(x, y float64) { f.put(t, x, y+t.ascent()+1, lines[0]) }}
}

// sectionSteps sets the steps of a section; a step printed elsewhere is referred
// to.
func (d *document) sectionSteps(f *flow, m *methods, s section, shared map[string]int) {
	t, wide := style{size: stepSize}, f.columnWidth(2)
	var pieces []piece
	told := map[string]string{}
	last, elsewhere := "", []string(nil)
	flush := func() {
		if len(elsewhere) > 0 {
			pieces = append(pieces, f.block(t, wide, "", stepIndent, plainAtoms(d.say("as told in {places}", "places", strings.Join(elsewhere, ", "))))...)
			elsewhere = nil
		}
	}
	for _, l := range s.lines {
		if l.working != last {
			flush()
			pieces = append(pieces, d.workingName(f, l.working))
			last = l.working
		}
		switch n := shared[l.key()]; {
		case n > 0 && s.option != "":
			elsewhere = append(elsewhere, fmt.Sprintf("S%d", n))
		case told[l.key()] != "":
			elsewhere = append(elsewhere, fmt.Sprintf("%s (%s)", told[l.key()], m.name(l.number, l.use)))
		default:
			flush()
			pieces = append(pieces, f.block(t, wide, m.name(l.number, l.use), stepIndent, l.atoms)...)
			told[l.key()] = l.working
		}
	}
	flush()
	f.columns(2, pieces)
}

// sections groups the workings by option.
func (d *document) sections() []section {
	list := []section{{title: d.say("The house")}}
	for _, o := range d.study.Options {
		list = append(list, section{title: d.say("Option: {option}", "option", sizing.OptionName(o.Name).Show(d.System)), option: o.Name})
	}
	for _, w := range d.study.Workings() {
		at, i := 0, 0
		if n, _ := fmt.Sscanf(w.Key, "options[%d]", &i); n == 1 && i+1 < len(list) {
			at = i + 1
		}
		list[at].workings = append(list[at].workings, w)
	}
	for i := range list {
		staticFirst(list[i].workings)
	}
	return slices.DeleteFunc(list, func(s section) bool { return len(s.workings) == 0 })
}

// staticFirst puts the drops of the parts before the airflow that they lead to.
func staticFirst(list []sizing.Working) {
	for i := range len(list) - 1 {
		if strings.HasSuffix(list[i].Key, ".airflow") && strings.HasSuffix(list[i+1].Key, ".external_static") {
			list[i], list[i+1] = list[i+1], list[i]
		}
	}
}

// linesOf sets the steps of a section in lines: those of a dirty filter in the line
// of the same of a clean one.
func (d *document) linesOf(s section, m *methods) []stepLine {
	var out []stepLine
	paired := map[string]bool{}
	for _, w := range s.workings {
		if paired[w.Key] {
			continue
		}
		other := sizing.Working{}
		if w.Filter == "clean" {
			other = dirtyOf(s.workings, w)
			paired[other.Key] = true
		}
		out = append(out, d.workingLines(s, w, other, m)...)
	}
	return out
}

// dirtyOf is the same number with a dirty filter.
func dirtyOf(list []sizing.Working, w sizing.Working) sizing.Working {
	key := strings.Replace(w.Key, ".clean.", ".loaded.", 1)
	for _, x := range list {
		if x.Key == key && x.Filter == "loaded" {
			return x
		}
	}
	return sizing.Working{}
}

func (d *document) workingLines(s section, w, other sizing.Working, m *methods) []stepLine {
	name := strings.TrimSuffix(strings.TrimSuffix(d.word(w.Name), ", "+s.option), ", "+sizing.OptionName(s.option).Show(d.System))
	var out []stepLine
	add := func(clean, dirty *sizing.Step) {
		step := clean
		if clean == nil {
			step = dirty
		}
		l := stepLine{working: name}
		l.number, l.use = m.of(*step)
		l.atoms = numbersOf(clean, dirty, w.Filter != "" && w.Filter != "loaded", d.System)
		l.plain = plainOf(l.atoms)
		out = append(out, l)
	}
	rest := slices.Clone(other.Steps)
	for _, step := range w.Steps {
		n, _ := m.of(step)
		i := slices.IndexFunc(rest, func(x sizing.Step) bool {
			k, _ := m.of(x)
			return k == n && d.word(x.Text) == d.word(step.Text)
		})
		if i < 0 {
			add(&step, nil)
			continue
		}
		dirty := rest[i]
		rest = slices.Delete(rest, i, i+1)
		add(&step, &dirty)
	}
	for _, step := range rest {
		add(nil, &step)
	}
	return out
}

// numbersOf writes a step's numbers: first what clean and dirty have in common, then
// each with its result. Their units are the method's.
func numbersOf(clean, dirty *sizing.Step, twice bool, sys units.Locale) []atom {
	if clean != nil && dirty != nil && sameStep(*clean, *dirty, sys) {
		return valuesOf(*clean, nil, sys)
	}
	if !twice {
		if clean == nil {
			clean = dirty
		}
		return valuesOf(*clean, nil, sys)
	}
	if clean == nil || dirty == nil {
		if clean != nil {
			return append(plainAtoms(message.Text(sys, "clean:")), valuesOf(*clean, nil, sys)...)
		}
		return append(plainAtoms(message.Text(sys, "dirty:")), valuesOf(*dirty, nil, sys)...)
	}
	var out []atom
	common := map[string]bool{}
	for i, in := range clean.Inputs {
		if i < len(dirty.Inputs) && dirty.Inputs[i].Symbol == in.Symbol && dirty.Inputs[i].Value(sys) == in.Value(sys) {
			common[in.Symbol] = true
			out = append(closed(out, ","), inputAtom(in, sys))
		}
	}
	out = append(closed(out, ";"), plainAtoms(message.Text(sys, "clean:"))...)
	out = closed(append(out, valuesOf(*clean, common, sys)...), ";")
	return append(append(out, plainAtoms(message.Text(sys, "dirty:"))...), valuesOf(*dirty, common, sys)...)
}

func sameStep(a, b sizing.Step, sys units.Locale) bool {
	na, ra := a.In(sys)
	nb, rb := b.In(sys)
	return na == nb && ra == rb
}

// inputAtom is "Q 914.27".
func inputAtom(in sizing.StepInput, sys units.Locale) atom {
	return append(symbolSpans(in.Symbol), span{text: string(nbsp) + in.Value(sys)})
}

// valuesOf writes a step's inputs but those left out, and its result.
func valuesOf(s sizing.Step, without map[string]bool, sys units.Locale) []atom {
	numbers, result := s.In(sys)
	var out []atom
	if len(s.Inputs) == 0 {
		out = plainAtoms(numbers)
	}
	for _, in := range s.Inputs {
		if !without[in.Symbol] {
			out = append(closed(out, ","), inputAtom(in, sys))
		}
	}
	return append(out, atom{{text: "=" + string(nbsp) + strings.ReplaceAll(result, " ", string(nbsp))}})
}

func plainOf(list []atom) string {
	var out []string
	for _, a := range list {
		text := ""
		for _, p := range a {
			text += p.text
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}
