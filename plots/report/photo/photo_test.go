package photo

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/job"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// corner is a picture whose upper left quarter is red, the rest blue.
func corner(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			ink := color.RGBA{0, 0, 255, 255}
			if x < w/2 && y < h/2 {
				ink = color.RGBA{255, 0, 0, 255}
			}
			img.SetRGBA(x, y, ink)
		}
	}
	return img
}

// withExif is a JPEG file as a camera writes it: an APP1 segment of TIFF 6.0, whose
// first directory holds the orientation (tag 0x0112), a maker (0x010f) and a place
// (0x8825, with a latitude).
func withExif(t *testing.T, img image.Image, orientation uint16) []byte {
	var plain bytes.Buffer
	require.NoError(t, jpeg.Encode(&plain, img, nil))
	le := binary.LittleEndian
	var tiff bytes.Buffer
	put := func(v any) { require.NoError(t, binary.Write(&tiff, le, v)) }
	tiff.WriteString("II*\x00")
	put(uint32(8))
	put(uint16(3)) // entries
	entry := func(tag, kind uint16, count, value uint32) {
		put(tag)
		put(kind)
		put(count)
		put(value)
	}
	const after = 8 + 2 + 3*12 + 4
	entry(0x010f, 2, 12, after)
	entry(0x0112, 3, 1, uint32(orientation))
	entry(0x8825, 4, 1, after+12)
	put(uint32(0))
	tiff.WriteString("SecretMaker\x00")
	put(uint16(2))
	entry(0x0001, 2, 2, 'N')
	entry(0x0002, 5, 3, after+12+2+2*12+4)
	put(uint32(0))
	for _, v := range []uint32{48, 1, 7, 1, 33, 1} {
		put(v)
	}
	segment := append([]byte("Exif\x00\x00"), tiff.Bytes()...)
	out := []byte{0xff, 0xd8, 0xff, 0xe1}
	out = binary.BigEndian.AppendUint16(out, uint16(len(segment)+2))
	return append(append(out, segment...), plain.Bytes()[2:]...)
}

// By EXIF 2.3: orientation 1 has its first row at the top and its first column at the
// left, 2 top and right, 3 bottom and right, 4 bottom and left, 5 left and top, 6 right
// and top, 7 right and bottom, 8 left and bottom. So the red corner lies there.
func TestOrientation(t *testing.T) {
	for how, want := range map[uint16]struct{ right, bottom, turned bool }{
		1: {}, 2: {right: true}, 3: {right: true, bottom: true}, 4: {bottom: true},
		5: {turned: true}, 6: {right: true, turned: true}, 7: {right: true, bottom: true, turned: true}, 8: {bottom: true, turned: true},
		0: {}, 9: {},
	} {
		p, err := Prepare(withExif(t, corner(64, 32), how))
		require.NoError(t, err)
		size := p.Image.Bounds().Size()
		if want.turned {
			require.Equal(t, image.Pt(32, 64), size, how)
		} else {
			require.Equal(t, image.Pt(64, 32), size, how)
		}
		for _, right := range []bool{false, true} {
			for _, bottom := range []bool{false, true} {
				x, y := size.X/4, size.Y/4
				if right {
					x += size.X / 2
				}
				if bottom {
					y += size.Y / 2
				}
				r, _, b, _ := p.Image.At(x, y).RGBA()
				assert.Equal(t, right == want.right && bottom == want.bottom, r > b, "orientation %d, right %v, bottom %v", how, right, bottom)
			}
		}
	}
}

// Nothing of what the camera wrote beside the pixels is kept.
func TestNoMetadata(t *testing.T) {
	given := withExif(t, corner(64, 32), 6)
	require.True(t, bytes.Contains(given, []byte("Exif")) && bytes.Contains(given, []byte("SecretMaker")))
	p, err := Prepare(given)
	require.NoError(t, err)
	for _, mark := range []string{"Exif", "SecretMaker", "II*", "MM\x00*", "http"} {
		assert.NotContains(t, string(p.JPEG), mark)
	}
	for at := 2; at < len(p.JPEG) && p.JPEG[at+1] != 0xda; at += 2 + int(binary.BigEndian.Uint16(p.JPEG[at+2:])) {
		require.Equal(t, byte(0xff), p.JPEG[at])
		assert.False(t, p.JPEG[at+1] >= 0xe1 && p.JPEG[at+1] <= 0xef || p.JPEG[at+1] == 0xfe, "segment %x", p.JPEG[at+1])
	}
	again, err := Prepare(p.JPEG)
	require.NoError(t, err)
	assert.Equal(t, p.Image.Bounds(), again.Image.Bounds(), "it is not turned twice")
}

// A photo is shrunk in its own shape; noise, which JPEG packs worst, still fits in a
// job file.
func TestShrunk(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 4000, 2000))
	dice := rand.New(rand.NewPCG(1, 2))
	for i := range img.Pix {
		img.Pix[i] = byte(dice.Uint32())
	}
	var data bytes.Buffer
	require.NoError(t, jpeg.Encode(&data, img, nil))
	p, err := Prepare(data.Bytes())
	require.NoError(t, err)
	size := p.Image.Bounds().Size()
	assert.LessOrEqual(t, size.X, Longest)
	assert.InDelta(t, 2, float64(size.X)/float64(size.Y), 0.01)
	assert.LessOrEqual(t, len(Inside(p)), job.MostLetters("data"))
	var clear bytes.Buffer
	require.NoError(t, png.Encode(&clear, image.NewNRGBA(image.Rect(0, 0, 20, 20))))
	p, err = Prepare(clear.Bytes())
	require.NoError(t, err)
	r, g, b, _ := p.Image.At(5, 5).RGBA()
	assert.Equal(t, [3]uint32{0xffff, 0xffff, 0xffff}, [3]uint32{r, g, b}, "what is clear is white")
}

// huge is the head of a PNG file that claims so many pixels, and nothing more.
func huge(w, h uint32) []byte {
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), w)
	head = append(binary.BigEndian.AppendUint32(head, h), 8, 6, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\r"), head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"bomb":  {huge(60_000, 60_000), "given 60000 x 60000 pixels; want at most 64 million in all"},
		"text":  {[]byte("no picture"), "not a JPEG or PNG picture"},
		"gif":   {[]byte("GIF89a\x01\x00\x01\x00\x80\x00\x00\x00\x00\x00\xff\xff\xff,\x00\x00\x00\x00\x01\x00\x01\x00\x00\x02\x02D\x01\x00;"), "not a JPEG or PNG picture"},
		"cut":   {huge(20, 20), "the picture cannot be read"},
		"large": {make([]byte, MostBytes+1), "want a photo of at most 40 MB"},
	} {
		allocated := testing.AllocsPerRun(1, func() { _, _ = Prepare(c.data) })
		_, err := Prepare(c.data)
		assert.ErrorContains(t, err, c.want, name)
		assert.Less(t, allocated, 1000.0, name)
	}
}

func TestOpen(t *testing.T) {
	dir := t.TempDir()
	data := withExif(t, corner(64, 32), 8)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "closet.jpg"), data, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "bomb.png"), huge(60_000, 60_000), 0o600))
	p, err := Open(quote.Photo{File: "closet.jpg"}, dir)
	require.NoError(t, err)
	assert.Equal(t, image.Pt(32, 64), p.Image.Bounds().Size())
	again, err := Open(quote.Photo{Data: Inside(p)}, "")
	require.NoError(t, err)
	assert.Equal(t, image.Pt(32, 64), again.Image.Bounds().Size())
	for name, c := range map[string]struct {
		photo  quote.Photo
		folder string
		want   string
	}{
		"lost":    {quote.Photo{File: "gone.jpg"}, dir, "no such file beside the job file"},
		"no job":  {quote.Photo{File: "closet.jpg"}, "", "no file yet"},
		"outside": {quote.Photo{File: "../closet.jpg"}, dir, "not a file beside the job file"},
		"folder":  {quote.Photo{File: filepath.Base(dir)}, filepath.Dir(dir), "not a file of a photo"},
		"bomb":    {quote.Photo{File: "bomb.png"}, dir, "60000 x 60000 pixels"},
		"damaged": {quote.Photo{Data: "?"}, dir, "damaged"},
		"no data": {quote.Photo{Data: base64.StdEncoding.EncodeToString([]byte("x"))}, dir, "not a JPEG or PNG picture"},
	} {
		_, err := Open(c.photo, c.folder)
		require.ErrorContains(t, err, c.want, name)
		assert.NotContains(t, err.Error(), dir, "no path of the machine")
	}
	assert.Equal(t, "photo 2 (closet.jpg)", Name(units.IP, quote.Photo{File: "closet.jpg", Caption: "x"}, 1))
	assert.Equal(t, "photo 1 (the plate)", Name(units.IP, quote.Photo{Caption: " the plate"}, 0))
	assert.False(t, strings.Contains(Name(units.IP, quote.Photo{}, 0), "("))
}

func FuzzPrepare(f *testing.F) {
	f.Add(huge(10, 10))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x20Exif\x00\x00II*\x00\x08\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if p, err := Prepare(data); err == nil && len(p.JPEG) > keptBytes {
			t.Error("too large")
		}
	})
}
