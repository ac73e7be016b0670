package assets

import (
	"embed"
	"fmt"
	"path"
	"slices"
	"strings"
)

// LessonSuffix ends the name of the file of a demonstration.
const LessonSuffix = ".lesson.json"

//go:embed lessons
var lessons embed.FS

// lessonTexts are the words of the demonstrations in other languages.
//
//go:embed lessons-*
var lessonTexts embed.FS

// demonstrations are named in the order in which a course would take them.
var demonstrations = []string{
	"more-pleats", "finer-media", "deeper-cabinet", "second-return", "dust",
	"motor", "steady-motor", "leak", "altitude", "loose-flex",
}

// Lessons names the ready demonstrations for a class, the one to begin with
// first.
func Lessons() []string { return slices.Clone(demonstrations) }

// OpenLesson gives the text of a ready demonstration by its name or its file's
// name.
func OpenLesson(name string) ([]byte, error) {
	file := strings.TrimSuffix(name, LessonSuffix) + LessonSuffix
	data, err := lessons.ReadFile(path.Join("lessons", file))
	if err != nil {
		return nil, fmt.Errorf("no demonstration %q; there are %s", name, strings.Join(demonstrations, ", "))
	}
	return data, nil
}

// LessonTexts gives the words of a ready demonstration in another language, as JSON;
// nil where there are none.
func LessonTexts(name, language string) []byte {
	data, err := lessonTexts.ReadFile(path.Join("lessons-"+language, name+".json"))
	if err != nil {
		return nil
	}
	return data
}
