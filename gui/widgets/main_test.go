package widgets

import (
	"os"
	"testing"

	"fyne.io/fyne/v2/test"

	"returnbench/gui/look"
)

func TestMain(m *testing.M) {
	test.NewApp().Settings().SetTheme(look.Theme(look.Light, 1))
	os.Exit(m.Run())
}
