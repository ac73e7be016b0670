package form

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Items is a list of like things of which the form edits one at a time.
type Items struct {
	What   string // "branch"
	Names  func() []string
	At     int
	Pick   func(i int)
	Add    func()
	Copy   func()
	Remove func()
}

// Items adds the choice of one thing of a list, and what can be done to the
// list.
func (b *Builder) Items(it Items) {
	n := len(it.Names())
	if n > 0 {
		b.box.Add(container.NewBorder(nil, nil, widget.NewLabel(fmt.Sprintf("%s (%d)", title(it.What), n)), nil, b.pick(it)))
	}
	none := n == 0
	buttons := []Button{{Label: "Add " + it.What, Action: it.Add}}
	if it.Copy != nil {
		buttons = append(buttons, Button{Label: "Duplicate", Action: it.Copy, Off: none})
	}
	buttons = append(buttons, Button{Label: "Remove", Action: it.Remove, Off: none})
	b.Buttons(buttons...)
}

// pick is the list of names, kept up to date while they are typed.
func (b *Builder) pick(it Items) *widget.Select {
	pick := widget.NewSelect(labels(it.Names()), nil)
	pick.SetSelectedIndex(it.At)
	pick.OnChanged = func(string) { it.Pick(pick.SelectedIndex()) }
	b.form.lists = append(b.form.lists, func() {
		now := labels(it.Names())
		if slices.Equal(now, pick.Options) || it.At >= len(now) {
			return
		}
		pick.Options = now
		pick.Selected = now[it.At]
		pick.Refresh()
	})
	return pick
}

// labels number the names, so that no two are alike.
func labels(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		if n == "" {
			n = "(no name)"
		}
		out[i] = fmt.Sprintf("%d  %s", i+1, n)
	}
	return out
}

func title(s string) string {
	if s == "" {
		return ""
	}
	return string(s[0]-'a'+'A') + s[1:]
}
