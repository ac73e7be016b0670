package forms

import (
	"fmt"
	"slices"
	"strings"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/message"
)

// Blower is the place for the blower's table: its taps, and for each
// the airflow at each external static.
//
// It edits one tap at a time.
type Blower struct {
	*form.Form
	model form.Model
	list  form.List[blower.Tap]

	pasted []blower.Tap // the last table of several taps
	left   []string     // what of it was not read
	kept   string       // the tap that was in use and was named, so that it stays
}

// NewBlower makes the form.
func NewBlower(m form.Model) *Blower {
	s := &Blower{model: m, list: form.List[blower.Tap]{
		What: "tap", Of: func(j *sizing.Job) *[]blower.Tap { return &j.Equipment.Blower.Taps },
		Name:   func(t *blower.Tap) *string { return &t.Name },
		New:    func(name string) blower.Tap { return blower.Tap{Name: name} },
		Follow: renameTap,
	}}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func blowerTable(j *sizing.Job) *blower.Table { return &j.Equipment.Blower }

func (s *Blower) shape() string {
	return s.list.Shape(s.model.Peek()) + fmt.Sprint(s.pastedIsThere())
}

func (s *Blower) names() []string { return s.list.Names(s.model.Peek()) }

func (s *Blower) build(b *form.Builder) {
	t := blowerTable(s.model.Peek())
	b.Heading("Blower")
	form.BlowerLibraryButtons(b)
	form.Choice(b, "equipment.blower.motor", "Motor", form.Of(blowerTable, func(t *blower.Table) *blower.Motor { return &t.Motor }), "not known",
		form.Item[blower.Motor]{Value: blower.PSC, Label: "PSC"},
		form.Item[blower.Motor]{Value: blower.ConstantTorque, Label: "constant torque (ECM)"},
		form.Item[blower.Motor]{Value: blower.ConstantAirflow, Label: "constant airflow (ECM)"})
	b.Named("equipment.blower.cooling_tap", "Tap in cooling", form.Of(blowerTable, func(t *blower.Table) *string { return &t.CoolingTap }), "strongest", s.names)
	var heats message.ID = "as in cooling"
	if len(t.Taps) == 0 {
		heats = "{tap}, of the generic table"
	}
	b.Named("equipment.blower.heating_tap", "Tap in heating", form.Of(blowerTable, func(t *blower.Table) *string { return &t.HeatingTap }), heats, s.names, "tap", blower.GenericTap(blower.MediumTap))
	b.Named("equipment.blower.fan_tap", "Tap for the fan alone", form.Of(blowerTable, func(t *blower.Table) *string { return &t.FanTap }), "as in cooling", s.names)
	includes := form.Of(blowerTable, func(t *blower.Table) *[]blower.Included { return &t.Includes })
	form.CheckInList(b, "equipment.blower.includes[0]", "The table includes a wet coil", includes, blower.IncludesWetCoil)
	form.CheckInList(b, "equipment.blower.includes[1]", "The table includes a filter", includes, blower.IncludesFilter)

	b.Heading("Table, by tap, for standard air")
	if len(t.Taps) == 0 {
		b.Note("A generic table of this size and motor is assumed until you add yours. Add a tap and enter or paste the rows, in any usual unit.")
	}
	if s.pastedIsThere() {
		b.Words(s.pasteSummary())
	}
	if form.Items(b, &s.list) {
		path := fmt.Sprintf("equipment.blower.taps[%d]", s.list.At())
		form.NameField(b, &s.list, path+".name", "Tap name")
		b.Points(path+".points", "Blower table", form.Of(s.list.Field(), func(t *blower.Tap) *[]blower.Point { return &t.Points }), s.paste)
	}
}

// paste takes a table of several taps, as one step: a tap of that name gets its rows,
// an empty one under edit becomes the first, others are added. The tap in use stays
// in use: where none was chosen, the one that was used so far is.
func (s *Blower) paste(taps []blower.Tap, left []string) {
	s.pasted, s.left, s.kept = taps, left, ""
	if t, study := blowerTable(s.model.Peek()), s.model.Study(); t.CoolingTap == "" && study != nil && slices.ContainsFunc(t.Taps, func(t blower.Tap) bool { return t.Name == study.Today().Tap && len(t.Points) > 0 }) {
		s.kept = study.Today().Tap
	}
	s.model.Apply(lang.T("Paste a table of {count} taps", "count", len(taps)), func(j *sizing.Job) {
		list := &blowerTable(j).Taps
		if s.kept != "" {
			blowerTable(j).CoolingTap = s.kept
		}
		for i, t := range taps {
			if t.Name == "" {
				t.Name = lang.T("tap {number}", "number", i+1)
				s.pasted[i].Name = t.Name
			}
			at := slices.IndexFunc(*list, func(x blower.Tap) bool { return strings.EqualFold(x.Name, t.Name) })
			if now := s.list.Now(j); at < 0 && now != nil && len(now.Points) == 0 {
				at = s.list.At()
				renameTap(j, now.Name, t.Name)
				now.Name = t.Name
			}
			if at < 0 {
				*list = append(*list, blower.Tap{Name: t.Name})
				at = len(*list) - 1
			}
			(*list)[at].Points = slices.Clone(t.Points)
		}
	})
	s.Refresh()
}

// pastedIsThere reports whether the table pasted last is still in the job.
func (s *Blower) pastedIsThere() bool {
	for _, t := range s.pasted {
		if !slices.ContainsFunc(blowerTable(s.model.Peek()).Taps, func(x blower.Tap) bool {
			return strings.EqualFold(x.Name, t.Name) && slices.Equal(x.Points, t.Points)
		}) {
			return false
		}
	}
	return len(s.pasted) > 0
}

// pasteSummary is what was read of a pasted table, what was not, and which tap is in use
// now.
func (s *Blower) pasteSummary() string {
	taps := message.Rows{Mark: ", "}
	for _, t := range s.pasted {
		taps.Items = append(taps.Items, message.New("{tap} ({count} rows)", "tap", t.Name, "count", len(t.Points)))
	}
	sentences := message.Sentences{message.New("Pasted taps: {taps}.", "taps", taps)}
	if len(s.left) > 0 {
		sentences = append(sentences, message.New("Not read: {left}", "left", strings.Join(s.left, " ")))
	}
	switch tap := blowerTable(s.model.Peek()).CoolingTap; {
	case s.kept != "":
		sentences = append(sentences, message.New("The tap in cooling stays {tap}.", "tap", s.kept))
	case tap == "":
		sentences = append(sentences, message.New("No tap in cooling is chosen: the strongest is used until you choose one."))
	default:
		sentences = append(sentences, message.New("The tap in cooling is {tap}.", "tap", tap))
	}
	return sentences.In(s.model.Units())
}

// renameTap follows a tap's name through the job.
func renameTap(j *sizing.Job, before, after string) {
	follow := func(name *string) {
		if *name == before {
			*name = after
		}
	}
	follow(&j.Equipment.Blower.CoolingTap)
	follow(&j.Equipment.Blower.HeatingTap)
	follow(&j.Equipment.Blower.FanTap)
	for i := range j.Options {
		follow(&j.Options[i].Tap)
	}
	for i := range j.Readings {
		follow(&j.Readings[i].Tap)
	}
}
