package parse

import (
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// senseDigits are the figures of a converted number: 600 ft are 183 m, and not
// 182.88 m, which nobody measured.
const senseDigits = 3

// ShownText spells a value in a unit, with the decimal mark of a locale. One that was plainly given in another unit of
// its kind, where it has fewer figures, is rounded to sense; the value itself is
// never rounded.
func ShownText(l units.Locale, k *units.Kind, si float64, u *units.Unit) string {
	return l.Mark(shownText(k, si, u))
}

func shownText(k *units.Kind, si float64, u *units.Unit) string {
	figures := significant(u.Number(si))
	given := figures
	for i := range k.Units {
		given = min(given, significant(k.Units[i].Number(si)))
	}
	keep := max(given, senseDigits)
	if figures <= keep || given >= figures {
		return numberText(si, u)
	}
	v, err := strconv.ParseFloat(u.Number(si), 64)
	if err != nil || v == 0 {
		return numberText(si, u)
	}
	decimals := max(0, keep-1-int(math.Floor(math.Log10(math.Abs(v)))))
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// significant counts the figures of a number as it is written.
func significant(text string) int {
	text, _, _ = strings.Cut(strings.ToLower(text), "e")
	digits := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, text)
	digits = strings.TrimLeft(digits, "0")
	if !strings.Contains(text, ".") || strings.HasPrefix(strings.TrimLeft(text, "-"), "0.") {
		digits = strings.TrimRight(digits, "0")
	}
	return len(digits)
}
