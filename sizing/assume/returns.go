package assume

import (
	"fmt"
	"slices"

	"returnbench/sizing/duct"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

const onFavorableSide = "this program's default, on the favorable side: "

// returnSide fills what the described branches leave open: the slack of a
// flex, the ends of a duct, free areas and walls.
func (a *CompleteJob) returnSide() {
	for i := range a.Returns {
		a.describedReturn(fmt.Sprintf("returns[%d]", i), job.NameOf(a.Returns[i], i), &a.Returns[i])
	}
	for i := range a.Options {
		o := &a.Options[i]
		for k := range o.Returns {
			a.describedReturn(fmt.Sprintf("options[%d].returns[%d]", i, k), message.Rows{Mark: ", ", Items: []any{o.Name, job.NameOf(o.Returns[k], k)}}, &o.Returns[k])
		}
	}
}

// describedReturn fills a branch; name is the argument of its messages.
func (a *CompleteJob) describedReturn(path string, name any, r *job.Return) {
	if share, usual, source := r.Grille.FreeAreaShare(); usual && r.Grille.Width > 0 && len(r.Grille.Rating) == 0 {
		a.Note(path+".grille.free_area", source, "{branch}: {share} % of the grille is open", "branch", name, "share", message.Fixed(100*share, 0))
	}
	if r.LacksDuct() {
		a.Note(path+".ends", onFavorableSide+"no loss", "{branch}: no duct is entered, so its drop is missing; \"ends\": \"none\" says that there is no duct", "branch", name)
	}
	for i, run := range r.Runs {
		at := fmt.Sprintf("%s.runs[%d]", path, i)
		if slackOpen(run) {
			a.Note(at+".compression", "as of a new flex: "+CommonPractice,
				"{branch}: the flex lies {slack} % shorter than fully stretched; type 0.1 % for one without slack",
				"branch", name, "slack", message.Fixed(100*a.Limits.FlexCompression, 0))
		}
		if run.Material == "" && run.Roughness == 0 && run.Shape != duct.Flex {
			a.Note(at+".material", onFavorableSide+"the smoothest of the usual walls", "{branch}: the duct is of galvanized metal", "branch", name)
		}
	}
	_, added := withEnds(*r)
	*r = a.Complete(*r)
	if len(added) == 0 {
		return
	}
	ends := message.Rows{Mark: "; "}
	for _, f := range added {
		ends.Items = append(ends.Items, usualEnds[f.Kind])
	}
	a.Note(path+".ends", CommonPractice, "{branch}: no fitting begins or ends the duct, so the usual ones are counted: {ends}; \"ends\": \"none\" leaves them out",
		"branch", name, "ends", ends)
}

// Complete fills the slack of the branch's flexes, where left open, with that
// of a new flex, and adds the usual ends of its duct.
func (a *CompleteJob) Complete(r job.Return) job.Return {
	r, _ = withEnds(r)
	if !slices.ContainsFunc(r.Runs, slackOpen) {
		return r
	}
	r.Runs = slices.Clone(r.Runs)
	for i := range r.Runs {
		if run := &r.Runs[i]; slackOpen(*run) {
			run.Compression = a.Limits.FlexCompression
		}
	}
	return r
}

// slackOpen reports whether a run is a flex whose slack was left open.
func slackOpen(run duct.Run) bool { return run.Shape == duct.Flex && run.Compression == 0 }

// usualEnds are the fittings that withEnds adds, as a sentence names them.
var usualEnds = map[duct.FittingKind]message.ID{
	duct.FlushEntry:          "entry flush with a wall, sharp edge",
	duct.BootStraight:        "box behind a grille, duct leaving at the back",
	duct.DischargeIntoPlenum: "duct emptying into a plenum",
}

// withEnds gives a described duct the beginning and the end that every duct
// has, where none of its fittings is one: a box behind a grille, or a flush
// entry of a duct without a grille, and a discharge into the plenum.
func withEnds(r job.Return) (whole job.Return, added []duct.Fitting) {
	if len(r.Runs) == 0 || r.Ends == job.NoEnds {
		return r, nil
	}
	begins := func(f duct.Fitting) bool { return f.Group() == duct.Boots || f.Group() == duct.Entries }
	ends := func(f duct.Fitting) bool {
		return f.Group() == duct.Cabinet || f.Group() == duct.Branches && f.Kind != duct.PlenumTakeoff
	}
	if !slices.ContainsFunc(r.Fittings, begins) {
		kind := duct.FlushEntry
		if r.Grille.Width > 0 {
			kind = duct.BootStraight
		}
		added = append(added, duct.Fitting{Kind: kind})
	}
	if !slices.ContainsFunc(r.Fittings, ends) {
		added = append(added, atEnd(r.Runs))
	}
	if len(added) > 0 {
		r.Fittings = slices.Concat(r.Fittings, added)
	}
	return r, added
}

// atEnd is a discharge at the section of the last run. It states that section
// only where it differs from that of the first run, which a fitting has by
// default.
func atEnd(runs []duct.Run) duct.Fitting {
	f, last := duct.Fitting{Kind: duct.DischargeIntoPlenum}, runs[len(runs)-1]
	if last.Area() == runs[0].Area() {
		return f
	}
	if last.Shape == duct.Rectangular {
		f.Width, f.Height = last.Width, last.Height
	} else {
		f.Diameter = last.Diameter
	}
	return f
}

// seats lists what is assumed of the frames of filters, the slot and the site
// where left open: each makes the house look better than it may be.
func (a *CompleteJob) seats() {
	const sealed = onFavorableSide + "a frame without a gap"
	if !a.Slot.None {
		a.seat("slot", "", a.Slot)
	}
	for i, r := range a.Returns {
		if r.Filter != "" {
			a.Note(fmt.Sprintf("returns[%d].filter", i), sealed, "{branch}: no air slips round the filter in the grille", "branch", job.NameOf(r, i))
		}
	}
	for i, o := range a.Options {
		if o.Slot != (job.Slot{}) && !o.Slot.None {
			a.seat(fmt.Sprintf("options[%d].slot", i), o.Name, o.Slot)
		}
	}
	if !slices.ContainsFunc(a.Readings, func(r job.Reading) bool { return r.CalibratesStudy() && r.Ports().HasFD }) {
		a.Note("readings", onFavorableSide+"no reading over the filter says how dirty it is", "today's filter is clean")
	}
	if a.Site.Altitude == 0 {
		a.Note("site.altitude", onFavorableSide+"air is densest there", "the house is at sea level")
	}
}

// seat lists what is assumed of a slot; option is the option's name, empty for
// today's slot.
func (a *CompleteJob) seat(path, option string, s job.Slot) {
	pick := func(ofToday, ofOption message.ID) message.ID {
		if option == "" {
			return ofToday
		}
		return ofOption
	}
	if s.Gap == 0 {
		a.Note(path+".gap", onFavorableSide+"a frame without a gap", pick("the filter is sealed in its frame: no air slips past",
			"{option}: the filter is sealed in its frame: no air slips past"), "option", option)
	}
	if s.EdgeCover == 0 {
		a.Value(path+".edge_cover", CommonPractice, UsualEdgeCover, pick("the edge of the slot covers the filter for {cover}",
			"{option}: the edge of the slot covers the filter for {cover}"), "option", option, "cover", units.Length(UsualEdgeCover))
	}
	if s.EntryCoefficient == 0 {
		a.Note(path+".entry_coefficient", onFavorableSide+"no loss", pick("the air enters the slot and turns into it without loss",
			"{option}: the air enters the slot and turns into it without loss"), "option", option)
	}
}
