package report

import (
	"context"
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/plots/report/firm"
	"returnbench/sizing"
	"returnbench/sizing/export"
	"returnbench/sizing/published"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

const longCustomer = "Bartholomew Featherstonehaugh-Montgomery and Family, Trusts"

// wideLogo is a logo eight times as wide as high.
func wideLogo() image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 800, 100))
	for x := range 800 {
		img.Set(x, 50, color.Black)
	}
	return img
}

// sevenLines is a job with all that a proposal may hold.
func sevenLines(job sizing.Job, option string) sizing.Job {
	job.Customer = quote.Customer{Name: longCustomer, Address: "1 Invented Way", Phone: "000 000 0000"}
	job.Quote = quote.Quote{Number: "Q-118", Message: "Thank you for having us in.", TaxRate: 0.0825, ValidDays: 30, Choices: true}
	for _, l := range []quote.Line{
		{Item: "Filter cabinet", Price: 520}, {Item: "Filters", Count: 2, Price: 38}, {Item: "Return, complete", Price: 210},
		{Item: "Flex duct", Price: 160}, {Item: "Sealing", Price: 90}, {Item: "Readings", Price: 74}, {Item: "Permit", Price: 45, NoTax: true},
	} {
		l.Option = option
		l.Price *= units.Dollar
		job.Quote.Lines = append(job.Quote.Lines, l)
	}
	return job
}

// TestProposalPages: at most two pages, whatever the house is called and
// whatever is sold, with nothing on them that is not for the customer.
func TestProposalPages(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		full := sevenLines(job, s.Proposed().Name)
		full.Notes = "secret " + strings.Repeat("Invented, and told at length. ", 60)
		long := *s
		long.Name = strings.Repeat("The Long Named House on the Hill ", 30)
		for _, p := range Papers() {
			for _, logo := range []image.Image{nil, wideLogo()} {
				opts := testOptions(Customer, p, systemOf(name))
				opts.Firm = firm.Profile{Name: "Invented Air", License: "INV-0", Phone: "000", Picture: logo, Terms: "Half is due when you accept."}
				pages := readPages(t, written(t, full, &long, opts))
				assert.LessOrEqual(t, len(pages), 2, name)
				text := allText(pages)
				for _, never := range []string{"secret", "sha256", "9f86d0", "checksum", ".json"} {
					assert.NotContains(t, text, never, name)
				}
				holds(t, name, text, longCustomer, "Q-118", "Invented Air", "License INV-0")
			}
		}
	}
}

// Hand-worked: 520 + 2 x 38 + 210 + 160 + 90 + 74 = 1130 taxed; with 45 for the
// permit 1175 before tax. 1130 x 0.0825 = 93.225, 93.23 to the cent: 1268.23.
func TestProposalPrices(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	text := allText(readPages(t, written(t, sevenLines(job, s.Proposed().Name), s, testOptions(Customer, Letter, units.IP))))
	holds(t, "priced", text, "Filters 2 $38.00 $76.00", "Before tax $1,175.00", "Tax, 8.25 % $93.23", "Total $1,268.23", "This offer holds for 30 days")
	open := sevenLines(job, s.Proposed().Name)
	open.Quote.Lines[2].Price = 0
	open.Quote.Choices = false
	text = allText(readPages(t, written(t, open, s, testOptions(Customer, Letter, units.IP))))
	holds(t, "open", text, "Return, complete 1 not known not known", "Total not known")
	assert.NotContains(t, text, "Before tax")
}

// TestPriceOfTheWork: the first sentence names what the work costs, the sum of
// the quote or else the option's own price; where nobody typed one it says so.
func TestPriceOfTheWork(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	name := s.Proposed().Name
	i := slices.IndexFunc(job.Options, func(o sizing.Option) bool { return o.Name == name })
	require.GreaterOrEqual(t, i, 0)
	page := func(job sizing.Job) string {
		s, err := sizing.Solve(job)
		require.NoError(t, err)
		return allText(readPages(t, written(t, job, s, testOptions(Customer, Letter, units.IP))))
	}
	holds(t, "of the quote", page(sevenLines(job, name)), "We recommend: "+name+", for $1,268.23.")
	job.Options = slices.Clone(job.Options)
	job.Options[i].Price = 1480 * units.Dollar
	holds(t, "of the option", page(job), "We recommend: "+name+", for $1,480.00 before tax.")
	job.Options[i].Price, job.Prices = 0, sizing.WorkPrices{}
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	opts := testOptions(Customer, Letter, units.IP)
	opts.Proposed = name
	text := allText(readPages(t, written(t, job, s, opts)))
	assert.Regexp(t, `We (recommend|offer): `+name+`\. Its price is not\s+known yet\.`, text)
	assert.NotContains(t, text, name+", for")
}

// TestBlankOwner: whom nobody named is written in by hand, on a line, on every
// page that an owner or a crew gets.
func TestBlankOwner(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	job.Customer, job.Name = quote.Customer{}, ""
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	for a, line := range map[Audience]string{Customer: "For " + blankLine(24), WorkOrder: "Customer " + blankLine(24)} {
		holds(t, string(a), allText(readPages(t, written(t, job, s, testOptions(a, Letter, units.IP)))), line)
	}
	job.Customer.Name = "A. Person"
	text := allText(readPages(t, written(t, job, s, testOptions(Customer, Letter, units.IP))))
	holds(t, "named", text, "For A. Person")
	assert.NotContains(t, text, "For _")
}

// TestPriceWarning: a quote that is not what the study counts with is told.
func TestPriceWarning(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	pages, err := New(sevenLines(job, s.Proposed().Name), s, Options{})
	require.NoError(t, err)
	require.Len(t, pages.Warnings, 1)
	assert.Contains(t, pages.Warnings[0], "$1,175.00")
	assert.Contains(t, pages.Warnings[0], "$1,130.00")
}

// TestLargeNumbers: the three large numbers are the Study's.
func TestLargeNumbers(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		d, err := newDocument(job, s, testOptions(Customer, Letter, systemOf(name)))
		require.NoError(t, err)
		list := d.tileList()
		require.Len(t, list, 3)
		for i, o := range []*sizing.OptionResult{s.Today(), s.Proposed()} {
			pick := func(t tile) string { return [2]string{t.before, t.after}[i] }
			near(t, o.Clean.Airflow, number(t, pick(list[0])), d.System, name)
			assert.InDelta(t, o.Life.In(units.Month), number(t, pick(list[1])), 0.5001, name)
			assert.EqualValues(t, o.Efficiency.InstalledMERV, number(t, pick(list[2])), name)
		}
		for _, c := range []smallChart{d.airChart(), d.secondChart()} {
			for _, b := range c.bars {
				assert.InDelta(t, b.value, number(t, strings.TrimRight(b.text, "\u00a0%")), 5.01, name)
			}
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	require.Regexp(t, `^\d+$`, text)
	v := 0.0
	for _, r := range text {
		v = 10*v + float64(r-'0')
	}
	return v
}

// Every caution has its sentence for the owner, at its place in the list.
func TestOwnersCautions(t *testing.T) {
	all := export.Cautions()
	require.Len(t, ownersCautions, len(all))
	for i, word := range []string{"off before", "metal", "asbestos", "Never run the blower", "return must not draw", "draft", "licensed"} {
		assert.Contains(t, ownersCautions[i], word)
		assert.Contains(t, all[i], strings.Replace(word, "off before", "are off before", 1))
	}
}

// TestReadingGrade: the sentences of each proposal, without tables,
// read at grade 8 or lower by the formula above, syllables as counted there.
func TestReadingGrade(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		opts := testOptions(Customer, Letter, systemOf(name))
		var err error
		opts.Ranges, err = sizing.Sampling{Samples: 40, Seed: 2}.Ranges(context.Background(), job)
		require.NoError(t, err)
		d, err := newDocument(job, s, opts)
		require.NoError(t, err)
		f := d.newFlow(1)
		d.propose(f, details[0])
		require.Greater(t, len(f.said), 5)
		got := published.ReadingGrade(f.said)
		t.Logf("%s: grade %.1f over %d texts", name, got, len(f.said))
		assert.False(t, math.IsNaN(got))
		assert.LessOrEqual(t, got, 8.0, name)
	}
}

// TestNothingProposed: a proposal of the house as it is says that it
// proposes nothing; one that proposes something does not.
func TestNothingProposed(t *testing.T) {
	const words = "No work is proposed here."
	for _, name := range jobNames() {
		job, s := studied(t, name)
		opts := testOptions(Customer, Letter, systemOf(name))
		proposed := s.Proposed().Kind == sizing.KindOption
		text := allText(readPages(t, written(t, job, s, opts)))
		assert.Equal(t, !proposed, strings.Contains(text, words), name)
		opts.Proposed = sizing.TodayName
		holds(t, name, allText(readPages(t, written(t, job, s, opts))), words)
	}
}

// TestSignedBesideThePrice: of every example the price and the line to sign
// on stand on one page.
func TestSignedBesideThePrice(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		if s.Proposed().Kind != sizing.KindOption {
			continue
		}
		for _, p := range Papers() {
			for _, job := range []sizing.Job{job, sevenLines(job, s.Proposed().Name)} {
				for _, page := range readPages(t, written(t, job, s, testOptions(Customer, p, systemOf(name)))) {
					text := pageText(page)
					assert.Equal(t, strings.Contains(text, "Total"), strings.Contains(text, "Please sign to accept it"), "%s on %s", name, p)
				}
			}
		}
	}
}
