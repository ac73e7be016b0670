package job

import (
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// photos checks how each photo is stored; whether its picture can be read is only
// known when a page is drawn.
func (c *checker) photos() {
	for i, p := range c.job.Photos {
		at := c.item("", "photos", i)
		oneOf(c, at+".shows", p.Shows)
		c.want(p.File == "" || p.Data == "", at+".data", message.ID("a photo that is also in a file"), "a photo inside the job file or in a file beside it, not both")
		c.want(p.File != "" || p.Data != "", at+".file", nothing, "the name of a JPEG or PNG file beside the job file, or the photo itself in data")
		c.want(!strings.ContainsAny(p.File, `/\:`) && p.File != "." && p.File != "..", at+".file", strconv.Quote(p.File), "the name of a file in the folder of the job file, such as closet.jpg, with no folder before it")
	}
}

// paper checks the fields of the proposal and the work order.
func (c *checker) paper() {
	w, q := c.job.Work, c.job.Quote
	within(c, "work.crew_hours", w.CrewHours, 0.25*units.Hour, 1000*units.Hour)
	for _, side := range []struct {
		path string
		v    units.Length
	}{
		{"unit_width", w.UnitWidth}, {"unit_height", w.UnitHeight},
		{"plenum_width", w.PlenumWidth}, {"plenum_height", w.PlenumHeight},
	} {
		within(c, c.field("work", side.path), side.v, 4*units.Inch, 72*units.Inch)
	}
	share(c, "quote.tax_rate", q.TaxRate, 0.0001, 0.5)
	c.want(q.ValidDays >= 0 && q.ValidDays <= 730, "quote.valid_days", q.ValidDays, "1 to 730 days, or nothing for the firm's usual time")
	for i, l := range q.Lines {
		at := c.item("quote", "lines", i)
		c.want(l.Item != "", at+".item", nothing, "what is sold, such as filter cabinet")
		c.want(l.Count >= 0 && l.Count <= 1000, at+".count", l.Count, "1 to 1000")
		c.price(at+".price", l.Price)
		if l.Option != "" {
			c.want(c.job.hasOption(l.Option), at+".option", strconv.Quote(l.Option), "the name of one of the job's options, or nothing for all")
		}
	}
}
