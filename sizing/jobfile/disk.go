package jobfile

import (
	"os"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"

	"returnbench/sizing"
	"returnbench/sizing/lesson"
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
	return save(path, data)
}

// LoadLesson reads and decodes the file of a demonstration.
func LoadLesson(path string) (lesson.Lesson, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return lesson.Lesson{}, err
	}
	return ReadLesson(data)
}

// SaveLesson writes a demonstration as Save writes a job.
func SaveLesson(path string, l lesson.Lesson) error {
	data, err := EncodeLesson(l)
	if err != nil {
		return err
	}
	return save(path, data)
}

func save(path string, data []byte) error {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	return maybe.WriteFile(path, data, 0o644)
}
