package job

import "strings"

// TapName names a tap in a sentence. It does not say tap twice.
func TapName(name string) string {
	if strings.HasPrefix(strings.ToLower(name), "tap") {
		return name
	}
	return "tap " + name
}
