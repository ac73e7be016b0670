package plots

import (
	"bytes"
	"errors"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/units"
)

func TestWriteAll(t *testing.T) {
	s := testStudy(2)
	for _, format := range Formats() {
		dir := filepath.Join(t.TempDir(), "new", "folder")
		paths, err := WriteAll(dir, Of(s), format, units.IP)
		require.NoError(t, err)
		require.Len(t, paths, len(Kinds()))
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Len(t, entries, len(paths), "nothing but the charts is left behind")
		for i, k := range Kinds() {
			assert.Equal(t, filepath.Join(dir, k.Key+"."+format), paths[i])
			data, err := os.ReadFile(paths[i])
			require.NoError(t, err)
			checkFile(t, format, string(k.Title), paths[i], data)
		}
	}
}

func checkFile(t *testing.T, format, title, path string, data []byte) {
	switch format {
	case "png":
		picture, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		assert.Equal(t, 1800, picture.Bounds().Dx())
		assert.Equal(t, 1000, picture.Bounds().Dy())
	case "svg":
		assert.Contains(t, string(data), "<svg")
		assert.Contains(t, strings.ReplaceAll(string(data), "&#39;", "'"), title)
	case "pdf":
		assert.True(t, bytes.HasPrefix(data, []byte("%PDF-")))
		// Other readers of the format; cmd/test.sh installs them.
		out, err := exec.Command("qpdf", "--check", path).CombinedOutput()
		assert.NoError(t, err, "%s", out)
		out, err = exec.Command("pdffonts", path).CombinedOutput()
		assert.NoError(t, err, "%s", out)
		assert.Contains(t, string(out), "Liberation")
	}
}

// A PDF says "±", "µ" and "…" as such.
func TestPDFHoldsTheLetters(t *testing.T) {
	assert.Equal(t, "\xb1 7 % \xb5m\x85 ?", pdfLetters("± 7 % µm… 東"))
	path := filepath.Join(t.TempDir(), "a.pdf")
	require.NoError(t, Save(path, FanAndSystem(testStudy(1), Print(units.IP))))
	out, err := exec.Command("pdftotext", path, "-").Output()
	require.NoError(t, err)
	assert.Contains(t, string(out), "blower ± 7 %")
}

func TestSVGHoldsTheWords(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, FanAndSystem(testStudy(2), Print(units.IP)), FileWidth, FileHeight, "svg"))
	for _, want := range []string{"External static, in. w.c.", "Airflow, cfm", "Today, loaded", "No filter", "design 1200 cfm"} {
		assert.Contains(t, b.String(), want)
	}
}

func TestWriteRefuses(t *testing.T) {
	p := Watts(testStudy(1), Light(units.IP))
	var fault *FormatError
	err := Write(&bytes.Buffer{}, p, FileWidth, FileHeight, "gif")
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, "gif", fault.Given)
	assert.Contains(t, err.Error(), "png, svg or pdf")
	assert.ErrorContains(t, Write(&bytes.Buffer{}, p, 0, 100, "png"), "size")

	_, err = WriteAll(t.TempDir(), Of(testStudy(1)), "bmp", units.IP)
	assert.ErrorAs(t, err, &fault)
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err = WriteAll(file, Of(testStudy(1)), "png", units.IP)
	assert.ErrorContains(t, err, "charts")
	assert.False(t, errors.As(err, &fault))
}

func TestKindsAreNamed(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Kinds() {
		assert.NotEmpty(t, k.Title)
		assert.Regexp(t, `^[a-z-]+$`, k.Key)
		assert.False(t, seen[k.Key])
		seen[k.Key] = true
	}
	assert.Len(t, seen, 8)
}
