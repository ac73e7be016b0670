package main

// openVerb opens the window. A JOB that does not exist yet is opened as a new,
// empty job that will be saved there.
type openVerb struct {
	Job string `arg:"" optional:"" help:"The job file to open; a new one begins as an empty job."`
}

func (v *openVerb) Run(s *stage) error { return openWindow(s, v.Job) }
