package export

import (
	"io"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// printer writes lines for a reader until the first fault of the writer and keeps that
// fault.
type printer struct {
	w   io.Writer
	l   units.Locale
	err error
}

func (p *printer) line(text string) {
	if p.err == nil {
		_, p.err = io.WriteString(p.w, text+"\n")
	}
}

// say writes a message on a line.
func (p *printer) say(id message.ID, args ...any) { p.line(message.Text(p.l, id, args...)) }

// note is say, set in from the left.
func (p *printer) note(id message.ID, args ...any) { p.line("  " + message.Text(p.l, id, args...)) }

func (p *printer) title(id message.ID, args ...any) {
	p.line("")
	p.say(id, args...)
}

func (p *printer) table(write func(io.Writer) error) {
	if p.err == nil {
		p.err = write(p.w)
	}
}

// lineWidth is the most characters in a line of a paragraph.
const lineWidth = 96

// wrapped writes a paragraph set in from the left, its further lines more so.
func (p *printer) wrapped(id message.ID, args ...any) {
	p.paragraph(message.Text(p.l, id, args...))
}

func (p *printer) paragraph(text string) {
	const first, rest = "  ", "    "
	line := first
	for i, word := range strings.Fields(text) {
		if i > 0 && len([]rune(line))+1+len([]rune(word)) > lineWidth {
			p.line(line)
			line = rest + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	p.line(line)
}
