package job

import (
	"strings"

	"returnbench/sizing/message"
)

// TapName names a tap in a sentence. It does not repeat the word tap.
func TapName(name string) message.Message {
	if strings.HasPrefix(strings.ToLower(name), "tap") {
		return message.Verbatim(name)
	}
	return message.New("tap {name}", "name", name)
}
