package form

import (
	"fyne.io/fyne/v2"

	"returnbench/gui/fields"
	"returnbench/gui/widgets"
)

// scrollMargin is left free above and below what is brought into sight.
const scrollMargin = 8

// notifyFocus hears of every part of the form that gets the keyboard.
func (f *Form) notifyFocus() {
	for _, o := range focusables(f.scroll.Content) {
		if w, ok := o.(widgets.FocusNotifier); ok {
			w.OnFocusGained(func() { f.focusGained(w) })
		}
	}
}

// focusGained hears that a part has got the keyboard. Typing ends where it goes to
// another field, and the step of typing where it goes to another cell.
func (f *Form) focusGained(part fyne.Focusable) {
	now := f.fieldOf(part)
	switch {
	case f.building:
	case now == f.focused:
		f.model.EndStep()
	default:
		f.model.EndTyping()
	}
	f.focused = now
	f.scrollTo(part)
}

// fieldOf is the field that a part belongs to, nil where it is none's.
func (f *Form) fieldOf(part fyne.Focusable) fields.Field {
	o, is := part.(fyne.CanvasObject)
	if !is {
		return nil
	}
	for _, b := range f.fields {
		if _, in := below(b.field.Object(), o); in {
			return b.field
		}
	}
	return nil
}

// scrollTo scrolls as little as it takes to have a part in sight, with the words
// under its field where there is room for both.
func (f *Form) scrollTo(part fyne.Focusable) {
	f.layOutAgain()
	top, bottom, ok := f.span(part)
	if !ok {
		return
	}
	at, room := f.scroll.Offset.Y, f.scroll.Size().Height
	to := at
	if bottom+scrollMargin > at+room {
		to = bottom + scrollMargin - room
	}
	if top-scrollMargin < to {
		to = max(0, top-scrollMargin)
	}
	if to != at {
		f.scroll.ScrollToOffset(fyne.NewPos(0, to))
	}
}

// span is from where to where a part goes in the column: its whole field, or the
// part alone where the field is taller than what can be seen.
func (f *Form) span(part fyne.Focusable) (top, bottom float32, ok bool) {
	o, is := part.(fyne.CanvasObject)
	if !is {
		return 0, 0, false
	}
	y, found := below(f.scroll.Content, o)
	if !found {
		return 0, 0, false
	}
	top, bottom = y, y+o.Size().Height
	if field := f.fieldOf(part); field != nil {
		row := field.Object()
		if y, _ := below(f.scroll.Content, row); row.Size().Height+2*scrollMargin <= f.scroll.Size().Height {
			top, bottom = y, y+row.Size().Height
		}
	}
	return top, bottom, true
}

// visibleFocus is the part with the keyboard, where all of it can be seen.
func (f *Form) visibleFocus() fyne.Focusable {
	if fyne.CurrentApp() == nil {
		return nil
	}
	canvas := fyne.CurrentApp().Driver().CanvasForObject(f.scroll)
	if canvas == nil || canvas.Focused() == nil {
		return nil
	}
	top, bottom, ok := f.span(canvas.Focused())
	if at := f.scroll.Offset.Y; ok && top >= at && bottom <= at+f.scroll.Size().Height {
		return canvas.Focused()
	}
	return nil
}

// below finds how far down in a tree of containers an object stands.
func below(tree, o fyne.CanvasObject) (y float32, found bool) {
	if tree == o {
		return 0, true
	}
	if c, ok := tree.(*fyne.Container); ok {
		for _, one := range c.Objects {
			if y, found = below(one, o); found {
				return y + one.Position().Y, true
			}
		}
	}
	return 0, false
}

// wheel moves the form with the wheel, wherever the pointer is; a long text
// under it goes first, as long as it has something to show.
func (f *Form) wheel(e *fyne.ScrollEvent) {
	for _, o := range focusables(f.scroll.Content) {
		long, ok := o.(*fields.Entry)
		if !ok {
			continue
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(long)
		in := e.AbsolutePosition.Subtract(at)
		size := long.Size()
		if in.X >= 0 && in.Y >= 0 && in.X < size.Width && in.Y < size.Height && long.ScrollText(e) {
			return
		}
	}
	f.scroll.Scrolled(e)
}
