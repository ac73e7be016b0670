package form

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/assets"
	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/library"
	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// FilterChoice adds the choice of a filter of the job; open is what leaving it open is
// called.
func FilterChoice(b *Builder, path string, label message.ID, at func(*sizing.Job) *string, open message.ID) {
	b.named(path, label, at, open, func() []fields.ChoiceItem {
		var items []fields.ChoiceItem
		for _, f := range b.model().Peek().Filters {
			if f.Name != "" {
				items = append(items, fields.ChoiceItem{Value: f.Name, Label: FilterLabel(&f)})
			}
		}
		return items
	})
}

// FilterLabel names a filter in a list, its MERV first: the end of a long name may have
// no room.
func FilterLabel(f *filter.Filter) string {
	if f.MERV == 0 {
		return f.Name
	}
	return lang.T("MERV {merv}: {filter}", "merv", f.MERV, "filter", f.Name)
}

// GenericLabel is FilterLabel of a generic filter, whose name ends in its MERV.
func GenericLabel(f filter.Filter) string {
	f.Name = strings.TrimSuffix(f.Name, fmt.Sprintf(", MERV %d", f.MERV))
	return FilterLabel(&f)
}

// alike is the largest difference between depths that have the same name.
const alike = 6 * units.Millimetre

// FilterPlace adds the choice of the filter of a place, and what adds one that the job
// does not have yet: it takes the size of the place, and goes into it.
func FilterPlace(b *Builder, path string, label message.ID, at func(*sizing.Job) *string, size func(*sizing.Job) Sides, open message.ID) {
	FilterChoice(b, path, label, at, open)
	lib, err := assets.Filters()
	if err != nil {
		b.Note("The generic filters cannot be read: {why}", "why", err)
	}
	own := lang.T("Another filter")
	fitting := func() (list []filter.Filter, labels []string) {
		depth := length(size(b.model().Peek()).Depth)
		for _, f := range lib.Filters {
			if d := f.Depth - depth; depth == 0 || max(d, -d) < alike {
				list, labels = append(list, f), append(labels, GenericLabel(f))
			}
		}
		return list, append(labels, own)
	}
	_, labels := fitting()
	pick := widgets.NewSelect(labels, nil)
	pick.PlaceHolder = lang.T("Add a filter ...")
	pick.OnChanged = func(choice string) {
		if choice == "" {
			return
		}
		list, labels := fitting()
		f := filter.Filter{Name: lang.T("filter")}
		if i := slices.Index(labels, choice); i >= 0 && i < len(list) {
			f = list[i]
		}
		pick.ClearSelected()
		b.form.addFilter(path, f, at, size(b.model().Peek()))
	}
	b.Object(pick)
	said := widget.NewLabel("")
	said.Wrapping, said.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	lead := widgets.NewFlow(widgets.NewButton("Describe it under Filters", func() {
		if b.form.enter != nil {
			b.form.enter("filters")
		}
	}))
	refresh := func() {
		text := ""
		if added := b.form.added; added.path == path && added.name == get(b, at) {
			text = added.words
		}
		if said.Text != text {
			said.SetText(text)
		}
		said.Hidden, lead.Hidden = text == "", text == ""
		if _, now := fitting(); !slices.Equal(now, pick.Options) {
			pick.SetOptions(now)
		}
	}
	refresh()
	b.Object(said)
	b.Object(lead)
	b.form.lists = append(b.form.lists, refresh)
}

// addedFilter is the filter that a place was last given.
type addedFilter struct{ path, name, words string }

// addFilter puts a filter that the job does not have yet into a place, as one step.
func (f *Form) addFilter(path string, one filter.Filter, at func(*sizing.Job) *string, size Sides) {
	one = one.WithFace(length(size.Width), length(size.Height))
	if depth := length(size.Depth); one.Depth == 0 {
		one.Depth = depth
	}
	f.model.Apply(lang.T("Add {filter}", "filter", one.Name), func(j *sizing.Job) {
		if name := at(j); name != nil {
			one.Name = library.AddFilter(j, one)
			*name = one.Name
		}
	})
	f.added = addedFilter{path, one.Name, message.Text(f.model.Units(), "{filter}, {size}, is added and is in this place. Its MERV, its drop and its price are under Filters.",
		"filter", one.Name, "size", stock.Size{Width: one.Width, Height: one.Height, Depth: one.Depth, System: f.model.Units().System}.String())}
	f.Refresh()
}
