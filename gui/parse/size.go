package parse

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// SizeText writes a nominal size with the decimal mark of a locale: inches where they
// come out in eighths, else millimeters. All zero is the empty text.
func SizeText(l units.Locale, w, h, d units.Length) string {
	if w == 0 && h == 0 && d == 0 {
		return ""
	}
	sides := []units.Length{w, h}
	if d != 0 {
		sides = append(sides, d)
	}
	unit, suffix := units.Inch, ""
	for _, v := range sides {
		if eighths := v.In(units.Inch) * 8; math.Abs(eighths-math.Round(eighths)) > 1e-6 {
			unit, suffix = units.Millimetre, " mm"
		}
	}
	texts := make([]string, len(sides))
	for i, v := range sides {
		texts[i] = l.Mark(strconv.FormatFloat(math.Round(v.In(unit)*1000)/1000, 'f', -1, 64))
	}
	return strings.Join(texts, "x") + suffix
}

var sizeUnit = regexp.MustCompile(`(?i)\s*(in\.?|inch|inches|"|″|mm|cm)$`)

// Size reads a nominal size; a bare one is in inches. An empty text leaves
// it open. The fault is in words.
func Size(l units.Locale, text string, noDepth bool) (w, h, d units.Length, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, 0, 0, ""
	}
	words, count := &threeSides, 3
	if noDepth {
		words, count = &twoSides, 2
	}
	unit := "in"
	if m := sizeUnit.FindStringSubmatch(t); m != nil {
		if lower := strings.ToLower(m[1]); lower == "mm" || lower == "cm" {
			unit = lower
		}
		t = strings.TrimSuffix(t, m[0])
	}
	parts := strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune("xX×*", r) })
	if len(parts) != count {
		return 0, 0, 0, message.Text(l, words.count, "count", len(parts))
	}
	var sides [3]units.Length
	for i, p := range parts {
		p = strings.TrimSpace(p)
		number, mark := decimalPoint(l, p)
		if mark == "" && !l.Comma && strings.Contains(p, ",") {
			mark = pointWanted
		}
		if mark != "" {
			return 0, 0, 0, message.Text(l, words.mark, "side", strconv.Quote(p), "reason", mark)
		}
		si, err := sides[i].Kind().Parse(number, unit)
		if err != nil || si <= 0 {
			return 0, 0, 0, message.Text(l, words.length, "side", strconv.Quote(p))
		}
		sides[i] = units.Length(si)
	}
	return sides[0], sides[1], sides[2], ""
}

// sizeFaults are what may be wrong with a size.
type sizeFaults struct{ count, mark, length message.ID }

var (
	threeSides = sizeFaults{
		"{count} numbers; want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm",
		"{side}: {reason}; want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm",
		"{side} is no length above zero; want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm",
	}
	twoSides = sizeFaults{
		"{count} numbers; want width x height, as in 20x20 (inches) or 500x500 mm",
		"{side}: {reason}; want width x height, as in 20x20 (inches) or 500x500 mm",
		"{side} is no length above zero; want width x height, as in 20x20 (inches) or 500x500 mm",
	}
)
