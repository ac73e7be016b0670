package atomicfile

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// TestWrite: the new text is there, the mode stays, and nothing is left
// beside the file but the version before, where that is asked for.
func TestWrite(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	require.NoError(t, Write(path, []byte("one"), 0o600))
	require.NoError(t, os.Chmod(path, 0o664))
	require.NoError(t, WriteKeeping(path, []byte("second"), 0o600))
	require.Equal(t, "second", content(t, path))
	require.Equal(t, "one", content(t, path+BackupSuffix))
	require.NoError(t, Write(path, []byte("3"), 0o600))
	require.Equal(t, "3", content(t, path))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o664), info.Mode().Perm())
	require.Equal(t, []string{"a", "a.bak"}, names(t, dir))
}

// TestWrite_Links: a link stays a link, also one to a file that is not
// there yet, and every name of a file sees what was written.
func TestWrite_Links(t *testing.T) {
	dir := t.TempDir()
	path, link, far := filepath.Join(dir, "a"), filepath.Join(dir, "link"), filepath.Join(dir, "far")
	require.NoError(t, os.Symlink("a", link))
	require.NoError(t, os.Symlink(link, far))
	require.NoError(t, Write(far, []byte("one"), 0o644))
	for _, l := range []string{link, far} {
		info, err := os.Lstat(l)
		require.NoError(t, err)
		require.NotZero(t, info.Mode()&fs.ModeSymlink)
	}
	require.Equal(t, "one", content(t, path))
	require.True(t, Same(far, path))
	require.False(t, Same(far, filepath.Join(dir, "b")))
	require.True(t, Same(filepath.Join(dir, "b"), filepath.Join(dir, ".", "b")))

	second := filepath.Join(dir, "second")
	require.NoError(t, os.Link(path, second))
	require.NoError(t, Write(second, []byte("1"), 0o644))
	require.Equal(t, "1", content(t, path))
	require.True(t, Same(path, second))
	require.Equal(t, "one", content(t, second+BackupSuffix), "written in place: the version before is always kept")

	require.NoError(t, os.Symlink("circle", filepath.Join(dir, "circle")))
	require.ErrorContains(t, Write(filepath.Join(dir, "circle"), nil, 0o644), "circle")
}

// TestWrite_Refused: what may not be replaced stays as it was, and no
// remains are left beside it.
func TestWrite_Refused(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	require.NoError(t, Write(path, []byte("one"), 0o644))
	require.NoError(t, os.Chmod(path, 0o444))
	require.ErrorIs(t, Write(path, []byte("two"), 0o644), ErrReadOnly)
	require.Equal(t, "one", content(t, path))
	require.ErrorIs(t, Write(dir, nil, 0o644), errFolder)
	require.ErrorIs(t, Write(filepath.Join(dir, "none", "a"), nil, 0o644), fs.ErrNotExist)
	require.ErrorContains(t, Write(filepath.Join(dir, strings.Repeat("x", 256)), nil, 0o644), "256 bytes; want at most 255")
	require.Equal(t, []string{"a"}, names(t, dir))
	require.NoError(t, Write(os.DevNull, []byte("one"), 0o644))
}

// TestWrite_LongName_Identity: a name as long as a disk takes, 85 letters of
// three bytes, can be written and its version before kept.
func TestWrite_LongName_Identity(t *testing.T) {
	path := filepath.Join(t.TempDir(), strings.Repeat("家", 85))
	require.NoError(t, WriteKeeping(path, []byte("one"), 0o644))
	require.NoError(t, WriteKeeping(path, []byte("two"), 0o644))
	require.Equal(t, "two", content(t, path))
	require.Equal(t, "one", content(t, BackupPath(path)))
}

// TestReplace: a file that was gathered elsewhere takes the place of
// another, whose mode, link and further names stay.
func TestReplace(t *testing.T) {
	dir := t.TempDir()
	path, link, staged := filepath.Join(dir, "a"), filepath.Join(dir, "link"), filepath.Join(dir, "a.part")
	require.NoError(t, os.Symlink("a", link))
	for _, text := range []string{"new", "longer than before", "short"} {
		require.NoError(t, os.WriteFile(staged, []byte(text), 0o600))
		require.NoError(t, Replace(staged, link))
		require.Equal(t, text, content(t, path))
		require.NoFileExists(t, staged)
		require.NoError(t, os.Chmod(path, 0o640))
		if text == "longer than before" {
			require.NoError(t, os.Link(path, filepath.Join(dir, "second")))
		}
	}
	require.Equal(t, "short", content(t, filepath.Join(dir, "second")))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&fs.ModeSymlink)
	info, err = os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
}

// TestRemoveTemporary: what a killed writer left long ago goes, and nothing
// else.
func TestRemoveTemporary(t *testing.T) {
	dir := t.TempDir()
	left, err := create(dir, 0o600)
	require.NoError(t, err)
	require.NoError(t, left.Close())
	long := time.Now().Add(-48 * time.Hour)
	require.NoError(t, os.Chtimes(left.Name(), long, long))
	young, err := create(dir, 0o600)
	require.NoError(t, err)
	require.NoError(t, young.Close())
	require.NoError(t, Write(filepath.Join(dir, "a"), nil, 0o600))
	require.NoError(t, os.Chtimes(filepath.Join(dir, "a"), long, long))
	require.NoError(t, RemoveTemporary(dir, time.Now().Add(-24*time.Hour)))
	require.Equal(t, []string{filepath.Base(young.Name()), "a"}, names(t, dir))
}
