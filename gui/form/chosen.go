package form

import (
	"returnbench/gui/fields"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing/message"
)

// Chosen adds a choice that a program answers, not a field of the Job alone: how a
// thing is kept, and what is done to keep it otherwise.
func (b *Builder) Chosen(path string, label message.ID, read func() string, choose func(string), items ...Item[string]) {
	list := make([]fields.ChoiceItem, len(items))
	for i, it := range items {
		list[i] = fields.ChoiceItem{Value: it.Value, Label: lang.T(it.Label)}
	}
	name := lang.T(label)
	b.add(name, fields.NewChoice(fields.ChoiceOptions{Label: name, Tip: widgets.Explain(label), Items: list, Get: read, Set: choose}), nil, path)
}
