package fields

import (
	"strings"
	"testing"
)

// FuzzReadInteger reads any text as a whole number within its range, or tells in
// words what is wrong.
func FuzzReadInteger(f *testing.F) {
	for _, s := range []string{"30", " 8 ", "", "-1", "1e3", "0x10", "99999999999999999999", "8.0", "٣"} {
		f.Add(s, false)
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, zero bool) {
		w := &Integer{opts: IntegerOptions{Min: 0, Max: 200, AllowZero: zero}}
		v, fault := w.parse(text)
		switch {
		case fault != "" && v != 0:
			t.Fatalf("%q: fault and value", text)
		case fault == "" && (v < 0 || v > 200 || v == 0 && !zero && strings.TrimSpace(text) != ""):
			t.Fatalf("%q passed as %d", text, v)
		}
	})
}
