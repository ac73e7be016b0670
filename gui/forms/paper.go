package forms

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// customerFields say whom the work is for and who does it.
func customerFields(b *form.Builder) {
	b.Heading("Customer")
	text := func(path string, label, hint message.ID, at func(*sizing.Job) *string) { b.Text(path, label, at, hint) }
	text("customer.name", "Name", "as on the proposal", func(j *sizing.Job) *string { return &j.Customer.Name })
	text("customer.address", "Address", "of the house", func(j *sizing.Job) *string { return &j.Customer.Address })
	text("customer.phone", "Phone", "", func(j *sizing.Job) *string { return &j.Customer.Phone })

	b.Heading("Work order")
	text("work.job_number", "Job number", "", func(j *sizing.Job) *string { return &j.Work.JobNumber })
	text("work.date", "Date of the work", "as you write it", func(j *sizing.Job) *string { return &j.Work.Date })
	text("work.crew", "Crew", "", func(j *sizing.Job) *string { return &j.Work.Crew })
	form.Measured(b, "work.crew_hours", "Crew hours, all together", func(j *sizing.Job) *units.Duration { return &j.Work.CrewHours }, "h", "h", form.QuantityOptions{Hint: "not known"})
	text("work.plate.maker", "Plate: maker", "", func(j *sizing.Job) *string { return &j.Work.Plate.Maker })
	text("work.plate.model", "Plate: model", "", func(j *sizing.Job) *string { return &j.Work.Plate.Model })
	text("work.plate.serial", "Plate: serial", "", func(j *sizing.Job) *string { return &j.Work.Plate.Serial })
	side := func(name string, label message.ID, at func(*quote.Work) *units.Length) {
		form.Quantity(b, "work."+name, label, func(j *sizing.Job) *units.Length { return at(&j.Work) }, form.QuantityOptions{Hint: "to be measured"})
	}
	side("unit_width", "Unit's return opening, width", func(w *quote.Work) *units.Length { return &w.UnitWidth })
	side("unit_height", "Unit's return opening, height", func(w *quote.Work) *units.Length { return &w.UnitHeight })
	side("plenum_width", "Return plenum, width", func(w *quote.Work) *units.Length { return &w.PlenumWidth })
	side("plenum_height", "Return plenum, height", func(w *quote.Work) *units.Length { return &w.PlenumHeight })
}

// quoteLines are the lines of the offer.
func quoteLines() form.List[quote.Line] {
	return form.List[quote.Line]{
		What: "quote line", Of: func(j *sizing.Job) *[]quote.Line { return &j.Quote.Lines },
		Name: func(l *quote.Line) *string { return &l.Item },
		New:  func(name string) quote.Line { return quote.Line{Item: name} },
	}
}

// quoteFields are the offer to the customer.
func quoteFields(b *form.Builder, list *form.List[quote.Line]) {
	b.Heading("Proposal")
	b.Text("quote.number", "Quote number", func(j *sizing.Job) *string { return &j.Quote.Number }, "")
	b.Long("quote.message", "Message to the customer", func(j *sizing.Job) *string { return &j.Quote.Message })
	b.Percent("quote.tax_rate", "Tax", func(j *sizing.Job) *float64 { return &j.Quote.TaxRate }, "as the company's")
	b.Integer("quote.valid_days", "Holds for, days", "as the company's", func(j *sizing.Job) *int { return &j.Quote.ValidDays }, 1, 730)
	b.Check("quote.choices", "Put up to three options side by side", func(j *sizing.Job) *bool { return &j.Quote.Choices })
	if len(list.Names(b.Job())) == 0 {
		b.Note("Without lines the proposal sells the option at its own price.")
	}
	some := form.Items(b, list)
	form.LineLibraryButtons(b)
	if !some {
		return
	}
	path := fmt.Sprintf("quote.lines[%d]", list.At())
	at := list.Field()
	form.NameField(b, list, path+".item", "What is sold")
	b.Named(path+".option", "For the option", form.Of(at, func(l *quote.Line) *string { return &l.Option }), "every option", func() []string {
		var out []string
		for _, o := range b.Job().Options {
			out = append(out, o.Name)
		}
		return out
	})
	b.Integer(path+".count", "Count", "1", form.Of(at, func(l *quote.Line) *int { return &l.Count }), 1, 1000)
	form.Quantity(b, path+".price", "Price, each", form.Of(at, func(l *quote.Line) *units.Money { return &l.Price }), form.QuantityOptions{Hint: "not known"})
	b.Check(path+".no_tax", "Not taxed", form.Of(at, func(l *quote.Line) *bool { return &l.NoTax }))
}
