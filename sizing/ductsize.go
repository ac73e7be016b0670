package sizing

import (
	"cmp"
	"slices"

	"returnbench/sizing/duct"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// DuctSize is the duct that a branch's airflow wants: of each make the smallest
// nominal size that keeps both limits of return ducts, velocity and friction.
type DuctSize struct {
	Branch  string     `json:"branch"`
	Airflow units.Flow `json:"airflow"`

	Round DuctChoice `json:"round"`
	Flex  DuctChoice `json:"flex"`
	Rect  DuctChoice `json:"rectangular"`

	// Today's duct: its fastest and its steepest run, what it takes with its
	// fittings, and the straight duct of its own sections that takes as much.
	Now              units.Speed        `json:"now"`
	NowFriction      units.FrictionRate `json:"now_friction"`
	NowDrop          units.Pressure     `json:"now_drop"`
	Length           units.Length       `json:"length"`
	EquivalentLength units.Length       `json:"equivalent_length"`
	Undersized       bool               `json:"undersized"`
}

// DuctChoice is one nominal duct for a branch, zero where none on the list does.
type DuctChoice struct {
	Diameter    units.Length       `json:"diameter,omitzero"` // round and flex
	Width       units.Length       `json:"width,omitzero"`    // rectangular
	Height      units.Length       `json:"height,omitzero"`
	Compression float64            `json:"compression,omitzero"` // of a flex, as it will lie
	Velocity    units.Speed        `json:"velocity"`
	Friction    units.FrictionRate `json:"friction"`
	// Drop is what the branch's runs and fittings take in this size throughout, and
	// FittingsDrop the fittings' part of it.
	Drop         units.Pressure `json:"drop"`
	FittingsDrop units.Pressure `json:"fittings_drop"`
	// Length and Fittings are what it was judged with: the branch's straight duct,
	// and how many of its fittings.
	Length   units.Length `json:"length"`
	Fittings int          `json:"fittings"`
	// Over says that even so it takes more than a return usually may of the rated
	// external static.
	Over bool `json:"over,omitzero"`
	// Bound is the limit that asks for the size: "velocity" or "friction".
	Bound string `json:"bound,omitzero"`

	run duct.Run
}

// Found tells whether a duct on the list keeps both limits.
func (c DuctChoice) Found() bool { return c.run.Shape != "" }

// Limits that a duct size may rest on.
const (
	ByVelocity = "velocity"
	ByFriction = "friction"
)

// ductSizes finds the ducts of each branch at the branch's solved airflow.
func (h *house) ductSizes(r *OptionResult, pieces []Piece) []DuctSize {
	if len(r.Clean.Branches) == 0 {
		return []DuctSize{h.ductSize("return", r.Clean.Airflow, Return{})}
	}
	var out []DuctSize
	for i, b := range r.Clean.Branches {
		d := h.ductSize(b.Name, b.Airflow, h.Returns[i])
		d.Now, d.NowDrop = b.DuctVelocity, b.DuctDrop
		for _, run := range h.Returns[i].Runs {
			d.NowFriction = max(d.NowFriction, run.Friction(b.Airflow, h.air))
			d.Length += run.Length
		}
		for _, p := range pieces {
			if p.Branch == b.Name {
				d.EquivalentLength += p.EquivalentLength
			}
		}
		d.Undersized = exceeds(d.Now, h.Limits.DuctVelocity) || exceeds(d.NowFriction, h.Limits.DuctFriction)
		out = append(out, d)
	}
	return out
}

func (h *house) ductSize(name string, q units.Flow, r Return) DuctSize {
	sys := h.sizeSystem()
	round := func(run *duct.Run, d units.Length) { run.Diameter = d }
	rect := func(run *duct.Run, s stock.Size) { run.Width, run.Height = s.Height, s.Width }
	return DuctSize{Branch: name, Airflow: q,
		Round: ductChoice(h, duct.Round, stock.Rounds(sys), round, q, r),
		Flex:  ductChoice(h, duct.Flex, stock.Flexes(sys), round, q, r),
		Rect:  ductChoice(h, duct.Rectangular, stock.Rectangulars(sys), rect, q, r),
	}
}

// ductChoice is the first of the sizes, smallest first, that keeps both limits,
// made of what the branch's runs of that shape are made of. A flex lies as
// little stretched as the branch's own does, else as the limits say.
func ductChoice[T any](h *house, shape duct.Shape, sizes []T, resize func(*duct.Run, T), q units.Flow, r Return) DuctChoice {
	own := duct.Run{}
	if shape == duct.Flex {
		own.Compression = h.Limits.FlexCompression
	}
	for _, run := range r.Runs {
		if run.Shape == shape {
			own = run
		}
	}
	as := func(size T) duct.Run {
		run := duct.Run{Shape: shape, Material: own.Material, Roughness: own.Roughness, Compression: own.Compression, Length: units.Metre}
		resize(&run, size)
		return run
	}
	v := func(s duct.Run) float64 { return float64(s.Velocity(q) / h.Limits.DuctVelocity) }
	f := func(s duct.Run) float64 { return float64(s.Friction(q, h.air) / h.Limits.DuctFriction) }
	at := slices.IndexFunc(sizes, func(size T) bool { s := as(size); return v(s) <= 1 && f(s) <= 1 })
	if at < 0 {
		return DuctChoice{}
	}
	run := as(sizes[at])
	c := DuctChoice{Diameter: run.Diameter, Width: run.Width, Height: run.Height, Compression: run.Compression,
		Velocity: run.Velocity(q), Friction: run.Friction(q, h.air), Bound: ByVelocity, run: run}
	h.judgeWithFittings(&c, q, r)
	// The size before misses one limit or both: the one missed by more decides.
	last := as(sizes[max(at-1, 0)])
	if f(last) > v(last) {
		c.Bound = ByFriction
	}
	return c
}

// judgeWithFittings finds what a branch takes when all its straight duct and all
// its fittings are of the choice's size. A gauge's factor on today's duct is left
// out: new duct does not take over the faults of the old.
func (h *house) judgeWithFittings(c *DuctChoice, q units.Flow, r Return) {
	run := c.run
	run.Length = 0
	for _, old := range r.Runs {
		run.Length += old.Length
	}
	c.Length = run.Length
	if run.Length > 0 {
		c.Drop = run.Drop(q, h.air)
	}
	resized := Return{Runs: []duct.Run{run}}
	for _, f := range r.Fittings {
		f = unsized(f)
		c.FittingsDrop += f.Drop(q, units.Area(section(f, resized)), h.air)
		c.Fittings += f.Number()
	}
	c.Drop += c.FittingsDrop
	c.Over = c.Drop > h.budget("return")
}

// unsized is a fitting that takes the section of the duct that it is put into.
func unsized(f duct.Fitting) duct.Fitting {
	f.Diameter, f.Width, f.Height = 0, 0, 0
	return f
}

// judgeDucts names the ducts that are too small, dearest first, with the limit
// that each breaks, and then every part of the return that is.
func (h *house) judgeDucts(s *Study) []Finding {
	const source = "highest velocity and friction of return ducts in the job; 600 to 700 fpm and 0.05 to 0.08 in. w.c. per 100 ft are usual: " + commonPractice
	var out []Finding
	ducts := slices.Clone(s.Ducts)
	slices.SortStableFunc(ducts, func(a, b DuctSize) int { return cmp.Compare(b.NowDrop, a.NowDrop) })
	for _, d := range ducts {
		wanted := "no round duct on the list carries it: share it between two"
		args := []any{d.Branch, d.NowDrop}
		if d.Round.Found() {
			wanted = "a round duct of %v would take %v with the branch's %v and its fittings, %d, at that size"
			args = append(args, nominal(d.Round.Diameter), d.Round.Drop, d.Round.Length, d.Round.Fittings)
			if d.Round.Over {
				wanted += ", still over the usual %v of a return: take out turns or share it between two"
				args = append(args, h.budget("return"))
			}
		}
		switch {
		case exceeds(d.Now, h.Limits.DuctVelocity):
			out = append(out, newFinding(Caution, "duct_velocity", source, "%s: the duct takes %v at %v, over the limit of %v; "+wanted+".",
				slices.Insert(args, 2, any(d.Now), any(h.Limits.DuctVelocity))...))
		case d.Undersized:
			out = append(out, newFinding(Caution, "duct_friction", source, "%s: the duct takes %v, %v where it is tightest, over the limit of %v; "+wanted+".",
				slices.Insert(args, 2, any(d.NowFriction), any(h.Limits.DuctFriction))...))
		}
	}
	return append(out, judgePieces(s.Pieces)...)
}

// judgePieces lists the undersized parts of today's return in order of what
// each costs; the pieces come so.
func judgePieces(pieces []Piece) []Finding {
	text, args := "", []any{}
	for _, p := range pieces {
		if !p.Undersized {
			continue
		}
		if text != "" {
			text += "; "
		}
		text += "%s, %s: %v"
		args = append(args, p.Branch, p.Name, p.Drop)
	}
	if text == "" {
		return nil
	}
	return []Finding{newFinding(Caution, "undersized_parts", "velocity and friction limits of the job; 500 fpm on a return grille, from secondary text",
		"Too small today, by what each takes: "+text+".", args...)}
}
