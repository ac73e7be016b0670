package gui

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing/jobfile"
)

// FuzzRecoveryCopy reads any file as a copy of unsaved work: a job that can be
// written again, or an error.
func FuzzRecoveryCopy(f *testing.F) {
	f.Add([]byte(`{"path": "a", "time": "2024-05-06T07:08:09Z", "job": {"schema": 1, "design_airflow": "1200 cfm"}}`))
	f.Add([]byte(`{"job": {"schema": 1}, "job": null}`))
	f.Add([]byte(`{"job"`))
	r := &recoveryStore{folder: userFolder{dir: f.TempDir()}, handled: map[string]bool{}}
	f.Fuzz(func(t *testing.T, data []byte) {
		file := filepath.Join(r.folder.dir, "copy")
		require.NoError(t, os.WriteFile(file, data, 0o600))
		kept, err := r.read(file)
		if err != nil {
			require.Nil(t, kept)
			return
		}
		_, err = jobfile.Encode(kept.Job)
		require.NoError(t, err)
	})
}

// FuzzSettings reads any file as settings: whatever it holds, they can be used.
func FuzzSettings(f *testing.F) {
	f.Add([]byte(`{"units": "si", "theme": "dark", "text_size": 1e9}`))
	f.Add([]byte(`{"text_size": -1}`))
	f.Add([]byte(`[`))
	o := userFolder{dir: f.TempDir()}
	f.Fuzz(func(t *testing.T, data []byte) {
		require.NoError(t, os.WriteFile(filepath.Join(o.dir, settingsFile), data, 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(o.dir, recentFile), data, 0o600))
		s, _ := o.settings()
		require.True(t, slices.Contains(textSizes, s.TextSize), "%v", s.TextSize)
		require.Equal(t, s, s.corrected())
		require.LessOrEqual(t, len(o.recent()), longestList)
	})
}
