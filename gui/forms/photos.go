package forms

import (
	"context"
	"errors"
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/plots/report/photo"
	"returnbench/sizing"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/quote"
)

// PhotoDesk is what the shell does for the photos.
type PhotoDesk interface {
	// Go runs work away from the window's thread and then done on it.
	Go(work func(context.Context) error, done func(error))
	// ChoosePicture asks for a picture's file.
	ChoosePicture(then func(path string))
	// JobFile is the job's file, empty where it has none yet.
	JobFile() string
}

// Photos is the place for the pictures taken at the house.
type Photos struct {
	*form.Form
	model  form.Model
	desk   PhotoDesk
	keep   string // where the next photo goes
	status *widget.Label
	shown  map[quote.Photo]*canvas.Image // by how each is kept
}

// Where a photo is kept.
const (
	insideJob = "inside"
	besideJob = "beside"
)

var keepItems = []form.Item[string]{{Value: insideJob, Label: "inside the job file"}, {Value: besideJob, Label: "in a file beside it"}}

// thumbnail is the room for a photo in the form.
var thumbnail = fyne.NewSize(280, 190)

// NewPhotos makes the form.
func NewPhotos(m form.Model, d PhotoDesk) *Photos {
	s := &Photos{model: m, desk: d, keep: insideJob, status: wrapped(), shown: map[quote.Photo]*canvas.Image{}}
	s.Form = form.New(m, s.shape, s.build)
	return s
}

func photosOf(j *sizing.Job) *[]quote.Photo { return &j.Photos }

// key is a photo by how it is kept alone.
func key(p quote.Photo) quote.Photo { return quote.Photo{File: p.File, Data: p.Data} }

func (s *Photos) shape() string {
	var out strings.Builder
	for _, p := range s.model.Peek().Photos {
		fmt.Fprintf(&out, "%s %d|", p.File, len(p.Data))
	}
	return out.String() + s.desk.JobFile()
}

func (s *Photos) build(b *form.Builder) {
	list := b.Job().Photos
	b.Heading("Photos")
	b.Note("Such as the equipment's plate, the closet and the gauge. Every photo is on the work order; tick those that the customer is to see. It is turned upright and shrunk; the place and time that a camera writes into it are left out.")
	b.Object(container.NewVBox(widget.NewLabel(lang.T("Keep a new photo")), s.keepChoice()))
	b.Buttons(form.Button{Label: "Add photo ...", Action: s.Add, Off: len(list) >= sizing.MostPhotos})
	b.Object(s.status)
	for i := range list {
		s.one(b, i)
	}
}

func (s *Photos) keepChoice() fyne.CanvasObject {
	names := make([]string, len(keepItems))
	for i, it := range keepItems {
		names[i] = lang.T(it.Label)
	}
	group := widget.NewRadioGroup(names, nil)
	group.Horizontal, group.Required = true, true
	for i, it := range keepItems {
		if it.Value == s.keep {
			group.Selected = names[i]
		}
	}
	group.OnChanged = func(label string) {
		if i := slices.Index(names, label); i >= 0 {
			s.keep = keepItems[i].Value
		}
	}
	return group
}

func (s *Photos) one(b *form.Builder, i int) {
	path := fmt.Sprintf("photos[%d]", i)
	at := form.At(photosOf, i)
	b.ListItem(path, "photo")
	b.ListHeading("Photo {number}", i, func() {
		form.Remove(b, "Remove photo", photosOf, i)
	})
	p := b.Job().Photos[i]
	b.Object(s.picture(p, i))
	b.Text(path+".caption", "Caption", form.Of(at, func(p *quote.Photo) *string { return &p.Caption }), "what it shows")
	form.Choice(b, path+".shows", "It shows", form.Of(at, func(p *quote.Photo) *quote.PhotoSubject { return &p.Shows }), "not told",
		form.Item[quote.PhotoSubject]{Value: quote.ShowsPlate, Label: "the equipment's plate"}, form.Item[quote.PhotoSubject]{Value: quote.ShowsCloset, Label: "where the unit stands"},
		form.Item[quote.PhotoSubject]{Value: quote.ShowsGauge, Label: "the gauge"}, form.Item[quote.PhotoSubject]{Value: quote.ShowsFilter, Label: "the filter"}, form.Item[quote.PhotoSubject]{Value: quote.ShowsOther, Label: "something else"})
	b.Check(path+".on_proposal", "On the proposal too", form.Of(at, func(p *quote.Photo) *bool { return &p.OnProposal }))
	b.Chosen(path+".data", "Kept", func() string {
		if x := at(s.model.Peek()); x != nil && x.File != "" {
			return besideJob
		}
		return insideJob
	}, func(where string) { s.move(i, where) }, keepItems...)
	b.Text(path+".file", "File beside the job", form.Of(at, func(p *quote.Photo) *string { return &p.File }), "none")
}

// picture shows a photo small, or why it cannot be shown.
func (s *Photos) picture(p quote.Photo, i int) fyne.CanvasObject {
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(thumbnail)
	if img := s.shown[key(p)]; img != nil {
		return container.NewHBox(container.NewStack(room, img))
	}
	fault := wrapped()
	stack := container.NewStack(room, fault)
	folder := s.folder()
	var got photo.Picture
	s.desk.Go(func(context.Context) (err error) {
		got, err = photo.Open(p, folder)
		return err
	}, func(err error) {
		if err != nil {
			room.SetMinSize(fyne.NewSize(2*thumbnail.Width, 0))
			fault.SetText(lang.T("This photo cannot be shown: {why}.", "why", err))
			return
		}
		img := canvas.NewImageFromImage(got.Image)
		img.FillMode = canvas.ImageFillContain
		s.shown[key(p)] = img
		stack.Objects = []fyne.CanvasObject{room, img}
		stack.Refresh()
	})
	return container.NewHBox(stack)
}

func (s *Photos) folder() string {
	if file := s.desk.JobFile(); file != "" {
		return filepath.Dir(file)
	}
	return ""
}

// Add asks for a picture and puts it into the job.
func (s *Photos) Add() {
	s.desk.ChoosePicture(func(path string) {
		s.say(lang.T("Reading {file} ...", "file", filepath.Base(path)))
		where, job := s.keep, s.desk.JobFile()
		var added quote.Photo
		s.desk.Go(func(context.Context) error {
			data, err := photo.ReadFile(path)
			if err != nil {
				return err
			}
			p, err := photo.Prepare(data)
			if err != nil {
				return err
			}
			added, err = kept(p, where, job)
			return err
		}, func(err error) {
			if err != nil {
				s.say(lang.T("{file} is not added: {why}.", "file", filepath.Base(path), "why", err))
				return
			}
			if len(s.model.Peek().Photos) >= sizing.MostPhotos {
				s.say(lang.T("A job holds {count} photos at most.", "count", sizing.MostPhotos))
				return
			}
			s.say("")
			s.model.Apply(lang.T("Add photo"), func(j *sizing.Job) { j.Photos = append(j.Photos, added) })
			s.Form.Show(fmt.Sprintf("photos[%d].caption", len(s.model.Peek().Photos)-1))
		})
	})
}

// kept puts a picture where a photo is to be kept.
func kept(p photo.Picture, where, job string) (quote.Photo, error) {
	if where == insideJob {
		return quote.Photo{Data: photo.Inside(p)}, nil
	}
	if job == "" {
		return quote.Photo{}, message.Errorf("the job has no file yet that it could be beside; save the job first, or keep the photo inside it")
	}
	file, err := unusedName(job)
	if err != nil {
		return quote.Photo{}, err
	}
	return quote.Photo{File: filepath.Base(file)}, atomicfile.Write(file, p.JPEG, 0o644)
}

// unusedName is a file beside the job that is not there yet.
func unusedName(job string) (string, error) {
	name := strings.TrimSuffix(strings.TrimSuffix(filepath.Base(job), ".json"), ".job")
	if letters := []rune(name); len(letters) > 100 {
		name = string(letters[:100])
	}
	for i := 1; i < 1000; i++ {
		file := filepath.Join(filepath.Dir(job), fmt.Sprintf("%s-photo-%d.jpg", name, i))
		if _, err := os.Lstat(file); errors.Is(err, os.ErrNotExist) {
			return file, nil
		}
	}
	return "", message.Errorf("there are too many photos beside the job file")
}

// move keeps a photo inside the job file or beside it. The file that it was in stays.
func (s *Photos) move(i int, where string) {
	list := s.model.Peek().Photos
	if i >= len(list) || (where == besideJob) == (list[i].File != "") {
		return
	}
	before, job, folder := list[i], s.desk.JobFile(), s.folder()
	var now quote.Photo
	s.desk.Go(func(context.Context) error {
		p, err := photo.Open(before, folder)
		if err == nil {
			now, err = kept(p, where, job)
		}
		return err
	}, func(err error) {
		if err != nil {
			s.say(lang.T("Photo {number} stays as it was: {why}.", "number", i+1, "why", err))
			s.Form.Refresh()
			return
		}
		s.say("")
		s.model.Apply(lang.T("Keep photo elsewhere"), func(j *sizing.Job) {
			at := slices.IndexFunc(j.Photos, func(p quote.Photo) bool { return key(p) == key(before) })
			if at >= 0 {
				j.Photos[at].File, j.Photos[at].Data = now.File, now.Data
			}
		})
	})
}

func (s *Photos) say(text string) { s.status.SetText(text) }
