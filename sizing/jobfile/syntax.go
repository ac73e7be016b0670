package jobfile

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// SyntaxError is the place where a text stops being JSON.
type SyntaxError struct {
	Line, Column int // from 1; the column counts characters
	Reason       message.Message
}

func (e *SyntaxError) Error() string { return e.In(units.IP) }

// In writes the fault for a reader.
func (e *SyntaxError) In(l units.Locale) string {
	return message.Text(l, "{line}:{column}: not a job file: {reason}", "line", e.Line, "column", e.Column, "reason", e.Reason)
}

// byteOrderMark is what some editors write at the start of a file.
var byteOrderMark = []byte("\ufeff")

// textOf checks that data is one JSON value in UTF-8 and returns it without its
// byte order mark. A name that occurs twice is reported later, by the walker.
func textOf(data []byte) ([]byte, error) {
	data = bytes.TrimPrefix(data, byteOrderMark)
	if at := firstInvalid(data); at >= 0 {
		return nil, syntaxError(data, at, message.New("the text is not UTF-8"))
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, syntaxError(data, 0, message.New("the file is empty"))
	}
	d := jsontext.NewDecoder(bytes.NewReader(data), jsontext.AllowDuplicateNames(true))
	if _, err := d.ReadValue(); err != nil {
		return nil, located(data, err)
	}
	end := int(d.InputOffset())
	if rest := bytes.TrimLeft(data[end:], " \t\r\n"); len(rest) > 0 {
		return nil, syntaxError(data, len(data)-len(rest), message.New("more text after the end of the job"))
	}
	return data, nil
}

func firstInvalid(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

func located(data []byte, err error) error {
	var s *jsontext.SyntacticError
	if !errors.As(err, &s) {
		return syntaxError(data, len(data), message.Verbatim(strings.TrimPrefix(err.Error(), "jsontext: ")))
	}
	reason := message.New("a character or word that JSON does not have here")
	if s.Err != nil {
		reason = message.Verbatim(strings.TrimPrefix(s.Err.Error(), "jsontext: "))
	}
	return syntaxError(data, int(s.ByteOffset), reason)
}

func syntaxError(data []byte, offset int, reason message.Message) *SyntaxError {
	before := data[:min(offset, len(data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return &SyntaxError{
		Line:   bytes.Count(before, []byte{'\n'}) + 1,
		Column: utf8.RuneCount(before[start:]) + 1,
		Reason: reason,
	}
}
