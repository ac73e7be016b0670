package notices

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/guitest"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

func someFindings() []sizing.Finding {
	return []sizing.Finding{
		{Severity: sizing.Good, Code: "a", Wrong: message.Sentences{message.New("The grille meets its target.")}, Source: "common practice, no source"},
		{Severity: sizing.Stop, Code: "b", Option: "Deep cabinet", Wrong: message.Sentences{message.New("The external static is past the plate's.")}, Limit: 0.5 * units.InchWater, Source: "equipment nameplate"},
		{Severity: sizing.Caution, Code: "c", Wrong: message.Sentences{message.New("The filter takes a large share.")}, Source: "common practice, no source"},
		{Severity: sizing.Stop, Code: "d", Wrong: message.Sentences{message.New("The coil may freeze.")}, Source: "common practice, no source"},
	}
}

func TestFindingListOrderAndWords(t *testing.T) {
	f := NewFindingList()
	w := guitest.Window(t, f)
	assert.Contains(t, guitest.Words(f), "Nothing was found.")
	f.Set(someFindings(), units.IP)
	w.Resize(fyne.NewSize(500, 401))
	codes := ""
	for _, one := range f.Shown() {
		codes += one.Code
	}
	assert.Equal(t, "bdca", codes, "worst first, and in order within")
	assert.Equal(t, []sizing.Severity{sizing.Stop, sizing.Stop, sizing.Caution, sizing.Good}, guitest.Severities(f))
	text := guitest.Words(f)
	for _, want := range []string{"STOP", "CAUTION", "GOOD", "The coil may freeze.", "for Deep cabinet", "limit: 0.500 in. w.c.", "source: equipment nameplate"} {
		assert.Contains(t, text, want)
	}
}

func TestFindingListWraps(t *testing.T) {
	long := sizing.Finding{Severity: sizing.Caution, Wrong: message.Sentences{message.Verbatim(strings.Repeat("The return is narrow and the filter is thick. ", 8))}, Source: "common practice, no source"}
	f := NewFindingList()
	f.Set([]sizing.Finding{long}, units.IP)
	w := guitest.Window(t, f)
	w.Resize(fyne.NewSize(700, 400))
	wide := f.MinSize().Height
	w.Resize(fyne.NewSize(300, 400))
	assert.Greater(t, f.MinSize().Height, wide, "a narrow list is a taller one")
}

func TestNotice(t *testing.T) {
	n := NewNotice(sizing.Stop, "Switch off power at the disconnect", "and check that it is off before opening")
	guitest.Window(t, n)
	assert.Contains(t, guitest.Words(n), "STOP")
	assert.Contains(t, guitest.Words(n), "check that it is off")
	assert.True(t, n.Visible())
	n.Set("", "", "")
	assert.False(t, n.Visible())
}

func TestNoTextOfANoticeIsCutOff(t *testing.T) {
	guitest.NoTextIsCutOff(t, map[string]func() fyne.CanvasObject{
		"findings": func() fyne.CanvasObject {
			f := NewFindingList()
			f.Set(someFindings(), units.IP)
			return f
		},
		"notice": func() fyne.CanvasObject {
			return NewNotice(sizing.Stop, "Switch off power at the disconnect and check that it is off before opening", "Sheet metal cuts.")
		},
	})
}
