package export

import (
	"fmt"
	"io"
	"strings"
)

// printer writes lines until the first fault of the writer and keeps that fault.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func (p *printer) title(text string) {
	p.line("")
	p.line("%s", text)
}

func (p *printer) table(write func(io.Writer) error) {
	if p.err == nil {
		p.err = write(p.w)
	}
}

// lineWidth is the most characters in a line of a paragraph.
const lineWidth = 96

// wrapped writes a paragraph set in from the left, its further lines more so.
func (p *printer) wrapped(format string, args ...any) {
	const first, rest = "  ", "    "
	line := first
	for i, word := range strings.Fields(fmt.Sprintf(format, args...)) {
		if i > 0 && len([]rune(line))+1+len([]rune(word)) > lineWidth {
			p.line("%s", line)
			line = rest + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	p.line("%s", line)
}
