// Package toolkit sets the variables of the environment that the toolkit reads
// when it starts, before main runs.
//
// It works by the order in which Go starts packages: by import path among those
// whose imports have started. This one imports os and strings alone and so
// starts before those of the toolkit that read the environment, which import
// packages of later name.
package toolkit

import (
	"os"
	"strings"
)

// kept is how long the toolkit keeps what it drew last, in place of a minute. While
// somebody types, each letter and each figure is drawn again: what a minute leaves
// behind is a third of the memory of the program.
//
// It must be over ten seconds: a window at rest is walked as often as this is
// longer than that, so that at ten it would be walked sixty times a second.
const kept = "12s"

func init() {
	// Setenv fails only for a name or a value that no system takes: then the
	// toolkit goes by its own.
	if language, ok := missing(os.Getenv); ok {
		_ = os.Setenv("LANGUAGE", language)
	}
	if os.Getenv("FYNE_CACHE") == "" {
		_ = os.Setenv("FYNE_CACHE", kept)
	}
}

// missing gives a language for a locale that names none, such as C.UTF-8, in which the
// toolkit would log an error.
func missing(env func(string) string) (string, bool) {
	if v := env("LANGUAGE"); v != "" {
		return "en", strings.HasPrefix(v, "C.")
	}
	for _, name := range [...]string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := env(name); v != "" {
			return "en", strings.HasPrefix(v, "C.")
		}
	}
	return "", false
}
