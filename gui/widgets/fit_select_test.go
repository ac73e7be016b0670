package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"
)

func TestListIsAsWideAsItsLongestChoice(t *testing.T) {
	test.NewTempApp(t)
	long := "a cabinet with four inches and a second return in the hall"
	s := widget.NewSelect([]string{"today", long, "no filter"}, nil)
	s.SetSelected("today")
	FitSelect(s)
	require.Greater(t, s.MinSize().Width, fyne.MeasureText(long, s.Theme().Size(theme.SizeNameText), fyne.TextStyle{}).Width)
	require.Equal(t, "today", s.Selected)
}
