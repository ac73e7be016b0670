package report

import (
	"math"

	"returnbench/sizing/lesson"
)

// ClassSheet is the sheet of a demonstration; it is for a lesson and not for a
// job.
const ClassSheet Audience = "class"

// NewClass lays out the sheet of a demonstration: the question with empty axes on
// the front, the answer on the back.
func NewClass(o lesson.Outcome, opts Options) (*Pages, error) {
	l := o.Lesson
	start := o.Start().Study
	opts.For, opts.Proposed, opts.Ranges = "", "", nil
	d, err := newDocument(l.Job, start, opts)
	if err != nil {
		return nil, err
	}
	d.For, d.title = ClassSheet, l.Title
	front, back := d.newFlow(1.1), d.newFlow(1.1)
	d.classFront(front, o)
	d.classBack(back, o)
	height := d.sheet.h - marginTight - marginBottom
	d.printPages(append(pack(front.rows, height), pack(back.rows, height)...))
	d.describe()
	return &Pages{Warnings: d.sheet.warnings(), Title: l.Title, Count: d.sheet.pdf.PageCount(), sheet: d.sheet}, d.sheet.pdf.Error()
}

func (d *document) classFront(f *flow, o lesson.Outcome) {
	l := o.Lesson
	f.title(l.Title, 2)
	f.paragraph(f.body(), d.say("Name {name}   Date {date}", "name", blankLine(30), "date", blankLine(14)))
	f.heading(d.say("Question"))
	f.paragraph(f.body(), l.Ask(d.System))
	f.heading(d.say("What do you think? Mark one, and say why."))
	for _, p := range l.Predictions {
		f.item(f.body(), "[   ]", p.Text)
		f.gap(2)
	}
	for range 2 {
		f.add(row{height: 20, draw: func(y float64) { f.line(black, 0.5, nil, f.x, y+18, f.x+f.width, y+18) }})
	}
	f.heading(d.say("Draw what you expect"))
	d.axes(f, o, false)
	d.classNumbers(f, o, false)
}

func (d *document) classBack(f *flow, o lesson.Outcome) {
	f.title(d.say("Answer: {title}", "title", o.Lesson.Title), 2)
	for i, right := range o.Right() {
		if right {
			f.item(f.strong(), "[X]", o.Lesson.Predictions[i].Text)
		}
	}
	d.axes(f, o, true)
	d.classNumbers(f, o, true)
	f.heading(d.say("Why"))
	for _, text := range o.Explain(d.System) {
		f.paragraph(f.body(), text)
		f.gap(3)
	}
	f.paragraph(f.body(), d.say("House, equipment and filters are invented."))
}

// classNumbers is the table of the demonstration's numbers; on the front the
// final values are left blank.
func (d *document) classNumbers(f *flow, o lesson.Outcome, answered bool) {
	if len(o.Lesson.Numbers) == 0 {
		return
	}
	f.heading(d.say("Numbers"))
	var cells [][]string
	for _, n := range o.Lesson.Numbers {
		line := []string{d.word(n.Name()), o.Start().Value(n).Show(d.System), "", ""}
		if answered {
			line[2], line[3] = o.End().Value(n).Show(d.System), o.Change(n).Words(d.System)
		}
		cells = append(cells, line)
	}
	f.tallTable(f.body(), 20, []column{
		{name: "", share: 1.2},
		{name: o.Start().Setting.Show(d.System), share: 1},
		{name: o.End().Setting.Show(d.System), share: 1, blank: !answered},
		{name: d.say("change"), share: 1, blank: !answered},
	}, cells)
}

// axes draws the first number against the moved field: empty except for the
// starting point, or with the answer.
func (d *document) axes(f *flow, o lesson.Outcome, answered bool) {
	l := o.Lesson
	if len(l.Numbers) == 0 {
		return
	}
	n := l.Numbers[0]
	values := make([]float64, len(o.Solved))
	unit := ""
	for i, s := range o.Solved {
		values[i], unit = s.Value(n).In(d.System)
	}
	top := 2 * math.Abs(values[0])
	if answered {
		for _, v := range values {
			top = max(top, 1.1*v)
		}
	}
	top = roundUp(top)
	name := d.word(n.Name())
	if unit != "" {
		name = d.say("{quantity}, {unit}", "quantity", name, "unit", unit)
	}
	f.gap(4)
	f.figure(axesHeight+38, func(y float64) {
		a := classAxes{values: values, count: len(values), top: top, left: f.x + 52, base: y + axesHeight + 8, wide: f.width - 62}
		f.put(style{size: 9, bold: true}, f.x, y+4, name)
		d.drawAxes(f, a, o)
		if !answered {
			a.values = values[:1]
		}
		d.drawTrace(f, a)
	})
}

// axesHeight is the height of the class sheet's axes, in points.
const axesHeight = 190.0

// classAxes are the axes of a number along a move, in points on the page.
type classAxes struct {
	values           []float64 // drawn, from the first position on
	count            int       // positions of the move
	top              float64   // value at the upper end
	left, base, wide float64
}

// place is the point of a position and its value.
func (a classAxes) place(i int, value float64) (x, y float64) {
	x = a.left + 12 + (a.wide-24)*float64(i)/float64(max(a.count-1, 1))
	return x, a.base - (axesHeight-6)*value/a.top
}

// drawAxes draws the grid, and names the settings of the move below it.
func (d *document) drawAxes(f *flow, a classAxes, o lesson.Outcome) {
	t := style{size: 9}
	for k := 0; k <= 4; k++ {
		at := a.base - (axesHeight-6)*float64(k)/4
		f.line(rule, 0.4, nil, a.left, at, a.left+a.wide, at)
		f.flushRight(t, a.left-5, at+3, threeDigits(a.top*float64(k)/4, d.System))
	}
	f.line(black, 1, nil, a.left, a.base-axesHeight+6, a.left, a.base)
	f.line(black, 1, nil, a.left, a.base, a.left+a.wide, a.base)
	every := (a.count + 6) / 7
	for i, s := range o.Solved {
		x, _ := a.place(i, 0)
		if i%every == 0 || i == a.count-1 {
			f.line(black, 0.8, nil, x, a.base, x, a.base+4)
			f.centred(t, x, a.base+14, f.cut(t, s.Setting.Show(d.System), a.wide/float64(min(a.count, 7))))
		}
	}
	f.centred(style{size: 9, bold: true}, a.left+a.wide/2, a.base+28, d.word(o.Lesson.Move.Name))
}

// drawTrace draws a dot for each value, and lines between them.
func (d *document) drawTrace(f *flow, a classAxes) {
	d.sheet.pdf.SetFillColor(0, 0, 0)
	for i, v := range a.values {
		x, y := a.place(i, v)
		if i > 0 {
			x0, y0 := a.place(i-1, a.values[i-1])
			f.line(black, 1.4, nil, x0, y0, x, y)
		}
		d.sheet.pdf.Circle(x, y, 2.6, "F")
	}
	f.pen(black, 0.5, nil)
}

// roundUp is the next number whose quarters are round: 1, 2, 4, 6 or 8 times a
// power of ten.
func roundUp(v float64) float64 {
	if v <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, n := range []float64{1, 2, 4, 6, 8} {
		if v <= n*power*(1+1e-9) {
			return n * power
		}
	}
	return 10 * power
}
