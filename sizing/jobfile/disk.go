package jobfile

import (
	"io"
	"io/fs"
	"os"

	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// LargestFile is the size limit of a job or a demonstration, in bytes. A file
// at all bounds of the schema is smaller.
const LargestFile = 4 << 20

// SizeError: the file is too large for any job.
type SizeError struct{}

func (e SizeError) Error() string { return e.In(units.IP) }

// In writes the fault for a reader.
func (SizeError) In(l units.Locale) string {
	return message.Text(l, "more than {number} MB; a job file takes less", "number", LargestFile>>20)
}

// ReadAll reads the bytes of a job. An input larger than LargestFile, or
// without an end, gives a SizeError.
func ReadAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, LargestFile+1))
	if err == nil && len(data) > LargestFile {
		err = SizeError{}
	}
	return data, err
}

// ReadFile is ReadAll of a file.
func ReadFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := ReadAll(f)
	if err != nil {
		return nil, &fs.PathError{Op: "read", Path: path, Err: err}
	}
	return data, nil
}

// Load reads and decodes a file.
func Load(path string) (sizing.Job, error) {
	data, err := ReadFile(path)
	if err != nil {
		return sizing.Job{}, err
	}
	return Decode(data)
}

// Save writes a job whole or not at all, as atomicfile.WriteKeeping does: the
// version before is kept beside it. A file of an older schema is kept for good
// under its name and ".schema" with the number.
func Save(path string, job sizing.Job) error {
	data, err := Encode(job)
	if err != nil {
		return err
	}
	return jobFormat.save(path, data)
}

// LoadLesson reads and decodes the file of a demonstration.
func LoadLesson(path string) (lesson.Lesson, error) {
	data, err := ReadFile(path)
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
	return lessonFormat.save(path, data)
}
