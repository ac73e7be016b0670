package forms

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
)

// photoDesk answers the question for a picture.
type photoDesk struct {
	*session.Tasks
	picture, job string
}

func (d *photoDesk) ChoosePicture(then func(string)) { then(d.picture) }
func (d *photoDesk) JobFile() string                 { return d.job }

func photoPlace(t *testing.T) (*Photos, *session.Session, *photoDesk) {
	t.Helper()
	test.NewTempApp(t)
	dir := t.TempDir()
	var data bytes.Buffer
	require.NoError(t, png.Encode(&data, image.NewGray(image.Rect(0, 0, 40, 30))))
	d := &photoDesk{Tasks: inStep(), picture: filepath.Join(dir, "camera.png")}
	require.NoError(t, os.WriteFile(d.picture, data.Bytes(), 0o600))
	m := session.New(sizing.Solve, session.InStep)
	m.Load(house(), "")
	s := NewPhotos(m, d)
	m.OnChange(s.Refresh)
	w := test.NewTempWindow(t, s.Object())
	w.Resize(fyne.NewSize(900, 740))
	return s, m, d
}

// A photo goes into the job, gets a caption, is kept beside the job file and inside
// it again, and is removed; each is one step to undo.
func TestPhotosPlace(t *testing.T) {
	s, m, d := photoPlace(t)
	s.Add()
	require.Len(t, m.Peek().Photos, 1)
	require.NotEmpty(t, m.Peek().Photos[0].Data)
	require.NotNil(t, s.Field("photos[0].caption"))
	require.Empty(t, m.Errors())

	s.move(0, besideJob)
	assert.Contains(t, s.status.Text, "save the job first")
	require.NotEmpty(t, m.Peek().Photos[0].Data, "it stays as it was")

	d.job = filepath.Join(t.TempDir(), "hall.job.json")
	s.move(0, besideJob)
	require.Equal(t, "hall-photo-1.jpg", m.Peek().Photos[0].File)
	require.Empty(t, m.Peek().Photos[0].Data)
	require.FileExists(t, filepath.Join(filepath.Dir(d.job), "hall-photo-1.jpg"))

	s.keep = besideJob
	s.Add()
	require.Equal(t, "hall-photo-2.jpg", m.Peek().Photos[1].File, "no file is replaced")
	s.move(1, insideJob)
	require.NotEmpty(t, m.Peek().Photos[1].Data)
	require.FileExists(t, filepath.Join(filepath.Dir(d.job), "hall-photo-2.jpg"), "nothing is lost")
	m.Undo()
	require.Equal(t, "hall-photo-2.jpg", m.Peek().Photos[1].File)

	for len(m.Peek().Photos) < sizing.MostPhotos {
		s.Add()
	}
	s.Add()
	require.Len(t, m.Peek().Photos, sizing.MostPhotos)
	assert.Contains(t, s.status.Text, "6 photos at most")
}

// What is no picture is named and changes nothing.
func TestPhotosPlaceRefuses(t *testing.T) {
	s, m, d := photoPlace(t)
	d.picture = filepath.Join(t.TempDir(), "notes.jpg")
	s.Add()
	assert.Contains(t, s.status.Text, "notes.jpg is not added: there is no such file")
	require.NoError(t, os.WriteFile(d.picture, []byte("words"), 0o600))
	s.Add()
	assert.Contains(t, s.status.Text, "not a JPEG or PNG picture")
	assert.Empty(t, m.Peek().Photos)
}
