package report

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// word is a text of a page with the left end of its baseline, y upwards.
type word struct {
	x, y float64
	size float64
	font string
	text string
}

var (
	streamPattern = regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`)
	pagePattern   = regexp.MustCompile(`(?s)BT (-?[\d.]+) (-?[\d.]+) Td \((.*?)\) Tj ET|BT /F(\w+) ([\d.]+) Tf ET`)
)

// readPages reads the words of each page out of the bytes of a PDF: its
// streams unpacked, its texts taken as the two bytes a letter that they are.
func readPages(t testing.TB, pdf []byte) [][]word {
	t.Helper()
	var pages [][]word
	for _, m := range streamPattern.FindAllSubmatch(pdf, -1) {
		unpacked, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(unpacked)
		if err != nil || !bytes.Contains(content, []byte(") Tj ET")) {
			continue
		}
		pages = append(pages, readWords(t, content))
	}
	require.NotEmpty(t, pages)
	return pages
}

func readWords(t testing.TB, content []byte) []word {
	t.Helper()
	number := func(b []byte) float64 {
		v, err := strconv.ParseFloat(string(b), 64)
		require.NoError(t, err)
		return v
	}
	var out []word
	font, size := "", 0.0
	for _, m := range pagePattern.FindAllSubmatch(content, -1) {
		if m[4] != nil {
			font, size = string(m[4]), number(m[5])
			continue
		}
		out = append(out, word{number(m[1]), number(m[2]), size, font, twoByteText(t, m[3])})
	}
	return out
}

func twoByteText(t testing.TB, raw []byte) string {
	t.Helper()
	plain := regexp.MustCompile(`(?s)\\(.)`).ReplaceAllFunc(raw, func(m []byte) []byte {
		if m[1] == 'r' {
			return []byte{'\r'}
		}
		return m[1:]
	})
	require.Zero(t, len(plain)%2)
	letters := make([]uint16, len(plain)/2)
	for i := range letters {
		letters[i] = uint16(plain[2*i])<<8 | uint16(plain[2*i+1])
	}
	return string(utf16.Decode(letters))
}

// pageText puts the words of a page into lines, from the top.
func pageText(words []word) string {
	sorted := append([]word(nil), words...)
	sort.SliceStable(sorted, func(i, k int) bool {
		a, b := sorted[i], sorted[k]
		if math.Abs(a.y-b.y) > 0.6 {
			return a.y > b.y
		}
		return a.x < b.x
	})
	var out strings.Builder
	for i, w := range sorted {
		switch {
		case i == 0:
		case math.Abs(sorted[i-1].y-w.y) > 0.6:
			out.WriteString("\n")
		default:
			out.WriteString("  ")
		}
		out.WriteString(w.text)
	}
	return out.String()
}

func allText(pages [][]word) string {
	texts := make([]string, len(pages))
	for i, p := range pages {
		texts[i] = pageText(p)
	}
	return strings.Join(texts, "\n\f\n")
}
