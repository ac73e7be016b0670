package main

import (
	"bytes"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const sample = `package sample

func total(parts []float64, heating bool) float64 {
	sum := 0.5
	for i := range parts {
		sum += parts[i]
	}
	if heating && sum > 1 {
		return -sum * float64(parts[0])
	}
	return sum + parts[1] - coolingShare(sum)
}

func coolingShare(x float64) float64 { return x }
func heatingShare(x float64) float64 { return x / 2 }
`

func TestFind(t *testing.T) {
	faults, err := find("sample.go", []byte(sample))
	require.NoError(t, err)
	kinds := map[string]int{}
	for _, f := range faults {
		kinds[f.kind]++
		changed := f.apply([]byte(sample))
		assert.NotEqual(t, sample, string(changed), f.String())
		_, err := parser.ParseFile(token.NewFileSet(), "", changed, 0)
		assert.NoError(t, err, "%s makes %s", f, changed)
	}
	for _, kind := range []string{"sign", "factor", "comparison", "condition", "index", "neighbor", "dropped term", "dropped assignment"} {
		assert.Positive(t, kinds[kind], kind)
	}
	var confused bool
	for _, f := range faults {
		confused = confused || f.with == "heatingShare"
	}
	assert.True(t, confused, "heating is taken for cooling")
}

func TestDraw(t *testing.T) {
	drawn := func(seed uint64) []fault {
		faults, err := find("sample.go", []byte(sample))
		require.NoError(t, err)
		draw(faults, seed)
		return faults
	}
	one := drawn(1)
	assert.Equal(t, one, drawn(1), "a seed draws the same faults")
	assert.NotEqual(t, one, drawn(2))
	kinds := map[string]bool{}
	for _, f := range one[:6] {
		kinds[f.kind] = true
	}
	assert.Len(t, kinds, 6, "the first are each of another kind")
}

// A module whose one test holds the sum but not the share: a fault in the sum is
// caught, one in the share survives, one that does not build is passed over.
func TestHunt(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	write("go.mod", "module sample\n\ngo 1.26\n")
	write("sample.go", "package sample\n\nfunc sum(a, b float64) float64 { return a + b }\n\nfunc share(a, b float64) float64 { return a / b }\n")
	write("sample_test.go", "package sample\n\nimport \"testing\"\n\nfunc TestSum(t *testing.T) {\n\tif sum(1, 2) != 3 {\n\t\tt.Fatal()\n\t}\n}\n")
	t.Chdir(dir)
	source, err := os.ReadFile("sample.go")
	require.NoError(t, err)
	faults, err := collect([]string{"*.go"})
	require.NoError(t, err)
	faults = slices.DeleteFunc(faults, func(f fault) bool { return f.kind == "dropped term" })
	broken := faults[0]
	broken.with = "a ++ b"
	var out bytes.Buffer
	h := hunt{packages: []string{"."}, timeout: time.Minute, out: &out}
	caught, planted, err := h.all(append([]fault{broken}, faults...), 10)
	require.NoError(t, err)
	assert.Equal(t, []int{1, 2}, []int{caught, planted}, out.String())
	assert.Contains(t, out.String(), "(TestSum)")
	assert.Contains(t, out.String(), "SURVIVED  sample.go:5")
	after, err := os.ReadFile("sample.go")
	require.NoError(t, err)
	assert.Equal(t, source, after, "no file is changed")
}
