package fit

import (
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

func newBreach(severity study.Severity, code string, source, missed, sentence message.ID, args ...any) study.Breach {
	return study.Breach{Severity: severity, Code: code, Source: source, Missed: missed, Sentence: sentence, Args: args}
}

// RoomCodes are the codes of findings about work that cannot be built as
// planned.
var RoomCodes = []string{study.CodeWall, study.CodeStudBay, study.CodeRoom, study.CodeDepth}

// Breaches compares an arrangement with the openings in the walls, the room at the
// equipment and the least MERV. What the house has already is not compared.
func Breaches(h *house.House, a *house.Arrangement) []study.Breach {
	var out []study.Breach
	for i, r := range a.Returns {
		if r.Grille.Width > 0 && !hasGrille(h, r, i) {
			w, hh := wallOf(h, r, i)
			out = append(out, wallBreaches(h, job.NameOf(r, i), r.Grille.Width, r.Grille.Height, w, hh)...)
		}
	}
	if a.Central() != nil && !unchanged(h, a.Slot) {
		if a.Slot.AtGrilles {
			out = append(out, wallBreaches(h, message.ID("the return"), a.Slot.Width, a.Slot.Height, h.Limits.WallWidth, h.Limits.WallHeight)...)
		} else {
			out = append(out, RoomBreaches(h, a.Slot)...)
		}
	}
	return append(out, mervBreaches(h, a)...)
}

// unchanged reports whether a slot is the one that the house has.
func unchanged(h *house.House, s job.Slot) bool {
	return s.SameSize(h.Slot) && !h.Assumes("slot.width") && !h.Assumes("slot.depth")
}

// hasGrille reports whether a branch keeps the grille that today's has.
func hasGrille(h *house.House, r job.Return, i int) bool {
	t := job.Replaced(h.Returns, r, i)
	return t != nil && t.Grille.Width == r.Grille.Width && t.Grille.Height == r.Grille.Height
}

// wallOf is the opening for a branch's grille: its own, else that of
// today's branch there, else the job's.
func wallOf(h *house.House, r job.Return, i int) (w, hh units.Length) {
	if r.OpeningWidth > 0 || r.OpeningHeight > 0 {
		return r.OpeningWidth, r.OpeningHeight
	}
	if t := job.Replaced(h.Returns, r, i); t != nil && (t.OpeningWidth > 0 || t.OpeningHeight > 0) {
		return t.OpeningWidth, t.OpeningHeight
	}
	return h.Limits.WallWidth, h.Limits.WallHeight
}

// studSlack is how much wider a grille's nominal opening may be than the clear
// width between studs: a bay of 14 1/2 in takes nominal 14 1/2 to 14 3/4
// (common practice, no source).
const studSlack = 0.26 * units.Inch

func wallBreaches(h *house.House, where any, w, hh, openW, openH units.Length) []study.Breach {
	var out []study.Breach
	if over := Excess(w, hh, openW, openH); over > Slack {
		out = append(out, newBreach(study.Stop, study.CodeWall, "the wall opening",
			"{where}: the grille needs {size}, the wall has room for {room}: {over} too large",
			"{where}: the grille needs {size}, the wall has room for {room}: {over} too large: choose a smaller grille or two.", "where", where, "size", study.Sides{w, hh}, "room", study.Sides{openW, openH}, "over", study.Sides{over}))
	}
	if bay := h.Limits.StudBay; bay > 0 && len(out) == 0 {
		out = append(out, studBreaches(h, where, w, hh, openW, openH)...)
	}
	return out
}

// studBreaches compares a grille that fits the wall with its studs: the
// side that lies across goes between two of them.
func studBreaches(h *house.House, where any, w, hh, openW, openH units.Length) []study.Breach {
	bay := h.Limits.StudBay
	upright := func(across, tall units.Length) bool {
		return across <= bay+studSlack && (openW == 0 || across <= openW+Slack) && (openH == 0 || tall <= openH+Slack)
	}
	narrow, tall := min(w, hh), max(w, hh)
	switch {
	case upright(w, hh) || upright(hh, w):
		return nil
	case narrow > bay+studSlack:
		return []study.Breach{newBreach(study.Stop, study.CodeStudBay, "the stud bay",
			"{where}: the grille is {width} wide between studs {bay} apart: {over} too wide",
			"{where}: the grille is {width} wide between studs {bay} apart: {over} too wide: never cut a stud, choose a grille that goes between them.", "where", where, "width", study.Sides{narrow}, "bay", study.Sides{bay}, "over", study.Sides{narrow - bay})}
	}
	return []study.Breach{newBreach(study.Stop, study.CodeStudBay, "the stud bay",
		"{where}: between studs {bay} apart the grille stands {height} high, the wall has {room}: {over} too high",
		"{where}: between studs {bay} apart the grille stands {height} high, the wall has {room}: {over} too high: never cut a stud, choose a shorter grille.", "where", where, "bay", study.Sides{bay}, "height", study.Sides{tall}, "room", study.Sides{openH}, "over", study.Sides{tall - openH})}
}

// HasRoom reports whether the whole casing of a slot or cabinet goes into the room.
func HasRoom(h *house.House, s job.Slot) bool {
	_, face, depth := roomExcess(h, s)
	return face <= Slack && depth <= Slack
}

// roomExcess is the casing of a slot, and how much larger it is than the room:
// across the air, and along it.
func roomExcess(h *house.House, s job.Slot) (box study.Assembly, face, depth units.Length) {
	l := &h.Limits
	box = house.Assembly(&h.CompleteJob.Job, s)
	if l.CabinetDepth > 0 {
		depth = box.Depth - l.CabinetDepth
	}
	return box, Excess(box.Width, box.Height, l.CabinetWidth, l.CabinetHeight), depth
}

// CountRoomBreaches is how many breaches of the room at the equipment a slot or
// cabinet of an option has.
func CountRoomBreaches(h *house.House, s job.Slot) (n int) {
	if s.AtGrilles || unchanged(h, s) {
		return 0
	}
	_, over, deep := roomExcess(h, s)
	if over > Slack {
		n++
	}
	if deep > Slack {
		n++
	}
	return n
}

// RoomBreaches compares the whole casing of a slot or cabinet with the room.
func RoomBreaches(h *house.House, s job.Slot) []study.Breach {
	var out []study.Breach
	l := &h.Limits
	box, over, deep := roomExcess(h, s)
	words := roomWords[s.Where()]
	if over > Slack {
		out = append(out, newBreach(study.Stop, study.CodeRoom, "the room at the equipment", words.large.missed, words.large.sentence,
			"size", study.Sides{box.Width, box.Height}, "casing", study.Sides{l.CasingFace}, "room", study.Sides{l.CabinetWidth, l.CabinetHeight}, "over", study.Sides{over}))
	}
	if deep > Slack {
		out = append(out, newBreach(study.Stop, study.CodeDepth, "the room at the equipment", words.deep.missed, words.deep.sentence,
			"depth", study.Sides{box.Depth}, "casing", study.Sides{l.CasingDepth}, "room", study.Sides{l.CabinetDepth}, "over", study.Sides{deep}))
	}
	return out
}

// roomWords are the messages for a casing without room, by the kind of place.
var roomWords = map[job.PlaceKind]struct{ large, deep breachWords }{
	job.InSlot: {
		large: breachWords{"the slot needs {size} with a casing {casing} larger than its filters, there is {room}: {over} too large",
			"The slot needs {size} with a casing {casing} larger than its filters, there is {room}: {over} too large: choose a smaller one or make room."},
		deep: breachWords{"the slot needs {depth} along the airflow with a casing {casing} deeper than its filter, there is {room}: {over} too deep",
			"The slot needs {depth} along the airflow with a casing {casing} deeper than its filter, there is {room}: {over} too deep: choose a shallower one or make room."},
	},
	job.InCabinet: {
		large: breachWords{"the cabinet needs {size} with a casing {casing} larger than its filters, there is {room}: {over} too large",
			"The cabinet needs {size} with a casing {casing} larger than its filters, there is {room}: {over} too large: choose a smaller one or make room."},
		deep: breachWords{"the cabinet needs {depth} along the airflow with a casing {casing} deeper than its filter, there is {room}: {over} too deep",
			"The cabinet needs {depth} along the airflow with a casing {casing} deeper than its filter, there is {room}: {over} too deep: choose a shallower one or make room."},
	},
}

type breachWords struct{ missed, sentence message.ID }

func mervBreaches(h *house.House, a *house.Arrangement) []study.Breach {
	for i := range a.Places {
		if merv := house.RatedMERV(a.Places[i].Filter); merv < h.TypedMERV {
			return []study.Breach{newBreach(study.Caution, "merv", "the job's limit",
				"MERV {merv} is under the least of MERV {least}",
				"MERV {merv} is under the least of MERV {least}: choose a finer filter.", "merv", merv, "least", h.TypedMERV)}
		}
	}
	return nil
}

// Slack is the difference under which two lengths count as equal.
const Slack = 0.01 * units.Millimetre

// Excess is how much larger a rectangle is than an opening, upright or turned,
// whichever is less; an opening's side of zero has no limit. Zero or less means
// that it fits. A length, m inside.
func Excess(w, hh, openW, openH units.Length) units.Length {
	over := func(side, open units.Length) units.Length {
		if open == 0 {
			return 0
		}
		return max(0, side-open)
	}
	return min(max(over(w, openW), over(hh, openH)), max(over(hh, openW), over(w, openH)))
}
