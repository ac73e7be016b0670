package gui

import (
	"errors"
	"io/fs"
	"path/filepath"

	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// newJobsFile holds what every new job begins with, as a job's file.
const newJobsFile = "new-jobs.job.json"

// newJob is a job with the person's own requirements, prices and accuracy, and
// nothing else.
func (p *program) newJob() sizing.Job {
	kept, err := p.userFolder.newJobs()
	if err != nil {
		return sizing.Job{Schema: sizing.Schema} // the error is shown when the settings are opened
	}
	return begun(kept)
}

// begun is what a new job takes.
func begun(from sizing.Job) sizing.Job {
	from = from.Clone()
	l := from.Limits
	job := sizing.Job{
		Schema: sizing.Schema, TargetFaceVelocity: from.TargetFaceVelocity, Prices: from.Prices, Uncertainty: from.Uncertainty,
		Limits: sizing.Limits{
			MaxFilterDrop: l.MaxFilterDrop, MinMERV: l.MinMERV, DuctVelocity: l.DuctVelocity, DuctFriction: l.DuctFriction,
			FlexCompression: l.FlexCompression, NominalSizes: l.NominalSizes,
			ChangeDrop: l.ChangeDrop, ChangeAirflowLoss: l.ChangeAirflowLoss, ChangeMonths: l.ChangeMonths,
		},
	}
	job.Site.PowerPrice = from.Site.PowerPrice
	return job
}

func (o userFolder) newJobs() (sizing.Job, error) {
	if o.dir == "" {
		return sizing.Job{Schema: sizing.Schema}, nil
	}
	job, err := jobfile.Load(filepath.Join(o.dir, newJobsFile))
	if errors.Is(err, fs.ErrNotExist) {
		return sizing.Job{Schema: sizing.Schema}, nil
	}
	return job, err
}

func (o userFolder) keepNewJobs(job sizing.Job) error {
	if o.dir == "" {
		return errNoOwnFolder
	}
	return jobfile.Save(filepath.Join(o.dir, newJobsFile), begun(job))
}

var errNoOwnFolder = message.Errorf("there is no folder for settings on this machine")

// checked solves nothing: it only finds the faults of what a new job begins with.
// The engine wants an airflow of a job, which a new one has not yet.
func checked(job sizing.Job) (*sizing.Study, error) {
	job = begun(job)
	job.DesignAirflow = 1000 * units.CFM
	if faults := job.Check(); len(faults) > 0 {
		return nil, faults
	}
	return nil, nil
}
