// Package quote holds the fields of a job that only its proposal and work order
// need: the customer, who does the work, and the price of each line.
package quote

import (
	"math"

	"returnbench/sizing/units"
)

// Customer is the person for whom the work is done, printed on the proposal and
// the work order.
type Customer struct {
	Name    string `json:"name,omitzero"`
	Address string `json:"address,omitzero"` // of the house
	Phone   string `json:"phone,omitzero"`
}

// Plate is the data of the equipment's nameplate, as it was typed.
type Plate struct {
	Maker  string `json:"maker,omitzero"`
	Model  string `json:"model,omitzero"`
	Serial string `json:"serial,omitzero"`
}

// Work is who does the work, when, and the measurements taken for it.
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
	// ValidDays is how many days the offer is valid; left open: the firm's
	// usual number.
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

// Of are the lines of the offer that belong to an option, in their order.
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
	TaxRate         float64 // share of the price
	// Known is false where a line has no price: then no sum is shown.
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
