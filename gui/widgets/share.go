package widgets

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ShareOptions describe a Share field.
type ShareOptions struct {
	Label string
	Get   func() float64 // 0 to 1; zero is left open, NaN where zero is a value
	Set   func(float64)
	Hint  string
	Max   float64 // left at zero: 1

	AllowZero bool // zero is a value
}

// Share is a field for a share of one, typed and shown in per cent.
type Share struct{ typed }

// NewShare makes the field.
func NewShare(opts ShareOptions) *Share {
	if opts.Max == 0 {
		opts.Max = 1
	}
	s := &Share{}
	s.entry = newEntry()
	s.hint = opts.Hint
	s.state = func() string { return exact(opts.Get()) }
	s.unitNow = func() string { return "%" }
	s.show = func() string {
		if v := opts.Get(); v == v && (v != 0 || opts.AllowZero) {
			return strconv.FormatFloat(v*100, 'g', 5, 64)
		}
		return ""
	}
	s.take = func(text string) (string, string) {
		v, fault := readShare(text, opts.Max, opts.AllowZero)
		if fault != "" {
			return "", fault
		}
		opts.Set(v)
		return exact(v), ""
	}
	s.start(opts.Label, s.entry)
	return s
}

func readShare(text string, most float64, zero bool) (v float64, fault string) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if strings.TrimSpace(text) == "" {
		if zero {
			return math.NaN(), ""
		}
		return 0, ""
	}
	wanted := fmt.Sprintf("want a number from 0 to %s per cent", exact(most*100))
	v, err := strconv.ParseFloat(t, 64)
	if err != nil {
		return 0, "no number that can be read; " + wanted
	}
	v /= 100
	switch {
	case v < 0 || v > most || v != v:
		return 0, t + " % is out of range; " + wanted
	case v == 0 && !zero:
		return 0, "zero per cent is no share here; leave the field empty to have one assumed"
	}
	return v, ""
}
