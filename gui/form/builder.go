package form

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/parse"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Builder adds to a form, top to bottom.
type Builder struct {
	form *Form
	box  *fyne.Container

	heading string // as last added
}

// addObject adds to the column; it is laid out once, when all is in it.
func (b *Builder) addObject(o fyne.CanvasObject) { b.box.Objects = append(b.box.Objects, o) }

func (b *Builder) model() Model { return b.form.model }

// Job is the job that the form edits; it is not to be changed.
func (b *Builder) Job() *sizing.Job { return b.model().Peek() }

// last is the field added last.
func (b *Builder) last() *boundField { return b.form.fields[len(b.form.fields)-1] }

func (b *Builder) add(label string, field fields.Field, kind *units.Kind, paths ...string) {
	b.bind(label, &boundField{paths: paths, kind: kind, field: field})
}

func (b *Builder) bind(label string, field *boundField) {
	field.heading = b.heading
	b.form.fields = append(b.form.fields, field)
	b.form.noteUnread(field, label)
	b.addObject(field.field.Object())
}

// Called gives the field added last another name for messages, where its label would
// read badly in a sentence, as one that begins with "or".
func (b *Builder) Called(name message.ID) { b.last().called = name }

// Heading starts a group.
func (b *Builder) Heading(heading message.ID) {
	text := lang.T(heading)
	b.heading = text
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.SizeName = theme.SizeNameSubHeadingText
	l.Truncation = fyne.TextTruncateEllipsis
	b.startGroup(l)
}

// startGroup sets a group's head apart from what stands over it.
func (b *Builder) startGroup(head fyne.CanvasObject) {
	if len(b.box.Objects) > 0 {
		head = container.New(layout.NewCustomPaddedLayout(look.GroupGap-look.Margin, 0, 0, 0), head)
	}
	b.addObject(head)
}

// Note adds a sentence.
func (b *Builder) Note(text message.ID, args ...any) {
	b.Words(message.Text(b.model().Units(), text, args...))
}

// Words adds sentences that are already written.
func (b *Builder) Words(text string) {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	b.addObject(l)
}

// Object adds anything else.
func (b *Builder) Object(o fyne.CanvasObject) { b.addObject(o) }

// Button is an action beside the fields.
type Button struct {
	Label  message.ID
	Args   []any // of the label
	Action func()
	Off    bool // shown, but not to be pressed now
}

// Buttons adds a row of actions.
func (b *Builder) Buttons(buttons ...Button) {
	row := widgets.NewFlow()
	for _, x := range buttons {
		w := widgets.NewNamedButton(lang.T(x.Label, x.Args...), x.Action)
		if x.Off {
			w.Disable()
		}
		row.Add(w)
	}
	b.addObject(row)
}

// set is the change of one field: typed under its path, named by its label.
func set[T any](b *Builder, path, label string, at func(*sizing.Job) *T, v T) {
	b.form.typed(path, label, func(j *sizing.Job) {
		if p := at(j); p != nil {
			*p = v
		}
	})
}

// get reads a field; one whose place is gone reads as open.
func get[T any](b *Builder, at func(*sizing.Job) *T) (v T) {
	if p := at(b.model().Peek()); p != nil {
		v = *p
	}
	return v
}

// quantity is any of the engine's quantities.
type quantity interface {
	~float64
	units.Quantity
}

// QuantityOptions say what a field of a quantity allows beyond a positive value.
type QuantityOptions struct {
	Hint               message.ID
	AllowZero, Negated bool
	// Covered is the path of an assumption that speaks for this field too, as
	// one does for both ends of a range.
	Covered string
	// Row is the number of the row of which this is the first field; zero: it is not.
	Row int

	in         [2]string // the unit in IP and in SI, where it is not the usual one
	zeroIsOpen bool
}

// Quantity adds a quantity with a unit.
func Quantity[T quantity](b *Builder, path string, label message.ID, at func(*sizing.Job) *T, given ...QuantityOptions) {
	var options QuantityOptions
	if len(given) > 0 {
		options = given[0]
	}
	name := lang.T(label)
	var called message.ID
	if options.Row > 0 {
		called, name = label, lang.T("{row}: {label}", "row", options.Row, "label", label)
	}
	kind := T(0).Kind()
	b.add(name, fields.NewQuantity(fields.QuantityOptions{
		Label: name, Tip: widgets.Explain(label), Kind: kind, Hint: lang.T(options.Hint),
		Get:  func() float64 { return float64(get(b, at)) },
		Set:  func(si float64) { set(b, path, name, at, T(si)) },
		Unit: b.model().Units, In: options.in,
		AllowZero: options.AllowZero, ZeroIsOpen: options.zeroIsOpen, AllowNegative: options.Negated,
	}), kind, path)
	b.last().covered, b.last().in, b.last().called = options.Covered, options.in, called
}

// Text adds a field for words.
func (b *Builder) Text(path string, label message.ID, at func(*sizing.Job) *string, hint message.ID) {
	b.text(path, label, at, hint, 1)
}

// Long adds a field for many words.
func (b *Builder) Long(path string, label message.ID, at func(*sizing.Job) *string) {
	b.text(path, label, at, "", 3)
}

func (b *Builder) text(path string, label message.ID, at func(*sizing.Job) *string, hint message.ID, rows int) {
	name := lang.T(label)
	b.add(name, fields.NewText(fields.TextOptions{
		Label: name, Tip: widgets.Explain(label), Hint: lang.T(hint), Rows: rows,
		Get: func() string { return get(b, at) },
		Set: func(v string) { set(b, path, name, at, v) },
	}), nil, path)
}

// Rename adds the field of an item's name; the change reaches all that names
// the item, in the same step. While the name is empty, what named it keeps its
// last one, so that typing a name again loses nothing.
func (b *Builder) Rename(path string, label message.ID, at func(*sizing.Job) *string, follow func(j *sizing.Job, before, after string)) {
	name, last := lang.T(label), ""
	b.add(name, fields.NewText(fields.TextOptions{
		Label: name, Tip: widgets.Explain(label),
		Get: func() string { return get(b, at) },
		Set: func(v string) {
			b.form.typed(path, name, func(j *sizing.Job) {
				p := at(j)
				if p == nil {
					return
				}
				if *p != "" {
					last = *p
				}
				*p = v
				if last != "" && v != "" {
					follow(j, last, v)
				}
			})
		},
	}), nil, path)
}

// Number adds a number without a unit: a ratio, an exponent, an angle in degrees, as the
// label says. Zero is left open. The hint may have arguments.
func (b *Builder) Number(path string, label message.ID, at func(*sizing.Job) *float64, hint message.ID, args ...any) {
	name, sys := lang.T(label), b.model().Units
	b.add(name, fields.NewText(fields.TextOptions{
		Label: name, Tip: widgets.Explain(label), Hint: message.Text(sys(), hint, args...),
		Get: func() string {
			if v := get(b, at); v != 0 {
				return sys().Mark(strconv.FormatFloat(v, 'g', -1, 64))
			}
			return ""
		},
		Check: func(text string) string {
			_, fault := parse.Number(sys(), text)
			return fault
		},
		Set: func(text string) {
			v, _ := parse.Number(sys(), text) // Check has read it before
			set(b, path, name, at, v)
		},
	}), nil, path)
}

// Percent adds a share of one, typed in percent. The label may have arguments.
func (b *Builder) Percent(path string, label message.ID, at func(*sizing.Job) *float64, hint message.ID, args ...any) {
	name := lang.T(label, args...)
	b.add(name, fields.NewPercent(fields.PercentOptions{
		Label: name, Tip: widgets.Explain(label), Hint: lang.T(hint),
		Get: func() float64 { return get(b, at) },
		Set: func(v float64) { set(b, path, name, at, v) },
	}), nil, path)
}

// Deviation adds a relative standard deviation, typed in percent; nil is left
// open, zero is exactly known. The hint may have arguments.
func (b *Builder) Deviation(path string, label message.ID, at func(*sizing.Job) **float64, hint message.ID, args ...any) {
	name := lang.T(label)
	b.add(name, fields.NewPercent(fields.PercentOptions{
		Label: name, Tip: widgets.Explain(label), Hint: message.Text(b.model().Units(), hint, args...), AllowZero: true,
		Get: func() float64 {
			if v := get(b, at); v != nil {
				return *v
			}
			return math.NaN()
		},
		Set: func(v float64) {
			var said *float64
			if !math.IsNaN(v) {
				said = &v
			}
			set(b, path, name, at, said)
		},
	}), nil, path)
}

// Integer adds a whole number; hint stands in it while it is left open.
func (b *Builder) Integer(path string, label, hint message.ID, at func(*sizing.Job) *int, least, most int) {
	name := lang.T(label)
	b.add(name, fields.NewInteger(fields.IntegerOptions{
		Label: name, Tip: widgets.Explain(label), Hint: lang.T(hint), Min: least, Max: most,
		Get: func() int { return get(b, at) },
		Set: func(v int) { set(b, path, name, at, v) },
	}), nil, path)
}

// Item is one value to choose and how it is called.
type Item[T ~string] struct {
	Value T
	Label message.ID
}

// Choice adds a choice of named values; open is what leaving it open is called,
// empty where it cannot be.
func Choice[T ~string](b *Builder, path string, label message.ID, at func(*sizing.Job) *T, open message.ID, items ...Item[T]) {
	name := lang.T(label)
	list := make([]fields.ChoiceItem, len(items))
	for i, it := range items {
		list[i] = fields.ChoiceItem{Value: string(it.Value), Label: lang.T(it.Label)}
	}
	b.add(name, fields.NewChoice(fields.ChoiceOptions{
		Label: name, Tip: widgets.Explain(label), Items: list, Open: lang.T(open),
		Get: func() string { return string(get(b, at)) },
		Set: func(v string) { set(b, path, name, at, T(v)) },
	}), nil, path)
}

// Named adds a choice among names that are typed elsewhere and may change. What
// leaving it open is called may have arguments.
func (b *Builder) Named(path string, label message.ID, at func(*sizing.Job) *string, open message.ID, names func() []string, args ...any) {
	b.named(path, label, at, open, func() []fields.ChoiceItem {
		var items []fields.ChoiceItem
		for _, n := range names() {
			if n != "" {
				items = append(items, fields.ChoiceItem{Value: n, Label: n})
			}
		}
		return items
	}, args...)
	b.addWhenNone(path, names)
}

// named adds a choice among things that may change.
func (b *Builder) named(path string, label message.ID, at func(*sizing.Job) *string, open message.ID, list func() []fields.ChoiceItem, args ...any) {
	name, shown := lang.T(label), list()
	field := fields.NewChoice(fields.ChoiceOptions{
		Label: name, Tip: widgets.Explain(label), Items: shown, Open: lang.T(open, args...),
		Get: func() string { return get(b, at) },
		Set: func(v string) { set(b, path, name, at, v) },
	})
	b.form.lists = append(b.form.lists, func() {
		if now := list(); !slices.Equal(now, shown) {
			shown = now
			field.SetItems(now)
		}
	})
	b.add(name, field, nil, path)
}

// origins are where the things are made that a field names, by the end of its path.
var origins = []struct {
	ending string
	button message.ID
	place  string
}{
	{".tap", "Add a tap ...", "blower"},
	{".option", "Add an option ...", "compare"},
}

// addWhenNone leads to where the first thing is made that a field could name,
// while there is none.
func (b *Builder) addWhenNone(path string, names func() []string) {
	for _, o := range origins {
		if !strings.HasSuffix(path, o.ending) {
			continue
		}
		form := b.form
		lead := widgets.NewButton(o.button, func() {
			if form.enter != nil {
				form.enter(o.place)
			}
		})
		row := widgets.NewFlow(lead)
		row.Hidden = len(names()) > 0
		form.lists = append(form.lists, func() {
			row.Hidden = len(names()) > 0
		})
		b.addObject(row)
		return
	}
}

// Sides are the lengths of a size, each nil where the place is gone.
type Sides struct{ Width, Height, Depth *units.Length }

// Size adds a nominal size: width x height x depth, or width x height alone.
// prefix is the path of what holds width, height and depth.
func (b *Builder) Size(prefix string, label message.ID, at func(*sizing.Job) Sides, sizes []string, flat bool, hint message.ID) {
	name := lang.T(label)
	paths := []string{prefix + "width", prefix + "height"}
	if !flat {
		paths = append(paths, prefix+"depth")
	}
	b.add(name, fields.NewSize(fields.SizeOptions{
		Label: name, Tip: widgets.Explain(label), Sizes: sizes, More: b.moreSizes(sizeUse(prefix, flat)), NoDepth: flat, Hint: lang.T(hint),
		Get: func() (w, h, d units.Length) {
			s := at(b.model().Peek())
			return length(s.Width), length(s.Height), length(s.Depth)
		},
		Set: func(w, h, d units.Length) {
			b.form.typed(paths[0], name, func(j *sizing.Job) {
				s := at(j)
				setLength(s.Width, w)
				setLength(s.Height, h)
				setLength(s.Depth, d)
			})
		},
	}), nil, paths...)
}

func length(p *units.Length) units.Length {
	if p == nil {
		return 0
	}
	return *p
}

func setLength(p *units.Length, v units.Length) {
	if p != nil {
		*p = v
	}
}

// Drop adds the drop of a part. The engine notes an assumed part under the
// part's own path, so the field answers to both.
func (b *Builder) Drop(path string, label message.ID, at func(*sizing.Job) *sizing.Part) {
	Quantity(b, path+".drop", label, of(at, func(p *sizing.Part) *units.Pressure { return &p.Drop }))
	b.last().paths = append(b.last().paths, path)
}
