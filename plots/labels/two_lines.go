package labels

import (
	"strings"
)

// TwoLines breaks a text over two lines at the word that leaves them most alike;
// a single word stays whole.
func TwoLines(line string) string {
	best, least := line, len(line)
	for i, r := range line {
		if r != ' ' {
			continue
		}
		if longer := max(i, len(line)-i-1); longer < least {
			best, least = strings.TrimRight(line[:i], " ")+"\n"+strings.TrimLeft(line[i:], " "), longer
		}
	}
	return best
}
