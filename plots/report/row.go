package report

import (
	"strings"
)

// row is the smallest piece of a page that is not split.
type row struct {
	height float64
	draw   func(y float64) // y is the row's top
	// keep keeps the row on one page with the row after it.
	keep bool
	// space is white: it is dropped at the top of a page.
	space bool
	// head is drawn again above the row where the row begins a page.
	head *row
	// entry is the row's line in the outline of the document.
	entry string
	// split divides a row at the end of a page; it fails where there is too
	// little room. least is the height that must fit.
	split func(room float64) (first, rest row, ok bool)
	least float64
}

// The paper round the text, in points.
const (
	marginSide   = 48.0
	marginTop    = 66.0 // holds the header
	marginBottom = 50.0 // holds the footer
)

func (s *sheet) textWidth() float64  { return s.w - 2*marginSide }
func (s *sheet) textHeight() float64 { return s.h - marginTop - marginBottom }

// pack distributes rows over pages. Rows that are kept together go to the next
// page together where they fit on one.
func pack(rows []row, height float64) [][]row { return packFrom(rows, height, height) }

// packFrom is pack with another height of the first page.
func packFrom(rows []row, first, height float64) [][]row {
	first += 0.01 // heights are sums
	rest := height + 0.01
	height = first
	var pages [][]row
	var page []row
	used := 0.0
	turn := func() {
		pages = append(pages, page)
		page, used, height = nil, 0, rest
	}
	add := func(r row) {
		if len(page) == 0 {
			if r.space {
				return
			}
			if r.head != nil {
				page = append(page, *r.head)
				used += r.head.height
			}
		}
		page = append(page, r)
		used += r.height
	}
	for i := 0; i < len(rows); {
		n, tall := together(rows[i:])
		if len(page) > 0 && used+tall > height && !rows[i].space {
			turn()
		}
		for _, r := range rows[i : i+n] {
			for r.split != nil && used+r.height > height {
				first, rest, ok := r.split(height - used)
				if ok {
					add(first)
					r = rest
				} else if len(page) == 0 {
					break
				}
				turn()
			}
			if len(page) > 0 && used+r.height > height && !r.space {
				turn()
			}
			add(r)
		}
		i += n
	}
	if len(page) > 0 {
		turn()
	}
	return pages
}

// together is how many rows from the first keep together, and their height
// without white space at the end.
func together(rows []row) (n int, height float64) {
	for n = 1; n < len(rows) && (rows[n-1].keep || rows[n-1].space && n > 1); n++ {
	}
	for _, r := range rows[:n] {
		if r.split != nil {
			height += r.least
		} else {
			height += r.height
		}
	}
	return n, height
}

func heightOf(rows []row) float64 {
	sum := 0.0
	for _, r := range rows {
		sum += r.height
	}
	return sum
}

// Above a page that bears a letterhead in place of a header, and above a full one.
const (
	marginHeadless = 36.0
	marginTight    = 28.0
)

// top is where the text of a page begins; the first is 0.
func (d *document) top(page int) float64 {
	switch {
	case page == 0 && (d.For == WorkOrder || d.For == FieldSheet) || d.For == ClassSheet:
		return marginTight
	case page == 0 && d.For != Working:
		return marginHeadless
	}
	return marginTop
}

// pages distributes the rows as they will be printed.
func (d *document) pages(rows []row) [][]row {
	return packFrom(rows, d.sheet.textHeight()+marginTop-d.top(0), d.sheet.textHeight())
}

// print draws the rows page after page.
func (d *document) print(rows []row) { d.printPages(d.pages(rows)) }

// printPages draws pages whose rows are distributed.
func (d *document) printPages(pages [][]row) {
	d.pageOf = map[string]int{}
	for i, page := range pages {
		for _, r := range page {
			if r.entry != "" && d.pageOf[r.entry] == 0 {
				d.pageOf[r.entry] = i + 1
			}
		}
	}
	for i, page := range pages {
		d.sheet.pdf.AddPage()
		if i > 0 && d.For != ClassSheet || d.For == Working {
			d.header()
		}
		d.footer(i+1, len(pages))
		y := d.top(i)
		for _, r := range page {
			if r.entry != "" {
				d.sheet.dress(style{size: 10})
				d.sheet.pdf.Bookmark(d.sheet.clean(r.entry), 0, y)
			}
			if r.draw != nil {
				r.draw(y)
			}
			y += r.height
		}
	}
}

// header writes the house's name, shrunk or on two lines where it is long, and
// what the pages are.
func (d *document) header() {
	s := d.sheet
	kind := style{size: 9, ink: soft}
	s.flushRight(kind, s.w-marginSide, 40, d.title)
	room := s.textWidth() - s.width(kind, d.title) - 16
	name := style{size: 12, bold: true}
	for name.size > 9 && s.width(name, d.houseName()) > room {
		name.size -= 0.5
	}
	lines := s.cutLines(name, d.houseName(), room, 2)
	for i, line := range lines {
		s.put(name, marginSide, 40-name.leading()*float64(len(lines)-1-i), line)
	}
	s.line(rule, 0.75, nil, marginSide, 47, s.w-marginSide, 47)
}

func (d *document) footer(page, of int) {
	s := d.sheet
	t := style{size: 8, ink: soft}
	y := s.h - 30
	s.line(rule, 0.5, nil, marginSide, y-12, s.w-marginSide, y-12)
	if d.For == Customer {
		d.ownersFooter(page, of, y)
		return
	}
	left := "returnbench"
	if d.Version != "" {
		left += " " + d.Version
	}
	if d.Date != "" {
		left += "  ·  " + shortDate(d.Date, d.System)
	}
	if d.Checksum != "" {
		left += "  ·  " + d.say("job file {checksum}", "checksum", shortSum(d.Checksum))
	}
	number := d.say("page {page} of {pages}", "page", page, "pages", of)
	s.flushRight(t, s.w-marginSide, y, number)
	s.put(t, marginSide, y, s.cut(t, left, s.textWidth()-s.width(t, number)-12))
}

// ownersFooter names the firm and the offer, and not the program.
func (d *document) ownersFooter(page, of int, y float64) {
	t := style{size: 9}
	var parts []string
	for _, text := range []string{d.Firm.Name, d.Firm.Phone, d.job.Quote.Number, shortDate(d.Date, d.System)} {
		if text != "" {
			parts = append(parts, text)
		}
	}
	number := d.say("page {page} of {pages}", "page", page, "pages", of)
	d.sheet.flushRight(t, d.sheet.w-marginSide, y, number)
	d.sheet.put(t, marginSide, y, d.sheet.cut(t, strings.Join(parts, "  ·  "), d.sheet.textWidth()-d.sheet.width(t, number)-12))
}

// shortSum is the start of a checksum, enough to tell two files apart.
func shortSum(sum string) string {
	words := strings.Fields(sum)
	for i, w := range words {
		if short := strings.TrimRight(w, ","); len(short) > 12 {
			words[i] = short[:12] + w[len(short):]
		}
	}
	return strings.Join(words, " ")
}
