package fields

// TextOptions describe a Text field.
type TextOptions struct {
	Label string
	Tip   string // on a term that the label names; empty: it names none
	Get   func() string
	Set   func(string)
	Hint  string
	Rows  int                 // more than one: a long text
	Check func(string) string // a fault in words, or empty
}

// Text is a field for words.
type Text struct{ typedText }

// NewText makes the field.
func NewText(opts TextOptions) *Text {
	t := &Text{}
	if opts.Rows > 1 {
		t.entry = newLongEntry(opts.Rows)
	} else {
		t.entry = NewEntry()
	}
	t.wide, t.full = true, true
	t.hint = opts.Hint
	t.state, t.show = opts.Get, opts.Get
	t.take = func(text string) (string, string) {
		if opts.Check != nil {
			if fault := opts.Check(text); fault != "" {
				return "", fault
			}
		}
		opts.Set(text)
		if opts.Check != nil {
			return opts.Get(), "" // a value, which is shown otherwise than it may be typed
		}
		return text, ""
	}
	t.start(opts.Label, opts.Tip, t.entry)
	return t
}
