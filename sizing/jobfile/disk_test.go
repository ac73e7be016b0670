package jobfile

import (
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func TestSaveLoad_Identity(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.job.json")
	job := sizing.Job{Schema: 1, Name: "A", DesignAirflow: 1200 * units.CFM}
	require.NoError(t, Save(path, job))
	back, err := Load(path)
	require.NoError(t, err)
	require.Equal(t, job, back)

	require.NoError(t, os.Chmod(path, 0o600))
	job.Name = "B"
	require.NoError(t, Save(path, job))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o600), info.Mode().Perm(), "the mode stays")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2, "nothing is left beside the file but the version before")
	before, err := Load(path + ".bak")
	require.NoError(t, err)
	require.Equal(t, "A", before.Name)

	link := filepath.Join(dir, "link.job.json")
	require.NoError(t, os.Symlink(path, link))
	job.Name = "C"
	require.NoError(t, Save(link, job))
	back, err = Load(path)
	require.NoError(t, err)
	require.Equal(t, "C", back.Name, "a link stays a link")
}

func TestSave_Failure_Identity(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.job.json")
	require.NoError(t, Save(path, sizing.Job{Name: "A"}))
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Error(t, Save(path, sizing.Job{DesignAirflow: units.Flow(math.Inf(1))}))
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, before, after, "a job that cannot be written leaves the file alone")
	require.Error(t, Save(filepath.Join(path, "below", "a", "file"), sizing.Job{}))
	_, err = Load(filepath.Join(t.TempDir(), "none.job.json"))
	require.ErrorIs(t, err, fs.ErrNotExist)
}
