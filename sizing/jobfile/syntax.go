package jobfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// SyntaxError is the place where a text stops being JSON.
type SyntaxError struct {
	Line, Column int // from 1; the column counts characters
	Reason       string
}

func (e *SyntaxError) Error() string {
	return fmt.Sprintf("%d:%d: not a job file: %s", e.Line, e.Column, e.Reason)
}

// byteOrderMark stands at the start of what some editors save.
var byteOrderMark = []byte("\ufeff")

// textOf checks that data is one JSON value in UTF-8 and gives it without its
// byte order mark. A name given twice is left for the walk to report.
func textOf(data []byte) ([]byte, error) {
	data = bytes.TrimPrefix(data, byteOrderMark)
	if at := firstInvalid(data); at >= 0 {
		return nil, syntaxError(data, at, "the text is not UTF-8")
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return nil, syntaxError(data, 0, "the file is empty")
	}
	d := jsontext.NewDecoder(bytes.NewReader(data), jsontext.AllowDuplicateNames(true))
	if _, err := d.ReadValue(); err != nil {
		return nil, located(data, err)
	}
	end := int(d.InputOffset())
	if rest := bytes.TrimLeft(data[end:], " \t\r\n"); len(rest) > 0 {
		return nil, syntaxError(data, len(data)-len(rest), "more text after the end of the job")
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
		return syntaxError(data, len(data), strings.TrimPrefix(err.Error(), "jsontext: "))
	}
	reason := "a character or word that JSON does not have here"
	if s.Err != nil {
		reason = strings.TrimPrefix(s.Err.Error(), "jsontext: ")
	}
	return syntaxError(data, int(s.ByteOffset), reason)
}

func syntaxError(data []byte, offset int, reason string) *SyntaxError {
	before := data[:min(offset, len(data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return &SyntaxError{
		Line:   bytes.Count(before, []byte{'\n'}) + 1,
		Column: utf8.RuneCount(before[start:]) + 1,
		Reason: reason,
	}
}
