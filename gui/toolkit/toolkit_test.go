package toolkit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestMissing(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		need bool
	}{
		{map[string]string{"LANG": "C.UTF-8"}, true},
		{map[string]string{"LC_ALL": "C.utf8", "LANG": "de_DE.UTF-8"}, true},
		{map[string]string{"LC_ALL": "de_DE.UTF-8", "LANG": "C.UTF-8"}, false},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "fr"}, false},
		{map[string]string{"LC_ALL": "C.UTF-8", "LANGUAGE": "C.UTF-8"}, true},
		{map[string]string{"LANG": "C"}, false},
		{map[string]string{}, false},
	} {
		_, need := missing(func(name string) string { return c.env[name] })
		require.Equal(t, c.need, need, "%v", c.env)
	}
}
