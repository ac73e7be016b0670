package parse

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// SizeText writes a nominal size: inches where they come out in eighths, else
// millimetres. All zero is the empty text.
func SizeText(w, h, d units.Length) string {
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
		texts[i] = strconv.FormatFloat(math.Round(v.In(unit)*1000)/1000, 'f', -1, 64)
	}
	return strings.Join(texts, "x") + suffix
}

var sizeUnit = regexp.MustCompile(`(?i)\s*(in\.?|inch|inches|"|″|mm|cm)$`)

// Size reads a nominal size; a bare one is in inches. An empty text leaves
// it open. The fault is in words.
func Size(text string, noDepth bool) (w, h, d units.Length, fault string) {
	t := strings.TrimSpace(text)
	if t == "" {
		return 0, 0, 0, ""
	}
	wanted := "want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm"
	count := 3
	if noDepth {
		wanted, count = "want width x height, as in 20x20 (inches) or 500x500 mm", 2
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
		return 0, 0, 0, fmt.Sprintf("%d numbers; %s", len(parts), wanted)
	}
	var sides [3]units.Length
	for i, p := range parts {
		si, err := sides[i].Kind().Parse(p, unit)
		if err != nil || si <= 0 {
			return 0, 0, 0, fmt.Sprintf("%q is no length above zero; %s", strings.TrimSpace(p), wanted)
		}
		sides[i] = units.Length(si)
	}
	return sides[0], sides[1], sides[2], ""
}
