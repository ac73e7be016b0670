package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Functions of every shape: without results, with unnamed and blank parameters,
// variadic, generic, methods with and without a name for their receiver.
const shapes = `package main

import "fmt"

type box struct{ side float64 }

func (box) name(_ string, _, more float64) float64 { return 1.5 + more }

func (b *box) grow(by ...float64) {
	for _, x := range by {
		b.side += x
	}
}

func twice[T ~float64](x T) T { return x + x }

func none[T any](float64, func() T) (y float64) { y = 2.5; return }

func main() {
	b := &box{1}
	b.grow(1, 2)
	fmt.Print(box{}.name("", 9, 1), " ", b.side, " ", twice(1.5), " ", none(0, func() int { return 1 }))
}
`

// Each fault woven in changes what the program prints when it is on, and the
// program prints what the source prints when none is.
func TestWeave(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	require.NoError(t, os.WriteFile("go.mod", []byte("module shapes\n\ngo 1.26\n"), 0o600))
	require.NoError(t, os.WriteFile("shapes.go", []byte(shapes), 0o600))
	faults, err := find("shapes.go", []byte(shapes))
	require.NoError(t, err)
	var drawn []numbered
	functions := map[string]bool{}
	for i, f := range faults {
		if f.kind == "sign" || f.kind == "factor" || f.kind == "dropped term" {
			drawn = append(drawn, numbered{f, i + 1})
			line := strings.Split(shapes, "\n")[f.line-1]
			functions[line] = true
		}
	}
	require.Len(t, functions, 5, "a fault in each function")
	woven, copies, err := weave("shapes.go", []byte(shapes), drawn)
	require.NoError(t, err)
	require.Len(t, copies, len(drawn))
	at := strings.Split(string(woven), "\n")
	for i, c := range copies {
		assert.Contains(t, strings.Join(at[c.first-1:c.last], "\n"), drawn[i].with)
	}
	require.NoError(t, os.WriteFile("shapes.go", woven, 0o600))
	require.NoError(t, os.WriteFile("planted_fault.go", []byte(switchSource("main")), 0o600))
	program := filepath.Join(dir, "shapes")
	out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput()
	require.NoError(t, err, "%s\n%s", out, woven)
	prints := func(number string) string {
		c := exec.Command(program)
		c.Env = append(os.Environ(), switchName+"="+number)
		out, err := c.Output()
		require.NoError(t, err)
		return string(out)
	}
	const right = "2.5 4 3 2.5"
	assert.Equal(t, right, prints(""))
	assert.Equal(t, right, prints("999"))
	for _, d := range drawn {
		assert.NotEqual(t, right, prints(strconv.Itoa(d.number)), d.String())
	}
}
