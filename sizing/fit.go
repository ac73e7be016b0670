package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// breach is one thing in which new filters or grilles go beyond what the house or
// the person allows. A size of the search shows it as what it misses, a person's
// own option as a finding.
type breach struct {
	severity     Severity
	code, source string
	what, todo   string // formats of one sentence: what is wrong, by how much; what to do
	args         []any
}

func newBreach(severity Severity, code, source, what, todo string, args ...any) breach {
	return breach{severity: severity, code: code, source: source, what: what, todo: todo, args: args}
}

// Codes of what has no room. No air changes them.
const (
	codeWall    = "wall"
	codeStudBay = "stud_bay"
	codeRoom    = "room"
	codeDepth   = "depth"
)

// roomCodes are those of work that cannot be built as it is laid out.
var roomCodes = []string{codeWall, codeStudBay, codeRoom, codeDepth}

// miss is the breach as a size of the search shows it, its sentence unwritten.
func (b breach) miss() Finding {
	return Finding{Severity: Caution, Code: b.code, Source: b.source, format: b.what, args: b.args}
}

func (b breach) finding() Finding {
	first := []rune(b.what)
	first[0] = unicode.ToUpper(first[0])
	return newFinding(b.severity, b.code, b.source, string(first)+": "+b.todo+".", b.args...)
}

// judgeBreaches says where an option goes beyond what the house allows.
func judgeBreaches(o *OptionResult) []Finding {
	var out []Finding
	for _, b := range o.breaches {
		out = append(out, b.finding())
	}
	return out
}

// asMiss is a finding of a set of limits as a size of the search shows it.
func asMiss(f Finding) Finding {
	letters := []rune(strings.TrimSuffix(f.format, "."))
	if len(letters) > 1 && unicode.IsLower(letters[1]) {
		letters[0] = unicode.ToLower(letters[0])
	}
	f.format, f.Text = string(letters), ""
	return f
}

// breaches holds an arrangement to the openings in the walls, the room at the
// equipment and the least MERV. What stands there already is not held.
func (h *house) breaches(a *arrangement) []breach {
	var out []breach
	for i, r := range a.returns {
		if r.Grille.Width > 0 && !h.hasGrille(r, i) {
			w, hh := h.wallOf(r, i)
			out = append(out, h.wallBreaches(branchName(r, i), r.Grille.Width, r.Grille.Height, w, hh)...)
		}
	}
	stands := a.slot.sameSize(h.Slot) && !h.assumes("slot.width") && !h.assumes("slot.depth")
	if a.central() != nil && !stands {
		if a.slot.AtGrilles {
			out = append(out, h.wallBreaches("the return", a.slot.Width, a.slot.Height, h.Limits.WallWidth, h.Limits.WallHeight)...)
		} else {
			out = append(out, h.roomBreaches(a.slot)...)
		}
	}
	return append(out, h.mervBreaches(a)...)
}

// hasGrille tells whether a branch keeps the grille that today's has.
func (h *house) hasGrille(r Return, i int) bool {
	t := h.todays(r, i)
	return t != nil && t.Grille.Width == r.Grille.Width && t.Grille.Height == r.Grille.Height
}

// todays is today's branch in whose place an option's stands: that of its name,
// else that of its number. Nil: it is a new one.
func (h *house) todays(r Return, i int) *Return {
	if r.Name != "" {
		if k := slices.IndexFunc(h.Returns, func(t Return) bool { return t.Name == r.Name }); k >= 0 {
			return &h.Returns[k]
		}
		return nil
	}
	if i < len(h.Returns) && h.Returns[i].Name == "" {
		return &h.Returns[i]
	}
	return nil
}

// wallOf is the opening that a branch's grille may take: its own, else that of
// today's branch there, else the job's.
func (h *house) wallOf(r Return, i int) (w, hh units.Length) {
	if r.OpeningWidth > 0 || r.OpeningHeight > 0 {
		return r.OpeningWidth, r.OpeningHeight
	}
	if t := h.todays(r, i); t != nil && (t.OpeningWidth > 0 || t.OpeningHeight > 0) {
		return t.OpeningWidth, t.OpeningHeight
	}
	return h.Limits.WallWidth, h.Limits.WallHeight
}

// studSlack is what a grille named by a nominal opening may be over the clear
// width between studs: 14 1/2 in of bay takes what is called 14 1/2 to 14 3/4
// (common practice, no source).
const studSlack = 0.26 * units.Inch

func (h *house) wallBreaches(where string, w, hh, openW, openH units.Length) []breach {
	var out []breach
	if over := excess(w, hh, openW, openH); over > slack {
		out = append(out, newBreach(Stop, codeWall, "the wall opening", "%s: the grille needs %v, the wall has room for %v: %v too large",
			"choose a smaller grille or two", where, sides{w, hh}, sides{openW, openH}, sides{over}))
	}
	if bay := h.Limits.StudBay; bay > 0 && len(out) == 0 {
		out = append(out, h.studBreaches(where, w, hh, openW, openH)...)
	}
	return out
}

// studBreaches holds a grille that the wall has room for to the studs in it: the
// side that lies across goes between two of them.
func (h *house) studBreaches(where string, w, hh, openW, openH units.Length) []breach {
	bay := h.Limits.StudBay
	upright := func(across, tall units.Length) bool {
		return across <= bay+studSlack && (openW == 0 || across <= openW+slack) && (openH == 0 || tall <= openH+slack)
	}
	narrow, tall := min(w, hh), max(w, hh)
	switch {
	case upright(w, hh) || upright(hh, w):
		return nil
	case narrow > bay+studSlack:
		return []breach{newBreach(Stop, codeStudBay, "the stud bay", "%s: the grille is %v wide between studs %v apart: %v too wide",
			"never cut a stud, choose a grille that goes between them", where, sides{narrow}, sides{bay}, sides{narrow - bay})}
	}
	return []breach{newBreach(Stop, codeStudBay, "the stud bay", "%s: between studs %v apart the grille stands %v high, the wall has %v: %v too high",
		"never cut a stud, choose a shorter grille", where, sides{bay}, sides{tall}, sides{openH}, sides{tall - openH})}
}

// roomBreaches holds the whole casing of a slot or cabinet to the room.
func (h *house) roomBreaches(s Slot) []breach {
	var out []breach
	l, box := h.Limits, h.assembly(s)
	what := string(s.where())
	if over := excess(box.Width, box.Height, l.CabinetWidth, l.CabinetHeight); over > slack {
		out = append(out, newBreach(Stop, codeRoom, "the room at the equipment", "the "+what+" needs %v with a casing %v larger than its filters, there is %v: %v too large",
			"choose a smaller one or make room", sides{box.Width, box.Height}, sides{l.CasingFace}, sides{l.CabinetWidth, l.CabinetHeight}, sides{over}))
	}
	if d := l.CabinetDepth; d > 0 && box.Depth > d+slack {
		out = append(out, newBreach(Stop, codeDepth, "the room at the equipment", "the "+what+" needs %v along the airflow with a casing %v deeper than its filter, there is %v: %v too deep",
			"choose a shallower one or make room", sides{box.Depth}, sides{l.CasingDepth}, sides{d}, sides{box.Depth - d}))
	}
	return out
}

func (h *house) mervBreaches(a *arrangement) []breach {
	for i := range a.places {
		if merv := ratedMERV(a.places[i].filter); merv < h.typedMERV {
			return []breach{newBreach(Caution, "merv", "the job's limit", "MERV %v is under the least of MERV %v", "choose a finer filter", merv, h.typedMERV)}
		}
	}
	return nil
}

// slack is the difference under which two lengths count as equal.
const slack = 0.01 * units.Millimetre

// excess is how far a thing of two sides is over an opening, upright or turned,
// whichever is less; a side of zero is free.
func excess(w, hh, openW, openH units.Length) units.Length {
	over := func(side, open units.Length) units.Length {
		if open == 0 {
			return 0
		}
		return max(0, side-open)
	}
	return min(max(over(w, openW), over(hh, openH)), max(over(hh, openW), over(w, openH)))
}

// sides are lengths as a tape reads them: "21 1/2 x 26 1/2 in.", "545 x 672 mm".
type sides []units.Length

// Show writes them in the units of a system.
func (s sides) Show(sys units.System) string {
	words, unit := make([]string, len(s)), " in."
	for i, l := range s {
		switch {
		case l == 0:
			words[i] = "any"
		case sys == units.SI:
			words[i] = fmt.Sprint(math.Round(l.In(units.Millimetre)))
		default:
			words[i] = stock.Inches(l)
		}
	}
	if sys == units.SI {
		unit = " mm"
	}
	return strings.Join(words, " x ") + unit
}
