package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strconv"
	"time"

	"github.com/alecthomas/kong"
	"github.com/schollz/progressbar/v3"

	"returnbench/sizing"
	"returnbench/sizing/export"
)

// rangesFlags ask for the ranges of the numbers.
type rangesFlags struct {
	Ranges sampleCount `placeholder:"[N]" help:"Add the range of each headline number, from N samples of what is uncertain; N left out: ${samples}."`
	Seed   uint64      `default:"${seed}" help:"Of the samples; the same seed gives the same ranges."`
}

// sampleCount is a number that may be left out after its flag.
type sampleCount int

// Bounds of the samples: fewer give no meaningful range, more take hours.
const (
	leastSamples = 20
	mostSamples  = 1_000_000
)

// Decode takes the next argument only where it is a number.
func (n *sampleCount) Decode(ctx *kong.DecodeContext) error {
	*n = sizing.UsualSamples
	next := ctx.Scan.Peek()
	count, err := strconv.Atoi(fmt.Sprint(next.Value))
	if err != nil && next.Type != kong.FlagValueToken {
		return nil
	}
	ctx.Scan.Pop()
	if err != nil || count < leastSamples || count > mostSamples {
		return fmt.Errorf("given %v; want a whole number from %d to %d, or nothing for %d", next.Value, leastSamples, mostSamples, sizing.UsualSamples)
	}
	*n = sampleCount(count)
	return nil
}

// usualSampling are the values that the help of the flags names.
func usualSampling() kong.Vars {
	return kong.Vars{"samples": fmt.Sprint(sizing.UsualSamples), "seed": fmt.Sprint(sizing.UsualSeed)}
}

// sample works the ranges out where they are asked for; nil where not. A
// terminal sees how far it is, and an interrupt ends it.
func (r rangesFlags) sample(s *streams, name string, job sizing.Job) (*export.Ranges, error) {
	if r.Ranges == 0 {
		return nil, nil
	}
	options, err := sampled(s, name, job, int(r.Ranges), r.Seed)
	if err != nil {
		return nil, err
	}
	return export.NewRanges(options, int(r.Ranges), r.Seed), nil
}

func sampled(s *streams, name string, job sizing.Job, samples int, seed uint64) ([]sizing.OptionRange, error) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	sampling := sizing.Sampling{Samples: samples, Seed: seed}
	if isTerminal(s.err) {
		bar := progressbar.NewOptions(samples, progressbar.OptionSetWriter(s.err), progressbar.OptionSetDescription("ranges"),
			progressbar.OptionSetItsString("samples"), progressbar.OptionShowCount(), progressbar.OptionSetPredictTime(true),
			progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish())
		defer func() { _ = bar.Clear() }()
		sampling.Done = func(finished int) { _ = bar.Set(finished) } // a bar that cannot be drawn stops nothing
	}
	ranges, err := sampling.Ranges(ctx, job)
	switch {
	case errors.Is(err, context.Canceled):
		return nil, errors.New("interrupted")
	case err != nil:
		return nil, jobError{name, err}
	}
	return ranges, nil
}
