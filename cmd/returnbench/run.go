package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"
)

// verbs are the command line.
type verbs struct {
	Open    openVerb    `cmd:"" help:"Open the window (also with no verb at all, or a file alone)."`
	Study   studyVerb   `cmd:"" help:"Print what follows from a job."`
	Check   checkVerb   `cmd:"" help:"Check a job or a demonstration and name every fault."`
	Size    sizeVerb    `cmd:"" help:"Print the ranked sizes that meet a job's limits."`
	Charts  chartsVerb  `cmd:"" help:"Write every chart of a job."`
	Report  reportVerb  `cmd:"" help:"Write the pages of a job as PDF: for the customer, the work order, or the working."`
	Picture pictureVerb `cmd:"" help:"Write the window as it would look, without a display."`
	Screen  screenVerb  `cmd:"" help:"Study a list of homes, one row a home."`
	Library libraryVerb `cmd:"" help:"List a library of filters, blowers, cabinets, grilles, sizes, prices and templates, or import and export its items."`
	Schema  schemaVerb  `cmd:"" help:"Print the JSON Schema of the job file or, with --lesson, of a demonstration, with --library, of a library's item."`
	Version versionVerb `cmd:"" help:"Print the version."`

	Completion completionVerb `cmd:"" help:"Print what lets a shell complete verbs, options and files."`
	Man        manVerb        `cmd:"" help:"Print the manual page, as troff."`

	Help helpVerb `cmd:"" help:"Print this help, or the help of a verb."`
}

const description = `A workbench for the return side of a home's forced-air system.

JOB is a *.job.json file, or - for standard input. Exit status: 0 done; 1 the job is at fault; 2 wrong usage; 3 the disk or the machine is at fault.`

// streams is what a verb reads from and writes to.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// isFile distinguishes a job's file from a verb: a desktop opens a file by its path alone.
func isFile(arg string) bool { return strings.HasSuffix(strings.ToLower(arg), ".json") }

// run executes the arguments and returns the exit status.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s := &streams{stdin, stdout, stderr}
	var v verbs
	asked := false // kong printed the help it was asked for
	parser, err := kong.New(&v,
		kong.Name("returnbench"),
		kong.Description(description),
		kong.Writers(stdout, stderr),
		kong.Exit(func(int) { asked = true }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		usualSampling(),
	)
	if err != nil {
		return s.status(err)
	}
	if len(args) == 0 || isFile(args[0]) {
		args = append([]string{"open"}, args...)
	}
	ctx, err := parser.Parse(args)
	if asked {
		return done
	}
	if err != nil {
		return s.status(usageError{fmt.Errorf("%w; see: returnbench help", err)})
	}
	return s.status(ctx.Run(s, parser))
}
