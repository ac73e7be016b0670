package form

import (
	"strings"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/library"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
)

// Library is where a person's own filters, blowers, cabinets, grilles and prices
// are kept, whatever job is open.
type Library interface {
	// Pick lets the person choose an item of a kind.
	Pick(kind library.Kind, take func(library.Item))
	// Save lets the person name an item and keep it.
	Save(library.Item)
	// Sizes are the nominal sizes kept of a use.
	Sizes(library.SizeUse) []stock.Size
	// WithSizes calls then with all sizes that the library names, of cabinets and grilles
	// too, once there is a library.
	WithSizes(then func([]library.Size))
}

// SetLibrary sets the library that the form's buttons open.
func (f *Form) SetLibrary(l Library) { f.library = l }

// TakeButton takes an item from the library into the job, as one step.
func (b *Builder) TakeButton(label message.ID, kind library.Kind, take func(j *sizing.Job, item library.Item)) Button {
	return Button{Label: label, Action: func() {
		if b.form.library == nil {
			return
		}
		b.form.library.Pick(kind, func(item library.Item) {
			b.model().Apply(lang.T("Take {name} from the library", "name", item.Name()), func(j *sizing.Job) { take(j, item) })
		})
	}}
}

// SaveButton saves a part of the job to the library; a part that is not there has
// nothing to keep.
func (b *Builder) SaveButton(label message.ID, item func(*sizing.Job) (library.Item, bool)) Button {
	return Button{Label: label, Action: func() {
		if b.form.library == nil {
			return
		}
		if i, ok := item(b.Job()); ok {
			b.form.library.Save(i)
		}
	}}
}

// TakeFilter puts a filter of the library among those of the job, and its name
// into a field.
func (b *Builder) TakeFilter(at func(*sizing.Job) *string) Button {
	return b.TakeButton("Filter from library", library.Filters, func(j *sizing.Job, i library.Item) {
		name := library.AddFilter(j, *i.Filter)
		if p := at(j); p != nil {
			*p = name
		}
	})
}

// slotLibraryButtons adds the library's buttons of a filter place.
func slotLibraryButtons(b *Builder, at SlotAt) {
	b.Buttons(
		b.TakeButton("Cabinet from library", library.Cabinets, func(j *sizing.Job, i library.Item) {
			if s := at(j); s != nil {
				i.Cabinet.Into(j, s)
			}
		}),
		b.TakeFilter(of(at, func(s *sizing.Slot) *string { return &s.Filter })),
		b.SaveButton("Save to library", func(j *sizing.Job) (i library.Item, ok bool) {
			if s := at(j); s != nil {
				return library.CabinetOf(j, *s), true
			}
			return i, false
		}))
}

// grilleLibraryButtons adds those of a return's grille.
func grilleLibraryButtons(b *Builder, at ReturnAt) {
	b.Buttons(
		b.TakeButton("Grille from library", library.Grilles, func(j *sizing.Job, i library.Item) {
			if r := at(j); r != nil {
				i.Grille.Into(j, r)
			}
		}),
		b.TakeFilter(of(at, func(r *sizing.Return) *string { return &r.Filter })),
		b.SaveButton("Save to library", func(j *sizing.Job) (i library.Item, ok bool) {
			if r := at(j); r != nil {
				return library.GrilleOf(j, *r), true
			}
			return i, false
		}))
}

// FilterLibraryButtons adds those of a list of filters.
func FilterLibraryButtons(b *Builder, list *List[filter.Filter]) {
	b.Buttons(
		b.TakeButton("Filter from library", library.Filters, func(j *sizing.Job, i library.Item) {
			name := library.AddFilter(j, *i.Filter)
			for at, f := range j.Filters {
				if f.Name == name {
					list.Edit(at)
				}
			}
		}),
		b.SaveButton("Save to library", func(j *sizing.Job) (i library.Item, ok bool) {
			if f := list.Now(j); f != nil {
				return library.FilterOf(*f), true
			}
			return i, false
		}))
}

// BlowerLibraryButtons adds those of the equipment with its blower.
func BlowerLibraryButtons(b *Builder) {
	b.Buttons(
		b.TakeButton("Equipment from library", library.Blowers, func(j *sizing.Job, i library.Item) { i.Blower.Into(j) }),
		b.SaveButton("Save to library", func(j *sizing.Job) (library.Item, bool) { return library.BlowerOf(j), true }))
}

// PriceLibraryButtons adds those of the prices of work.
func PriceLibraryButtons(b *Builder) {
	b.Buttons(
		b.TakeButton("Prices from library", library.Prices, func(j *sizing.Job, i library.Item) { i.Prices.Into(j) }),
		b.SaveButton("Save to library", func(j *sizing.Job) (library.Item, bool) { return library.PricesOf(j), true }))
}

// LineLibraryButtons adds the one that puts the lines of a price list into the offer, without those that
// it has.
func LineLibraryButtons(b *Builder) {
	b.Buttons(b.TakeButton("Lines from library", library.Prices, func(j *sizing.Job, i library.Item) { i.Prices.AddLines(j) }))
}

// sizeUse is what the size at a path is of: a filter, a grille or a duct.
func sizeUse(prefix string, flat bool) library.SizeUse {
	switch {
	case !flat:
		return library.FilterSize
	case strings.HasSuffix(prefix, "grille."):
		return library.GrilleSize
	}
	return library.DuctSize
}

// moreSizes are the nominal sizes of the library of one use.
func (b *Builder) moreSizes(use library.SizeUse) func() []string {
	return func() []string {
		if b.form.library == nil {
			return nil
		}
		var out []string
		for _, s := range b.form.library.Sizes(use) {
			out = append(out, s.String())
		}
		return out
	}
}
