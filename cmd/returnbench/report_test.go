package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReport(t *testing.T) {
	for _, audience := range []string{"customer", "work-order", "working"} {
		file := filepath.Join(t.TempDir(), "pages.pdf")
		r := returnbench(t, "", "report", example("one-inch-slot"), "-o", file, "--for", audience, "--paper", "a4", "--option", "four-inch cabinet")
		require.Equal(t, outcome{}, r)
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(data, []byte("%PDF-")))
		require.Contains(t, string(data), "/MediaBox [0 0 595.28 841.89]")
	}
}

// TestReportOfAFirm: the firm's name stands on the proposal; the sheet of a
// demonstration is of a lesson.
func TestReportOfAFirm(t *testing.T) {
	dir := t.TempDir()
	profile := filepath.Join(dir, "firm.json")
	require.NoError(t, os.WriteFile(profile, []byte(`{"name": "Invented Air", "tax_rate": 0.07}`), 0o600))
	file := filepath.Join(dir, "pages.pdf")
	require.Equal(t, outcome{}, returnbench(t, "", "report", example("one-inch-slot"), "-o", file, "--firm", profile))
	with, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, outcome{}, returnbench(t, "", "report", example("one-inch-slot"), "-o", file))
	without, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NotEqual(t, len(with), len(without))
	require.NoError(t, os.WriteFile(profile, []byte(`{"nam": "Invented Air"}`), 0o600))
	r := returnbench(t, "", "report", example("one-inch-slot"), "-o", file, "--firm", profile)
	require.Equal(t, 1, r.status)
	require.Contains(t, r.err, "firm.json")

	lessonFile := filepath.Join("..", "..", "assets", "lessons", "deeper-cabinet.lesson.json")
	require.Equal(t, outcome{}, returnbench(t, "", "report", lessonFile, "-o", file, "--for", "class"))
	require.Equal(t, 1, returnbench(t, "", "report", example("one-inch-slot"), "-o", file, "--for", "class").status)
	require.Equal(t, outcome{}, returnbench(t, "", "report", example("one-inch-slot"), "-o", file, "--for", "field-sheet"))
}

// TestReport_Fault: each fault has its status, and no file is left.
func TestReport_Fault(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "pages.pdf")
	for _, x := range []struct {
		status int
		args   []string
	}{
		{1, []string{"report", jobFile("five-faults"), "-o", file}},
		{2, []string{"report", jobFile("least")}},
		{2, []string{"report", jobFile("least"), "-o", file, "--for", "neighbour"}},
		{2, []string{"report", jobFile("least"), "-o", file, "--paper", "legal"}},
		{2, []string{"report", example("one-inch-slot"), "-o", file, "--option", "no such option"}},
		{3, []string{"report", filepath.Join(dir, "none.job.json"), "-o", file}},
		{3, []string{"report", jobFile("least"), "-o", filepath.Join(dir, "none", "pages.pdf")}},
	} {
		r := returnbench(t, "", x.args...)
		require.Equal(t, x.status, r.status, "%v: %s", x.args, r.err)
		require.NotEmpty(t, r.err)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Empty(t, left)
}
