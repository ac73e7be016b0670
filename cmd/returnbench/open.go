package main

// openVerb opens a window for each JOB. One that does not exist yet is opened as
// a new, empty job that will be saved there.
type openVerb struct {
	Jobs []string `arg:"" name:"job" optional:"" help:"The job files to open, each in a window of its own; a new one begins as an empty job."`
}

func (v *openVerb) Run(s *streams) error { return openWindow(s, v.Jobs) }
