package homes

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Names of the columns that the screening adds.
const (
	resultPrefix = "study_"
	errorColumn  = "error"

	perCapacityColumn = "study_airflow_per_capacity"
	staticColumn      = "study_external_static"
	verdictColumn     = "study_verdict"
	limitsColumn      = "study_limits"
	upgradeColumn     = "study_upgrade"
	engineColumn      = "study_engine"
)

// result is one column that the screening adds.
type result struct {
	Column
	quantity func(*solved) units.Quantity // of a quantity
	words    func(*solved) string         // of any other
}

// solved is a home with its study and the upgrade that helps it, if any.
type solved struct {
	study   *sizing.Study
	today   *sizing.OptionResult
	upgrade *sizing.OptionResult
}

var results = []result{
	measured("study_airflow", "in cooling, with a clean filter", func(s *solved) units.Quantity { return s.today.Clean.Airflow }),
	measured(perCapacityColumn, "the same per cooling capacity", func(s *solved) units.Quantity { return s.today.Clean.AirflowPerCapacity }),
	measured(staticColumn, "external static there", func(s *solved) units.Quantity { return s.today.Clean.ExternalStatic }),
	measured("study_filter_drop", "clean", func(s *solved) units.Quantity { return s.today.Clean.FilterDrop }),
	measured("study_face_velocity", "at the filter", func(s *solved) units.Quantity { return s.today.Clean.FaceVelocity }),
	measured("study_blower_power", "in cooling, with a clean filter", func(s *solved) units.Quantity { return s.today.Clean.BlowerPower }),
	measured("study_temperature_rise", "in heating, with a clean filter", func(s *solved) units.Quantity { return s.today.Clean.TemperatureRise }),
	measured("study_filter_life", "until it is changed", func(s *solved) units.Quantity { return s.today.Life }),
	measured("study_annual_cost", "power of blower and outdoor unit, and filters, at today's cooling", func(s *solved) units.Quantity { return s.today.AnnualCost }),
	worded(verdictColumn, "good, caution or stop, of today", func(s *solved) string { return string(s.today.Verdict) }),
	worded(limitsColumn, "codes of the limits that the home misses today", missedLimits),
	measured("study_needed_face", "filter face that keeps the target face velocity at the design airflow", func(s *solved) units.Quantity { return s.study.NeededFace }),
	worded("study_best_size", "best ranked nominal size that keeps every limit", func(s *solved) string { return bestSize(s.study) }),
	worded(upgradeColumn, "the upgrade that helps most: of the row's own, or else of a larger slot and a deeper cabinet", upgradeName),
	worded("study_upgrade_place", "where its filter sits and how large", func(s *solved) string {
		return ifUpgrade(s, func(o *sizing.OptionResult) string { return o.Place.String() })
	}),
	measuredUpgrade("study_upgrade_airflow", "clean", func(o *sizing.OptionResult) units.Quantity { return o.Clean.Airflow }),
	measuredUpgrade("study_upgrade_external_static", "clean", func(o *sizing.OptionResult) units.Quantity { return o.Clean.ExternalStatic }),
	measuredUpgrade("study_upgrade_annual_cost", "power of blower and outdoor unit, and filters, at today's cooling", func(o *sizing.OptionResult) units.Quantity { return o.AnnualCost }),
	worded("study_assumed_share", "share of the external static that was neither typed nor measured", func(s *solved) string { return fmt.Sprintf("%.2f", s.study.AssumedShare) }),
	worded(engineColumn, "program and version that studied the row", nil),
}

// engineAt is where the engine's name stands among the added columns. It is
// there for rows at fault too.
var engineAt = len(results) - 1

// Results are the columns that the screening adds to a list, in order.
func Results() []Column {
	out := make([]Column, 0, len(results)+1)
	for _, r := range results {
		out = append(out, r.Column)
	}
	return append(out, Column{errorColumn, message.New("text"), "line, column and reason where a row was not solved"})
}

func measured(name string, text message.ID, of func(*solved) units.Quantity) result {
	sample := of(&solved{study: &sizing.Study{}, today: &sizing.OptionResult{}, upgrade: &sizing.OptionResult{}})
	return result{Column{name, message.New(message.KindName(sample.Kind())), text}, of, nil}
}

func measuredUpgrade(name string, text message.ID, of func(*sizing.OptionResult) units.Quantity) result {
	return measured(name, text, func(s *solved) units.Quantity {
		if s.upgrade == nil {
			return nil
		}
		return of(s.upgrade)
	})
}

func worded(name string, text message.ID, of func(*solved) string) result {
	return result{Column{name, message.New("text"), text}, nil, of}
}

func ifUpgrade(s *solved, of func(*sizing.OptionResult) string) string {
	if s.upgrade == nil {
		return ""
	}
	return of(s.upgrade)
}

func upgradeName(s *solved) string {
	switch {
	case s.today.Verdict == sizing.Good:
		return NoneNeeded
	case s.upgrade == nil:
		return NoneHelps
	}
	return s.upgrade.Name
}

// notes are codes of cautions that are about no limit of the home.
var notes = []string{"assumed", "upgrade_unsure"}

// missedLimits lists the codes of today's findings and of the house's.
func missedLimits(s *solved) string {
	var codes []string
	add := func(f sizing.Finding) {
		if f.Severity != sizing.Good && !slices.Contains(notes, f.Code) && !slices.Contains(codes, f.Code) {
			codes = append(codes, f.Code)
		}
	}
	for _, f := range s.today.Findings {
		add(f)
	}
	for _, f := range s.study.Findings {
		if f.Option == "" {
			add(f)
		}
	}
	return strings.Join(codes, " ")
}

// resultHeading is the names of the added columns with their units.
func resultHeading(sys units.Locale) []string {
	sample := &solved{study: &sizing.Study{}, today: &sizing.OptionResult{}, upgrade: &sizing.OptionResult{}}
	out := make([]string, 0, len(results)+1)
	for _, r := range results {
		name := r.Name
		if r.quantity != nil {
			name += " [" + r.quantity(sample).Kind().Usual(sys).Name + "]"
		}
		out = append(out, name)
	}
	return append(out, errorColumn)
}

// resultAt is where an added column stands among the added ones.
func resultAt(name string) int {
	return slices.IndexFunc(results, func(r result) bool { return r.Name == name })
}

// screen solves one row and gives the cells of the columns it adds.
func (hd *heading) screen(r row, opts Options) ([]string, []Fault) {
	out := make([]string, len(results)+1)
	faults := []Fault{{Reason: r.fault}}
	if r.fault == "" {
		faults = hd.solve(r.cells, opts.Units, out)
	}
	out[engineAt] = opts.Engine
	for i := range faults {
		faults[i].Line = r.line
	}
	if faults != nil {
		out[len(results)] = join(faults)
	}
	for i := range out {
		out[i] = export.Cell(out[i])
	}
	return out, faults
}

func (hd *heading) solve(cells []string, sys units.Locale, out []string) []Fault {
	if len(cells) > len(hd.cells) {
		return []Fault{{Reason: fmt.Sprintf("%d cells, the heading has %d; left out: %s", len(cells), len(hd.cells), strings.Join(cells[len(hd.cells):], ", "))}}
	}
	if len(cells) < len(hd.cells) {
		return []Fault{{Reason: fmt.Sprintf("%d cells, the heading has %d", len(cells), len(hd.cells))}}
	}
	h, faults := hd.read(cells)
	if faults != nil {
		return faults
	}
	study, err := h.safely()
	if err != nil {
		return h.faults(err, hd.uses)
	}
	s := &solved{study: study, today: study.Today()}
	if s.today.Verdict != sizing.Good {
		s.upgrade = study.Recommended()
	}
	for i, r := range results {
		switch {
		case r.words != nil:
			out[i] = r.words(s)
		case r.quantity != nil:
			if q := r.quantity(s); q != nil {
				out[i] = show(q, sys)
			}
		}
	}
	return nil
}

// faults turns what the engine says of a job into faults of the row's columns.
func (h *home) faults(err error, uses []use) []Fault {
	var fields sizing.FieldErrors
	if !errors.As(err, &fields) {
		return []Fault{{Reason: err.Error()}}
	}
	out := make([]Fault, len(fields))
	for i, f := range fields {
		out[i] = Fault{Column: h.columnAt(f.Path, uses), Reason: fmt.Sprintf("given %s; want %s", f.Given, f.Wanted.Writing(message.Exact))}
	}
	return out
}
