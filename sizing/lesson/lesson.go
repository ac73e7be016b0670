package lesson

import "returnbench/sizing"

// Schema is the version of the lesson file that this engine reads and writes.
const Schema = 1

// Lesson is one demonstration.
type Lesson struct {
	Schema   int    `json:"schema"`
	Title    string `json:"title"`
	Question string `json:"question"`

	Predictions []Prediction `json:"predictions,omitempty"`
	Move        Move         `json:"move,omitzero"`

	State    State    `json:"state,omitzero"`    // of the filter; left open: clean
	Chart    Chart    `json:"chart,omitzero"`    // left open: fan_and_system
	Numbers  []Number `json:"numbers,omitempty"` // shown large, at the start and now
	Workings []Number `json:"workings,omitempty"`

	// Explanation is in paragraphs, with {placeholders} for numbers.
	Explanation []string `json:"explanation,omitempty"`

	Job sizing.Job `json:"job"` // the house at the start, but for what the move sets
}

// Prediction is an answer to choose. It is right where all its claims hold.
type Prediction struct {
	Text   string  `json:"text"`
	Claims []Claim `json:"claims,omitempty"`
}

// Claim is how one number changes over the move, from its start to its end.
type Claim struct {
	Number Number `json:"number"`
	Goes   Goes   `json:"goes"`
	// Least and Most bound the change, as a share of the number at the start;
	// for a number that is itself a share, the change is in shares of one.
	Least float64 `json:"least,omitzero"`
	Most  float64 `json:"most,omitzero"`
}

// Move is the one thing that is moved: a field along a range, or a switch.
type Move struct {
	Name string `json:"name"` // what it is called: "Pleats"
	// Path is the field of the job that is set, With are fields that go along
	// with it. A switch between options of the job has none.
	Path string   `json:"path,omitzero"`
	With []string `json:"with,omitempty"`
	// From, To and Step are values of the field as a person types them: "1 in".
	From string `json:"from,omitzero"`
	To   string `json:"to,omitzero"`
	Step string `json:"step,omitzero"`
	// Choices are the positions of a switch, in place of a range.
	Choices []Choice `json:"choices,omitempty"`
}

// Choice is one position of a switch.
type Choice struct {
	Label  string `json:"label"`
	Value  string `json:"value,omitzero"`  // of the field
	Option string `json:"option,omitzero"` // of the job, where no field is set: its name, or "today"
}

// State is a state of the filter.
type State string

const (
	Clean  State = "clean"
	Loaded State = "loaded" // at the change limit
)

// Goes is how a number changes.
type Goes string

const (
	Up         Goes = "up"
	Down       Goes = "down"
	Level      Goes = "level"        // by less than a hundredth
	DownThenUp Goes = "down_then_up" // least somewhere between the ends
	UpThenDown Goes = "up_then_down"
)

// Chart names a picture.
type Chart string

const (
	FanAndSystem     Chart = "fan_and_system"
	PressureByPart   Chart = "pressure_by_part"
	FilterDropChart  Chart = "filter_drop"
	PleatCount       Chart = "pleat_count"
	FilterLife       Chart = "filter_life"
	EfficiencyBySize Chart = "efficiency_by_size"
	TenYearCost      Chart = "ten_year_cost"
	Watts            Chart = "watts"
)

// States lists all states.
func States() []State { return []State{Clean, Loaded} }

// Values are the words that a file may hold.
func (State) Values() []string { return words(States()) }

// Directions lists all directions of change.
func Directions() []Goes { return []Goes{Up, Down, Level, DownThenUp, UpThenDown} }

// Values are the words that a file may hold.
func (Goes) Values() []string { return words(Directions()) }

// Charts lists all charts.
func Charts() []Chart {
	return []Chart{FanAndSystem, PressureByPart, FilterDropChart, PleatCount, FilterLife, EfficiencyBySize, TenYearCost, Watts}
}

// Values are the words that a file may hold.
func (Chart) Values() []string { return words(Charts()) }

func words[T ~string](all []T) []string {
	out := make([]string, len(all))
	for i, w := range all {
		out[i] = string(w)
	}
	return out
}

// Clone copies the lesson so that no slice is shared.
func (l Lesson) Clone() Lesson {
	l.Predictions = append([]Prediction(nil), l.Predictions...)
	for i := range l.Predictions {
		l.Predictions[i].Claims = append([]Claim(nil), l.Predictions[i].Claims...)
	}
	l.Move.With = append([]string(nil), l.Move.With...)
	l.Move.Choices = append([]Choice(nil), l.Move.Choices...)
	l.Numbers = append([]Number(nil), l.Numbers...)
	l.Workings = append([]Number(nil), l.Workings...)
	l.Explanation = append([]string(nil), l.Explanation...)
	l.Job = l.Job.Clone()
	return l
}

// state is the state of the filter that is looked at.
func (l *Lesson) state() State {
	if l.State == "" {
		return Clean
	}
	return l.State
}

// Picture is the chart that shows the answer.
func (l *Lesson) Picture() Chart {
	if l.Chart == "" {
		return FanAndSystem
	}
	return l.Chart
}
