package jobfile

import (
	"os"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"

	"returnbench/sizing"
)

// Load reads and decodes a file.
func Load(path string) (sizing.Job, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return sizing.Job{}, err
	}
	return Decode(data)
}

// Save writes a job whole or not at all: a file that was there stays as it was
// until the new one is complete on the disk, and keeps its mode. A symbolic
// link stays a link.
func Save(path string, job sizing.Job) error {
	data, err := Encode(job)
	if err != nil {
		return err
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	return maybe.WriteFile(path, data, 0o644)
}
