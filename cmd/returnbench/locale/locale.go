// Package locale names a language to the toolkit where the environment names
// none. In a locale such as C.UTF-8 the toolkit otherwise logs an error as it
// starts, before main can do anything about it.
//
// It works by the order in which Go starts packages: by import path among those
// whose imports have started. This one imports os and strings alone and so
// starts before the toolkit's translations, which import packages of later name.
package locale

import (
	"os"
	"strings"
)

func init() {
	if language, ok := missing(os.Getenv); ok {
		// It fails only for a name that no system takes; then the log stays.
		_ = os.Setenv("LANGUAGE", language)
	}
}

// missing gives the language to name, if there is need to name one.
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
