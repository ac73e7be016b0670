package homes

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"io"
	"runtime"
	"sync"

	"returnbench/sizing/units"
)

// Options of a screening.
type Options struct {
	// Workers is how many homes are studied at once; 0: as many as the machine
	// has processors for.
	Workers int
	Units   units.Locale
	// Engine names the program and its version; each row is marked with it, and
	// a run goes on only with rows of its own engine.
	Engine string
	// Done is what an earlier run wrote, cut after its last complete row (see
	// Complete). Its rows are not solved again; they are compared with the list
	// and counted, and the new rows are written after them.
	Done io.Reader
	// Progress, if set, is called with the number of rows done: at first those of Done,
	// then whenever some more are written.
	Progress func(rows int)
	// Report, if set, is called with each fault, in the order of the list.
	Report func(Fault)
}

// ListError is a fault of the list as a whole, for which nothing more could be
// read of it.
type ListError struct{ Err error }

func (e *ListError) Error() string { return e.Err.Error() }
func (e *ListError) Unwrap() error { return e.Err }

// batchRows is how many rows a worker takes at a time.
const batchRows = 16

// batch is a group of rows that one worker solves.
type batch struct {
	rows   []row
	out    [][]string // of the added columns
	faults [][]Fault
	err    error // why the list ends here, io.EOF at its end
	solved chan struct{}
}

// Screen studies every home of a list and writes the list with the results
// beside it, in the order of the list, whatever the number of workers. Memory
// does not grow with the list. A row at fault is kept, with its error. When ctx
// ends or an error occurs the rows written so far are complete, and a later run
// continues from them through Done. A list that cannot be read gives a
// *ListError.
func Screen(ctx context.Context, r io.Reader, w io.Writer, opts Options) (Summary, error) {
	l, err := openList(r)
	if err != nil {
		return Summary{}, listFault(err)
	}
	s := &screening{list: l, opts: opts, tally: newTally(len(l.heading.cells), opts.Units), buffer: bufio.NewWriterSize(w, 1<<16)}
	s.csv = csv.NewWriter(s.buffer)
	if err := s.begin(); err != nil {
		return s.tally.summary(), err
	}
	err = s.run(ctx)
	if flushed := s.flush(); err == nil {
		err = flushed
	}
	return s.tally.summary(), err
}

func listFault(err error) error {
	var heading HeadingError
	if errors.As(err, &heading) {
		return &ListError{err}
	}
	return err
}

// screening is one run over a list.
type screening struct {
	list   *list
	opts   Options
	tally  *tally
	buffer *bufio.Writer
	csv    *csv.Writer
}

// begin writes the heading, or checks and copies what an earlier run wrote.
func (s *screening) begin() error {
	heading := s.list.outHeading(resultHeading(s.opts.Units))
	if s.opts.Done == nil {
		if err := s.csv.Write(heading); err != nil {
			return err
		}
		if err := s.flush(); err != nil {
			return err
		}
	} else if err := s.checkDone(heading); err != nil {
		return err
	}
	s.progress()
	return nil
}

func (s *screening) progress() {
	if s.opts.Progress != nil {
		s.opts.Progress(s.tally.s.Homes)
	}
}

func (s *screening) flush() error {
	s.csv.Flush()
	if err := s.csv.Error(); err != nil {
		return err
	}
	return s.buffer.Flush()
}

// run has three stages: one goroutine reads, some solve, and this one writes in
// order. The order channel bounds how far reading runs ahead of writing.
func (s *screening) run(ctx context.Context) error {
	workers := s.opts.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	ctx, cancel := context.WithCancel(ctx)
	work, order := make(chan *batch), make(chan *batch, 2*workers)
	var solving sync.WaitGroup
	defer solving.Wait()
	defer cancel()
	go s.readAll(ctx, work, order)
	for range workers {
		solving.Go(func() { s.solveAll(ctx, work) })
	}
	for {
		var b *batch
		select {
		case b = <-order:
		case <-ctx.Done():
			return ctx.Err()
		}
		select {
		case <-b.solved:
		case <-ctx.Done():
			return ctx.Err()
		}
		if err := s.write(b); err != nil {
			return err
		}
		if b.err == io.EOF {
			return nil
		}
		if b.err != nil {
			return listFault(b.err)
		}
	}
}

// readAll cuts the list into batches. It sends each to be solved and, in
// order, to be written.
func (s *screening) readAll(ctx context.Context, work, order chan<- *batch) {
	defer close(work)
	for {
		b := s.readBatch()
		for _, to := range []chan<- *batch{order, work} {
			select {
			case to <- b:
			case <-ctx.Done():
				return
			}
		}
		if b.err != nil {
			return
		}
	}
}

func (s *screening) readBatch() *batch {
	b := &batch{solved: make(chan struct{})}
	for len(b.rows) < batchRows {
		r, err := s.list.next()
		if err != nil {
			b.err = err
			break
		}
		b.rows = append(b.rows, r)
	}
	return b
}

// solveAll ends with the list or with ctx: reading may hang on a pipe long after.
func (s *screening) solveAll(ctx context.Context, work <-chan *batch) {
	for {
		select {
		case b, more := <-work:
			if !more {
				return
			}
			s.solve(ctx, b)
		case <-ctx.Done():
			return
		}
	}
}

// solve stops between homes when the run is cancelled; the batch is then never
// written.
func (s *screening) solve(ctx context.Context, b *batch) {
	for _, r := range b.rows {
		if ctx.Err() != nil {
			return
		}
		out, faults := s.list.heading.screen(r, s.opts)
		b.out = append(b.out, out)
		b.faults = append(b.faults, faults)
	}
	close(b.solved)
}

func (s *screening) write(b *batch) error {
	for i, r := range b.rows {
		record := append(s.list.own(r.cells), b.out[i]...)
		if err := s.csv.Write(record); err != nil {
			return err
		}
		s.tally.count(record)
		if s.opts.Report != nil {
			for _, f := range b.faults[i] {
				s.opts.Report(f)
			}
		}
	}
	if err := s.flush(); err != nil {
		return err
	}
	s.progress()
	return nil
}
