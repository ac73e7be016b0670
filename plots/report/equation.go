package report

import (
	"fmt"
	"strings"
	"unicode"
)

// box is a piece of an equation: its width, and how far it reaches above and below
// the baseline.
type box struct {
	w, up, down float64
	draw        func(x, y float64)
}

// typesetter sets equations that are written on one line, as "v = 144 × Q / A", with
// fractions, exponents and subscripts.
type typesetter struct {
	*sheet
	style
	text []rune
	at   int
}

// equation sets a formula, shrunk to a width where it is too wide. A text that
// is no equation is set as it is written.
func (s *sheet) equation(t style, formula string, width float64) (b box) {
	defer func() {
		if recover() != nil { // what cannot be parsed
			b = s.letters(t, marked(formula, s.locale))
		}
	}()
	for {
		b = s.typeset(t, formula)
		if b.w <= width || t.size <= 5.5 {
			return b
		}
		t.size -= 0.25
	}
}

func (s *sheet) typeset(t style, formula string) box {
	left, right, found := strings.Cut(formula, " = ")
	if !found || strings.Contains(right, "=") {
		return s.letters(t, marked(formula, s.locale))
	}
	e := &typesetter{sheet: s, style: t, text: []rune(strings.ReplaceAll(right, " ", ""))}
	value := e.sum()
	if e.at != len(e.text) {
		panic(fmt.Sprintf("%q: what is left over", formula))
	}
	return inRow(s.symbol(t, left), s.letters(t, " = "), value)
}

func (s *sheet) letters(t style, text string) box {
	return box{s.width(t, text), 0.75 * t.size, 0.2 * t.size, func(x, y float64) {
		s.dress(t)
		s.pdf.Text(x, y, s.clean(text))
	}}
}

// subscript shrinks and lowers.
const subscriptSize, subscriptDrop = 0.72, 0.18

// symbol sets a name with its subscript: what stands behind the underscore, or the
// digits at its end.
func (s *sheet) symbol(t style, name string) box {
	var parts []box
	for _, p := range symbolSpans(name) {
		parts = append(parts, s.span(t, p))
	}
	return inRow(parts...)
}

// span is a run of text of one look.
type span struct {
	text      string
	sub, bold bool
}

func symbolSpans(name string) []span {
	base, sub, found := strings.Cut(name, "_")
	if !found {
		base = strings.TrimRightFunc(name, unicode.IsDigit)
		sub = name[len(base):]
	}
	if base == "rho" {
		base = "ρ"
	}
	if sub == "" || base == "" {
		return []span{{text: base + sub}}
	}
	return []span{{text: base}, {text: sub, sub: true}}
}

func (s *sheet) span(t style, p span) box {
	t.bold = t.bold || p.bold
	if !p.sub {
		return s.letters(t, p.text)
	}
	drop := subscriptDrop * t.size
	t.size *= subscriptSize
	b := s.letters(t, p.text)
	return shifted(b, -drop)
}

// shifted raises a box, or lowers it.
func shifted(b box, up float64) box {
	return box{b.w, b.up + up, b.down - up, func(x, y float64) { b.draw(x, y-up) }}
}

func inRow(parts ...box) box {
	out := box{}
	for _, p := range parts {
		out.w += p.w
		out.up, out.down = max(out.up, p.up), max(out.down, p.down)
	}
	out.draw = func(x, y float64) {
		for _, p := range parts {
			p.draw(x, y)
			x += p.w
		}
	}
	return out
}

func (e *typesetter) next(any string) rune {
	if e.at < len(e.text) && strings.ContainsRune(any, e.text[e.at]) {
		e.at++
		return e.text[e.at-1]
	}
	return 0
}

func (e *typesetter) sum() box {
	out := e.product()
	for {
		switch e.next("+-") {
		case '+':
			out = inRow(out, e.letters(e.style, " + "), e.product())
		case '-':
			out = inRow(out, e.letters(e.style, " − "), e.product())
		default:
			return out
		}
	}
}

func (e *typesetter) product() box {
	out := e.power(e.at < len(e.text) && e.alone())
	for {
		switch e.next("×/") {
		case '×':
			out = inRow(out, e.letters(e.style, " × "), e.power(false))
		case '/':
			out = e.fraction(out, e.power(true))
		default:
			return out
		}
	}
}

// alone reports whether a bracket opens here and closes right before a slash: a
// whole numerator, which needs no bracket.
func (e *typesetter) alone() bool {
	if e.text[e.at] != '(' {
		return false
	}
	depth := 0
	for i, r := range e.text[e.at:] {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		}
		if depth == 0 {
			return e.at+i+1 < len(e.text) && e.text[e.at+i+1] == '/'
		}
	}
	return false
}

func (e *typesetter) fraction(over, under box) box {
	const room = 1.6
	axis := 0.28 * e.size
	w := max(over.w, under.w) + 3
	return box{w + 2, axis + room + over.down + over.up, under.up + under.down + room - axis, func(x, y float64) {
		over.draw(x+1+(w-over.w)/2, y-axis-room-over.down)
		e.line(e.ink, 0.5, nil, x+1, y-axis, x+1+w, y-axis)
		under.draw(x+1+(w-under.w)/2, y-axis+room+under.up)
	}}
}

// power is a term with its exponent. A bracket that is not needed in a fraction or
// an exponent is left out.
func (e *typesetter) power(unbracketed bool) box {
	if e.next("-") != 0 {
		return inRow(e.letters(e.style, "−"), e.power(false))
	}
	out := e.term(unbracketed)
	if e.next("^") != 0 {
		small := *e
		small.size *= subscriptSize
		b := small.power(true)
		e.at = small.at
		out = inRow(out, shifted(b, max(out.up-0.3*e.size, 0.4*e.size)))
	}
	return out
}

func (e *typesetter) term(unbracketed bool) box {
	if e.next("(") != 0 {
		b := e.sum()
		if e.next(")") == 0 {
			panic("a bracket stays open")
		}
		if unbracketed && (e.at == len(e.text) || e.text[e.at] != '^') {
			return b
		}
		return e.bracketed(b)
	}
	from := e.at
	number := e.at < len(e.text) && unicode.IsDigit(e.text[e.at])
	for e.at < len(e.text) {
		r := e.text[e.at]
		exponent := number && r == '-' && e.text[e.at-1] == 'e'
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '.' && !exponent {
			break
		}
		e.at++
	}
	word := string(e.text[from:e.at])
	switch {
	case word == "":
		panic("a term is missing")
	case number:
		return e.number(word)
	case word == "ln" || word == "exp":
		return inRow(e.letters(e.style, word+" "), e.term(false))
	}
	return e.symbol(e.style, word)
}

// number sets 6.8e-06 as 6.8 × 10 to the -6.
func (e *typesetter) number(word string) box {
	digits, exponent, found := strings.Cut(word, "e")
	if !found {
		return e.letters(e.style, e.locale.Mark(word))
	}
	small := e.style
	small.size *= subscriptSize
	exponent = strings.Replace(strings.Replace(exponent, "-0", "-", 1), "-", "−", 1)
	return inRow(e.letters(e.style, e.locale.Mark(digits)+" × 10"), shifted(e.letters(small, exponent), 0.35*e.size))
}

// bracketed draws brackets as tall as what they hold.
func (e *typesetter) bracketed(b box) box {
	t := e.style
	tall := (b.up + b.down) / (0.95 * t.size)
	if tall <= 1.05 {
		return inRow(e.letters(t, "("), b, e.letters(t, ")"))
	}
	// A bracket as a curve keeps its weight at every height.
	w := 0.24*t.size + 0.9
	side := func(x, y, bow float64) {
		e.pen(t.ink, 0.6, nil)
		e.pdf.MoveTo(x, y-b.up)
		e.pdf.CurveBezierCubicTo(x+bow, y-b.up*0.6, x+bow, y+b.down*0.6, x, y+b.down)
		e.pdf.DrawPath("D")
	}
	return box{b.w + 2*w, b.up, b.down, func(x, y float64) {
		side(x+w-0.6, y, -1.1*w)
		b.draw(x+w, y)
		side(x+w+b.w+0.6, y, 1.1*w)
	}}
}
