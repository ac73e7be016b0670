package gui

import (
	"bytes"
	"errors"
	"io/fs"
	"path/filepath"

	"returnbench/plots/report/photo"
	"returnbench/sizing"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
)

// copyPhotos copies the photos that are kept beside the job's file to another
// folder, so that a job saved there has them too. It replaces no file.
func copyPhotos(job *sizing.Job, from, to string) error {
	var faults []error
	for _, p := range job.Photos {
		if p.Data != "" || p.File == "" || filepath.Base(p.File) != p.File || !filepath.IsLocal(p.File) {
			continue
		}
		if err := copyPhoto(filepath.Join(from, p.File), filepath.Join(to, p.File)); err != nil {
			faults = append(faults, message.Errorf("{file}: {fault}", "file", p.File, "fault", err))
		}
	}
	return errors.Join(faults...)
}

func copyPhoto(from, to string) error {
	data, err := photo.ReadFile(from)
	if err != nil {
		return err
	}
	if len(data) > photo.MostBytes {
		return message.Errorf("the file is too large for a photo of a job")
	}
	if err = atomicfile.WriteNew(to, data, 0o644); !errors.Is(err, fs.ErrExist) {
		return err
	}
	there, err := photo.ReadFile(to)
	if err == nil && !bytes.Equal(there, data) {
		err = message.Errorf("the folder has another file of this name; rename one of them")
	}
	return err
}
