package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg/draw"

	"returnbench/sizing"
)

// Subject is what a chart shows. Three options are drawn in color: today, the
// one chosen and the one pointed at; the others are gray.
type Subject struct {
	*sizing.Study
	// Ranges are those of the options; nil while they are not known.
	Ranges []sizing.OptionRange
	// Chosen names the option that stands out beside today. Empty: the one
	// recommended.
	Chosen string
	// Pointed names the option that a person points at. Empty: none.
	Pointed string
}

// Of is a study without ranges, with the option recommended standing out.
func Of(s *sizing.Study) Subject { return Subject{Study: s} }

// rank is how strongly an option is drawn; higher ranks are drawn over lower
// ones.
type rank int

const (
	rankOther rank = iota
	rankPointed
	rankToday
	rankChosen
)

// strong reports whether an option is drawn at full strength.
func (r rank) strong() bool { return r != rankOther }

// named reports whether an option is named at its curve. The one pointed at is
// not: its name would move the others, and the read-out names it.
func (r rank) named() bool { return r == rankToday || r == rankChosen }

// rank is how much option i stands out.
func (s Subject) rank(i int) rank {
	o := &s.Options[i]
	switch {
	case o.Kind == sizing.KindToday:
		return rankToday
	case o.Name == s.chosen():
		return rankChosen
	case o.Name == s.Pointed && s.Pointed != "":
		return rankPointed
	}
	return rankOther
}

// chosen names the option that stands out beside today, empty where none does.
// A chart of a few options that were not compared takes the first.
func (s Subject) chosen() string {
	if o := s.Option(s.Chosen); o != nil && o.Kind == sizing.KindOption {
		return o.Name
	}
	if o := s.Recommended(); o != nil {
		return o.Name
	}
	for i := range s.Options {
		if s.Options[i].Kind == sizing.KindOption {
			return s.Options[i].Name
		}
	}
	return ""
}

// ranges are those of option i; nil where they are not known.
func (s Subject) ranges(i int) *sizing.OptionRange {
	if i < len(s.Ranges) && s.Ranges[i].Name == s.Options[i].Name {
		return &s.Ranges[i]
	}
	return nil
}

// series is the color of an option of a rank.
func (l Look) series(r rank) color.Color {
	switch r {
	case rankToday:
		return l.Series[0]
	case rankChosen:
		return l.Series[1%len(l.Series)]
	case rankPointed:
		return l.Series[2%len(l.Series)]
	}
	return l.Rest
}

// stroke is the line of an option of a rank. Today's is the widest, so that it
// still shows under an option whose line is the same.
func (l Look) stroke(r rank, dash []float64) draw.LineStyle {
	width := otherWidth
	switch r {
	case rankToday:
		width = todayWidth
	case rankChosen, rankPointed:
		width = lineWidth
	}
	return l.line(l.series(r), width, dash)
}
