package main

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// visible writes text for a terminal: what would steer the terminal or turn the
// direction of reading is shown as its code instead.
type visible struct{ w io.Writer }

func (v visible) Write(p []byte) (int, error) {
	if _, err := io.WriteString(v.w, shown(string(p))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// data is where tables and documents go: as they are, but to a terminal as visible
// writes.
func (s *streams) data() io.Writer {
	if isTerminal(s.out) {
		return visible{s.out}
	}
	return s.out
}

func shown(text string) string {
	if !strings.ContainsFunc(text, isControl) && utf8.ValidString(text) {
		return text
	}
	var out strings.Builder
	for len(text) > 0 {
		r, size := utf8.DecodeRuneInString(text)
		switch {
		case r == utf8.RuneError && size == 1: // a terminal may take the byte for a control
			fmt.Fprintf(&out, `\x%02x`, text[0])
		case !isControl(r):
			out.WriteRune(r)
		case r < 0x100:
			fmt.Fprintf(&out, `\x%02x`, r)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
		text = text[size:]
	}
	return out.String()
}

// isControl reports whether it is a control, or a mark of direction or of a line.
func isControl(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case unicode.IsControl(r):
		return true
	}
	return unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' || r == '\ufeff'
}
