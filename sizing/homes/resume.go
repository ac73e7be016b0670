package homes

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
)

// ResumeError: the output of an earlier run does not belong to this
// list or to these options.
type ResumeError struct{ Reason string }

func (e *ResumeError) Error() string {
	return e.Reason + "; screen the list anew, without going on from that file"
}

// Complete counts the rows of a screened list that are whole, the heading not
// counted, and the bytes that they and the heading take. What follows is a row
// that was cut off in the middle. Both are zero where even the heading is not
// whole.
func Complete(r io.Reader) (rows int, bytes int64, err error) {
	end := &ending{r: r}
	c := csv.NewReader(end)
	c.FieldsPerRecord = -1
	c.ReuseRecord = true
	records := 0
	for {
		_, err := c.Read()
		if end.err != nil {
			return 0, 0, end.err
		}
		// A row that the end of the file cut is either no row at all or lacks
		// its end of line.
		if err != nil || c.InputOffset() == end.read && end.last != '\n' {
			return max(records-1, 0), bytes, nil
		}
		records++
		bytes = c.InputOffset()
	}
}

// ending remembers the last byte that was read.
type ending struct {
	r    io.Reader
	read int64
	last byte
	err  error // other than io.EOF
}

func (e *ending) Read(p []byte) (int, error) {
	n, err := e.r.Read(p)
	if n > 0 {
		e.read += int64(n)
		e.last = p[n-1]
	}
	if err != io.EOF {
		e.err = err
	}
	return n, err
}

// checkDone compares the rows of an earlier run with the list, and counts them.
func (s *screening) checkDone(heading []string) error {
	c := csv.NewReader(s.opts.Done)
	c.FieldsPerRecord = -1
	got, err := c.Read()
	if err == io.EOF {
		return &ResumeError{"the earlier output is empty"}
	}
	if err != nil {
		return err
	}
	if !slices.Equal(got, heading) {
		return &ResumeError{"the earlier output has another heading: it is of another list, in other units or of another version"}
	}
	for {
		record, err := c.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		r, err := s.list.next()
		if err == io.EOF {
			return &ResumeError{"the earlier output has more rows than the list"}
		}
		if err != nil {
			return listFault(err)
		}
		own := s.list.own(r.cells)
		if len(record) != len(heading) || !slices.Equal(record[:len(own)], own) {
			at, _ := c.FieldPos(0)
			return &ResumeError{fmt.Sprintf("line %d of the earlier output is not of line %d of the list", at, r.line)}
		}
		if by := record[len(own)+engineAt]; by != s.opts.Engine {
			return &ResumeError{fmt.Sprintf("the earlier output is by the engine %q and this is %q: the rows of two engines do not belong in one list", by, s.opts.Engine)}
		}
		s.tally.count(record)
	}
}
