package compare

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// chooser ticks the options and the figures that the table shows.
type chooser struct {
	table   *comparison
	options *fyne.Container
	figures *fyne.Container
	object  *container.Scroll
	names   []string
}

func newChooser(t *comparison) *chooser {
	c := &chooser{table: t, options: container.NewGridWithColumns(3), figures: container.NewGridWithColumns(3)}
	for _, m := range sizing.Measures() {
		c.figures.Add(c.figure(lang.T(m.Title), m.Key))
	}
	c.object = container.NewVScroll(container.NewVBox(bold("Options shown"), c.options, bold("Figures shown"), c.figures))
	return c
}

func bold(text message.ID) *widget.Label {
	return widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// tick is on while a name is not in the list of what is left out.
func (c *chooser) tick(label, name string, out *[]string) *widget.Check {
	check := widget.NewCheck(label, nil)
	check.SetChecked(!slices.Contains(*out, name))
	check.OnChanged = func(on bool) {
		c.table.set(func() {
			*out = slices.DeleteFunc(*out, func(n string) bool { return n == name })
			if !on {
				*out = append(*out, name)
			}
		})
	}
	return check
}

// figure is on while a figure is shown.
func (c *chooser) figure(label, key string) *widget.Check {
	check := widget.NewCheck(label, nil)
	check.SetChecked(!slices.Contains(c.table.without(), key))
	check.OnChanged = func(on bool) {
		c.table.set(func() {
			out := slices.DeleteFunc(slices.Clone(c.table.without()), func(k string) bool { return k == key })
			if !on {
				out = append(out, key)
			}
			c.table.view.Without = out
		})
	}
	return check
}

// tickFigures shows what a preset chose.
func (c *chooser) tickFigures() {
	for i, m := range sizing.Measures() {
		c.figures.Objects[i].(*widget.Check).SetChecked(!slices.Contains(c.table.without(), m.Key))
	}
}

// refresh brings the options up to date; the boxes stay while their names do,
// and with them the keyboard.
func (c *chooser) refresh(names []string) {
	if slices.Equal(c.names, names) {
		return
	}
	c.names = slices.Clone(names)
	c.options.RemoveAll()
	for _, n := range names {
		c.options.Add(c.tick(sizing.OptionName(n).Show(lang.Locale()), n, &c.table.view.Hidden))
	}
	c.object.SetMinSize(fyne.NewSize(0, c.object.Content.MinSize().Height)) // scrolls only where it gets less
}
