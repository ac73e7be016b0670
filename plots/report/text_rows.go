package report

// flow is a list of rows being built. All sizes are multiplied by scale.
type flow struct {
	*sheet
	x, width float64
	scale    float64
	said     []string // the sentences, as they were given
	tight    bool     // tables with little room between their rows
	rows     []row
}

func (d *document) newFlow(scale float64) *flow {
	return &flow{sheet: d.sheet, x: marginSide, width: d.sheet.textWidth(), scale: scale}
}

const (
	bodySize  = 9.5
	smallSize = 8.0
	headSize  = 12.0
)

func (f *flow) body() style  { return style{size: bodySize * f.scale} }
func (f *flow) small() style { return style{size: smallSize * f.scale, ink: soft} }
func (f *flow) strong() style {
	return style{size: bodySize * f.scale, bold: true}
}

func (f *flow) add(r ...row) { f.rows = append(f.rows, r...) }

// gap is white space.
func (f *flow) gap(points float64) {
	f.add(row{height: points * f.scale, space: true})
}

// title is the large line at the top.
func (f *flow) title(text string, lines int) {
	t := style{size: 17 * f.scale, bold: true}
	for i, line := range f.cutLines(t, text, f.width, lines) {
		r := f.textRow(t, f.x, line)
		r.keep = true
		if i == 0 {
			r.entry = text
		}
		f.add(r)
	}
}

// heading begins a section and stays with what follows.
func (f *flow) heading(text string) {
	f.gap(10)
	t := style{size: headSize * f.scale, bold: true}
	for i, line := range f.wrap(t, text, f.width) {
		r := f.textRow(t, f.x, line)
		r.keep = true
		if i == 0 {
			r.entry = text
		}
		f.add(r)
	}
	f.add(row{height: 2.5 * f.scale, keep: true})
}

func (f *flow) textRow(t style, x float64, text string) row {
	return row{height: t.leading(), draw: func(y float64) { f.put(t, x, y+t.ascent(), text) }}
}

// paragraph writes wrapped text; its first two and last two lines stay
// together.
func (f *flow) paragraph(t style, text string) { f.indented(t, 0, "", text) }

// item writes wrapped text behind a mark.
func (f *flow) item(t style, mark, text string) {
	f.indented(t, max(11*f.scale, f.sheet.width(t, mark+"  ")), mark, text)
}

func (f *flow) items(t style, texts []string) {
	for _, text := range texts {
		f.item(t, "•", text)
		f.gap(1.5)
	}
}

func (f *flow) indented(t style, indent float64, mark, text string) {
	if len(words(text)) == 0 {
		return
	}
	f.said = append(f.said, text)
	lines := f.wrap(t, text, f.width-indent)
	for i, line := range lines {
		r := f.textRow(t, f.x+indent, line)
		if i == 0 && mark != "" {
			plain := r.draw
			r.draw = func(y float64) {
				f.put(t, f.x, y+t.ascent(), mark)
				plain(y)
			}
		}
		r.keep = i == 0 && len(lines) > 1 || i == len(lines)-2
		f.add(r)
	}
}

// figure is a drawing of a height.
func (f *flow) figure(height float64, draw func(y float64)) {
	f.add(row{height: height, draw: draw})
}

// keepAll keeps all rows added since an index on one page.
func (f *flow) keepAll(from int) {
	for i := from; i < len(f.rows)-1; i++ {
		f.rows[i].keep = true
	}
}
