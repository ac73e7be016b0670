package study

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Size is the place's nominal size.
func (p *FilterPlace) Size(sys units.System) stock.Size {
	return stock.Size{Width: p.Width, Height: p.Height, Depth: p.Depth, System: sys}
}

// LifeEnd is why a filter is changed.
type LifeEnd string

const (
	EndsAtDrop     LifeEnd = "drop_limit"
	EndsAtAirflow  LifeEnd = "airflow_limit"
	EndsAtCapacity LifeEnd = "capacity"
	EndsAtTime     LifeEnd = "time_limit"
	OverWhenClean  LifeEnd = "over_when_clean"
)

var lifeEnds = map[LifeEnd]message.ID{
	EndsAtDrop:     "its drop reaches the change limit",
	EndsAtAirflow:  "the airflow has fallen as far as allowed",
	EndsAtCapacity: "it holds all the dust it can",
	EndsAtTime:     "the longest time between changes is over",
	OverWhenClean:  "its drop is over the change limit when clean",
}

// Words is the reason in a sentence.
func (e LifeEnd) Words() message.ID { return lifeEnds[e] }

// FilterPlace is one place that holds filters of one make and nominal size,
// with its share of air, dust and leakage.
type FilterPlace struct {
	Where  job.PlaceKind  `json:"where"`
	Branch int            `json:"branch"`          // index of the return; -1: before the blower, for all returns
	Return job.ReturnName `json:"return,omitzero"` // name of that return
	Count  int            `json:"count"`           // filters in it
	Width  units.Length   `json:"width"`           // nominal, of one filter
	Height units.Length   `json:"height"`          // m, nominal, of one filter
	Depth  units.Length   `json:"depth"`           // m, nominal, along the air
	Filter string         `json:"filter"`          // name of the make

	FaceArea         units.Area `json:"face_area"`  // of all its filters, as what follows
	MediaArea        units.Area `json:"media_area"` // m2, of the pleats laid flat, of all its filters
	MediaAreaAssumed bool       `json:"media_area_assumed,omitzero"`
	AirShare         float64    `json:"air_share"`            // of all return air, clean
	LeakFraction     float64    `json:"leak_fraction"`        // of the air through this place, clean
	LoadedLeak       float64    `json:"loaded_leak"`          // the same at its change
	LeavesSeat       bool       `json:"leaves_seat,omitzero"` // a frame buckles out before its change

	Life            units.Duration `json:"life"` // calendar time to its change
	ReplacedBecause LifeEnd        `json:"ends"`
	Dust            units.Mass     `json:"dust"`     // held at its change
	Capacity        units.Mass     `json:"capacity"` // kg of dust that all its filters hold
	CapacityAssumed bool           `json:"capacity_assumed,omitzero"`
	ChangeDrop      units.Pressure `json:"change_drop,omitzero"` // zero: none
	PerYear         float64        `json:"per_year"`             // filters
	Price           units.Money    `json:"price"`                // of one filter
}

// Assembly is the outside of a slot's or cabinet's casing.
type Assembly struct {
	Width  units.Length `json:"width"`  // m, across the air
	Height units.Length `json:"height"` // m, across the air
	Depth  units.Length `json:"depth"`  // along the air
	// Stacked is true where its filters stand one above the other, else they
	// stand side by side.
	Stacked bool `json:"stacked,omitzero"`
}

var placeWords = map[job.PlaceKind]message.ID{job.InGrille: "filter grille", job.InSlot: "slot", job.InCabinet: "cabinet"}

// PlaceWord is the word for a kind of place: grille, slot, cabinet.
func PlaceWord(place job.PlaceKind) message.ID { return placeWords[place] }
