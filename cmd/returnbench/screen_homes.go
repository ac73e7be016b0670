package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"runtime/debug"
	"text/tabwriter"
	"time"

	"github.com/schollz/progressbar/v3"

	"returnbench/plots"
	"returnbench/sizing/homes"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

type screenVerb struct {
	Homes string `arg:"" optional:"" help:"The list of homes as CSV, or - for standard input."`
	unitsFlag
	Output    string `name:"output" short:"o" default:"-" placeholder:"OUT.csv" help:"File to write the list with its results to; - for standard output."`
	Workers   int    `help:"Homes studied at once; 0: one a processor."`
	Resume    bool   `help:"Go on where an interrupted run of the same version left OUT.csv."`
	Histogram string `placeholder:"FILE.png" help:"Also draw airflow per capacity and external static of all homes."`
	Columns   bool   `help:"Print the columns that a list may have, and those that are added."`
	Example   int    `placeholder:"N" help:"Write a list of N invented homes instead."`
	Seed      uint64 `default:"1" help:"Which invented homes."`
}

func (v *screenVerb) Help() string {
	return "One row a home; a row at fault is kept, with the reason in its last column. " +
		"Exit status 1 tells that some row was at fault; all others are written."
}

func (v *screenVerb) Run(s *streams) error {
	if err := v.check(); err != nil {
		return usageError{err}
	}
	switch {
	case v.Columns:
		return printColumns(s.out, v.system())
	case v.Example > 0:
		return v.writeExample(s)
	}
	// A home leaves much garbage and nothing else: collected less often it costs
	// less, and the list still takes a few ten megabytes.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	summary, err := v.screen(s)
	if err != nil {
		return v.explain(err)
	}
	if err := summary.Write(visible{s.err}, v.system()); err != nil {
		return err
	}
	if err := v.draw(summary); err != nil {
		return err
	}
	if summary.Faulty > 0 {
		return jobError{v.name(), fmt.Errorf("%d of %d rows at fault; see the error column", summary.Faulty, summary.Homes)}
	}
	return nil
}

func (v *screenVerb) check() error {
	instead := v.Columns || v.Example != 0
	switch {
	case v.Workers < 0:
		return fmt.Errorf("--workers: given %d; want 0 or more", v.Workers)
	case v.Example < 0:
		return fmt.Errorf("--example: given %d; want 1 or more", v.Example)
	case !instead && v.Homes == "":
		return errors.New("want a list of homes; see: returnbench screen --columns")
	case v.Resume && (v.Output == "-" || instead):
		return errors.New("--resume: want -o OUT.csv, the file to go on with")
	}
	return nil
}

func (v *screenVerb) name() string { return jobArg{Job: v.Homes}.name() }

// explain distinguishes a fault of the list from one of the machine.
func (v *screenVerb) explain(err error) error {
	var list *homes.ListError
	var resume *homes.ResumeError
	switch {
	case errors.As(err, &list):
		return jobError{v.name(), err}
	case errors.As(err, &resume):
		return usageError{fmt.Errorf("%s: %w", v.Output, err)}
	case errors.Is(err, context.Canceled) && v.Output != "-":
		return fmt.Errorf("interrupted; to go on: returnbench screen %s -o %s --resume", v.Homes, v.Output)
	}
	return err
}

func (v *screenVerb) screen(s *streams) (homes.Summary, error) {
	if err := v.apart(s); err != nil {
		return homes.Summary{}, err
	}
	in, size, err := v.input(s)
	if err != nil {
		return homes.Summary{}, err
	}
	defer in.Close()
	opts := homes.Options{Workers: v.Workers, Units: v.system(), Engine: engine(), Report: reporter(visible{s.err}, v.name())}
	out, err := v.output(s, &opts)
	if err != nil {
		return homes.Summary{}, err
	}
	defer out.Close()
	finish := func() {}
	if isTerminal(s.err) {
		opts.Progress, finish = progress(s.err, size)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	summary, err := homes.Screen(ctx, in, out, opts)
	finish()
	if err != nil {
		return summary, errors.Join(err, out.keep())
	}
	return summary, out.finish()
}

// input opens the list and counts its rows where that can be done beforehand.
func (v *screenVerb) input(s *streams) (io.ReadCloser, int, error) {
	if v.Homes == "-" {
		return io.NopCloser(s.in), -1, nil
	}
	f, err := os.Open(v.Homes)
	if err != nil {
		return nil, 0, err
	}
	rows := -1
	if info, err := f.Stat(); isTerminal(s.err) && err == nil && info.Mode().IsRegular() {
		if rows, err = countRows(f); err != nil {
			f.Close()
			return nil, 0, err
		}
	}
	return f, rows, nil
}

// countRows counts lines below the heading: near enough for a bar.
func countRows(f io.ReadSeeker) (int, error) {
	lines, block := -1, make([]byte, 1<<18)
	for {
		n, err := f.Read(block)
		lines += bytes.Count(block[:n], []byte("\n"))
		if err == io.EOF {
			break
		}
		if err != nil {
			return 0, err
		}
	}
	_, err := f.Seek(0, io.SeekStart)
	return max(lines, 1), err
}

// output is where the list is written to. With --resume it reads how far an
// earlier run has come and puts that into the options.
func (v *screenVerb) output(s *streams, opts *homes.Options) (*outFile, error) {
	if v.Output == "-" {
		return &outFile{w: s.data()}, nil
	}
	o, err := newOutFile(v.Output)
	if err != nil || !v.Resume || o.direct {
		return o, err
	}
	if _, err := os.Stat(o.partial); errors.Is(err, fs.ErrNotExist) && o.old != nil {
		o.partial = o.target // an earlier run wrote it there to the end
	}
	done, err := os.Open(o.partial)
	if errors.Is(err, fs.ErrNotExist) {
		return o, nil
	}
	if err != nil {
		return nil, err
	}
	_, o.end, err = homes.Complete(done)
	if err != nil || o.end == 0 {
		return o, errors.Join(err, done.Close())
	}
	o.done = done
	opts.Done = io.NewSectionReader(done, 0, o.end)
	return o, nil
}

// apart keeps the list, its results and the picture in files of their own.
func (v *screenVerb) apart(s *streams) error {
	if v.Output != "-" {
		if err := notTheInput(s, "-o", v.Output, v.Homes); err != nil {
			return err
		}
	}
	if v.Histogram == "" {
		return nil
	}
	if v.Output != "-" && atomicfile.Same(v.Histogram, v.Output) {
		return usageError{fmt.Errorf("--histogram %s: is the file of -o; want another file", v.Histogram)}
	}
	return notTheInput(s, "--histogram", v.Histogram, v.Homes)
}

// shownFaults is how many rows at fault are named on the way.
const shownFaults = 20

func reporter(w io.Writer, name string) func(homes.Fault) {
	shown := 0
	return func(f homes.Fault) {
		switch shown++; {
		case shown <= shownFaults:
			fmt.Fprintf(w, "%s: %v\n", name, f)
		case shown == shownFaults+1:
			fmt.Fprintf(w, "%s: more faults follow; each is in the error column\n", name)
		}
	}
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// progress shows a bar with rate and time left. The first report is of the rows
// of an earlier run, which do not count for the rate.
func progress(w io.Writer, rows int) (update func(int), finish func()) {
	var bar *progressbar.ProgressBar
	earlier := 0
	update = func(done int) {
		if bar == nil {
			earlier = done
			left := -1 // not known
			if rows > 0 {
				left = max(rows-earlier, 1)
			}
			bar = progressbar.NewOptions(left, progressbar.OptionSetWriter(w), progressbar.OptionSetDescription("screening"),
				progressbar.OptionSetItsString("homes"), progressbar.OptionShowIts(), progressbar.OptionShowCount(),
				progressbar.OptionSetPredictTime(true), progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish())
		}
		if rows > 0 {
			done = min(done, rows)
		}
		_ = bar.Set(done - earlier) // a bar that cannot be drawn stops nothing
	}
	return update, func() {
		if bar != nil {
			_ = bar.Clear()
		}
	}
}

func (v *screenVerb) draw(summary homes.Summary) error {
	if v.Histogram == "" {
		return nil
	}
	var picture bytes.Buffer
	if err := plots.WriteHomes(&picture, summary, plots.Print(v.system())); err != nil {
		return err
	}
	return atomicfile.Write(v.Histogram, picture.Bytes(), 0o644)
}

func (v *screenVerb) writeExample(s *streams) error {
	if v.Output == "-" {
		return homes.Generate(v.Seed, v.Example, s.out)
	}
	o, err := newOutFile(v.Output)
	if err != nil {
		return err
	}
	defer o.Close()
	if err := homes.Generate(v.Seed, v.Example, o); err != nil {
		return errors.Join(err, o.drop())
	}
	return o.finish()
}

func printColumns(w io.Writer, l units.Locale) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, part := range []struct {
		title   message.ID
		columns []homes.Column
	}{
		{"Columns of a list, any of them, each with its unit in the cell or as name [unit]:", homes.Columns()},
		{"Columns that are added:", homes.Results()},
	} {
		fmt.Fprintln(t, message.Text(l, part.title))
		for _, c := range part.columns {
			fmt.Fprintf(t, "  %s\t%s\t%s\n", c.Name, c.Kind.In(l), message.Text(l, c.Text))
		}
	}
	return t.Flush()
}
