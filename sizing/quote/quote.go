// Package quote holds what the papers of a job say beside the house: whom the
// work is for, who does it, and what each line of it costs.
package quote

import (
	"math"

	"returnbench/sizing/units"
)

// Customer is whom the work is for. It stands on the proposal and the work order.
type Customer struct {
	Name    string `json:"name,omitzero"`
	Address string `json:"address,omitzero"` // of the house
	Phone   string `json:"phone,omitzero"`
}

// Plate is what the plate of the equipment says, as the person typed it.
type Plate struct {
	Maker  string `json:"maker,omitzero"`
	Model  string `json:"model,omitzero"`
	Serial string `json:"serial,omitzero"`
}

// Work is who does the work, when, and what he measured for it.
type Work struct {
	JobNumber string         `json:"job_number,omitzero"`
	Date      string         `json:"date,omitzero"` // as the person writes it
	Crew      string         `json:"crew,omitzero"`
	CrewHours units.Duration `json:"crew_hours,omitzero"` // of all together
	Plate     Plate          `json:"plate,omitzero"`
	// UnitWidth and UnitHeight are the return opening of the equipment, across
	// the airflow.
	UnitWidth  units.Length `json:"unit_width,omitzero"`
	UnitHeight units.Length `json:"unit_height,omitzero"`
	// PlenumWidth and PlenumHeight are the return plenum's inside, across the
	// airflow.
	PlenumWidth  units.Length `json:"plenum_width,omitzero"`
	PlenumHeight units.Length `json:"plenum_height,omitzero"`
}

// Quote is the offer to the customer.
type Quote struct {
	Number  string `json:"number,omitzero"`
	Message string `json:"message,omitzero"` // to the customer; the job's notes stay private
	Lines   []Line `json:"lines,omitempty"`
	// TaxRate is a share of the price; left open: the firm's.
	TaxRate float64 `json:"tax_rate,omitzero"`
	// ValidDays is how long the offer holds; left open: as the firm does.
	ValidDays int `json:"valid_days,omitzero"`
	// Choices puts up to three options side by side; left open: one is offered.
	Choices bool `json:"choices,omitzero"`
}

// Line is one line of the offer.
type Line struct {
	Option string      `json:"option,omitzero"` // that it belongs to; left open: every one
	Item   string      `json:"item"`
	Count  int         `json:"count,omitzero"` // left open: 1
	Price  units.Money `json:"price,omitzero"` // each; left open: not known
	NoTax  bool        `json:"no_tax,omitzero"`
}

// Quantity is how many are sold.
func (l Line) Quantity() int { return max(l.Count, 1) }

// Amount is the price of the whole line; zero where it is not known.
func (l Line) Amount() units.Money { return units.Money(l.Quantity()) * l.Price }

// Of are the lines that belong to an option, in their order.
func (q Quote) Of(option string) []Line {
	var out []Line
	for _, l := range q.Lines {
		if l.Option == "" || l.Option == option {
			out = append(out, l)
		}
	}
	return out
}

// Totals are the sums under the lines.
type Totals struct {
	Net, Tax, Total units.Money
	TaxRate         float64
	// Known is false where a line has no price: no sum is then worth telling.
	Known bool
}

// Sum adds lines up, with the tax to the cent.
func Sum(lines []Line, taxRate float64) Totals {
	t := Totals{TaxRate: taxRate, Known: len(lines) > 0}
	taxed := units.Money(0)
	for _, l := range lines {
		if l.Price == 0 {
			t.Known = false
		}
		t.Net += l.Amount()
		if !l.NoTax {
			taxed += l.Amount()
		}
	}
	if !t.Known {
		return Totals{TaxRate: taxRate}
	}
	t.Net = cents(t.Net)
	t.Tax = cents(units.Money(taxRate) * taxed)
	t.Total = t.Net + t.Tax
	return t
}

func cents(m units.Money) units.Money {
	return units.Money(math.Round(float64(m/units.Dollar)*100)/100) * units.Dollar
}
