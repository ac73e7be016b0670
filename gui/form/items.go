package form

import (
	"fmt"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Items is a list of like things of which the form edits one at a time.
type Items struct {
	What   string // "branch"
	Names  []string
	At     int
	Pick   func(i int)
	Add    func()
	Copy   func()
	Remove func()
}

// Items adds the choice of one thing of a list, and what can be done to the
// list.
func (b *Builder) Items(it Items) {
	labels := make([]string, len(it.Names))
	for i, n := range it.Names {
		if n == "" {
			n = "(no name)"
		}
		labels[i] = fmt.Sprintf("%d  %s", i+1, n)
	}
	if len(labels) > 0 {
		pick := widget.NewSelect(labels, nil)
		if it.At >= 0 && it.At < len(labels) {
			pick.SetSelectedIndex(it.At)
		}
		pick.OnChanged = func(string) { it.Pick(pick.SelectedIndex()) }
		b.box.Add(container.NewBorder(nil, nil, widget.NewLabel(fmt.Sprintf("%s (%d)", title(it.What), len(labels))), nil, pick))
	}
	none := len(labels) == 0
	buttons := []Button{{Label: "Add " + it.What, Action: it.Add}}
	if it.Copy != nil {
		buttons = append(buttons, Button{Label: "Duplicate", Action: it.Copy, Off: none})
	}
	buttons = append(buttons, Button{Label: "Remove", Action: it.Remove, Off: none})
	b.Buttons(buttons...)
}

func title(s string) string {
	if s == "" {
		return ""
	}
	return string(s[0]-'a'+'A') + s[1:]
}
