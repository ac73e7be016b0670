package main

import (
	"fmt"

	"github.com/alecthomas/kong"
)

type helpVerb struct {
	Verb string `arg:"" optional:"" help:"The verb to explain."`
}

func (v *helpVerb) Run(parser *kong.Kong) error {
	args := []string{"--help"}
	if v.Verb != "" {
		args = []string{v.Verb, "--help"}
	}
	ctx, err := kong.Trace(parser, args)
	if err != nil {
		return err
	}
	if ctx.Error != nil {
		return usageError{fmt.Errorf("%w; see: returnbench help", ctx.Error)}
	}
	return ctx.PrintUsage(false)
}
