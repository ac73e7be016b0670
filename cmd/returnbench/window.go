//go:build !headless

package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"returnbench/gui"
)

func openWindow(_ *streams, paths []string) error {
	if !hasDisplay() {
		return errors.New("there is no display to open a window on: neither DISPLAY nor WAYLAND_DISPLAY is set; the other verbs work without one")
	}
	app.SetMetadata(fyne.AppMetadata{ID: appID, Name: "returnbench", Version: version, Migrations: map[string]bool{"fyneDo": !checksThreads}})
	a := withoutAnimation{app.NewWithID(appID)}
	fyne.SetCurrentApp(a) // whom the toolkit's inputs ask
	if status := gui.Run(a, version, paths...); status != done {
		return fmt.Errorf("the window ended with status %d", status)
	}
	return nil
}

// withoutAnimation is an app whose inputs do not move by themselves. The toolkit draws the
// whole window for each step of an animation, so a blinking caret alone would
// keep a fifth of a core busy, so it does not blink.
type withoutAnimation struct{ fyne.App }

func (a withoutAnimation) Settings() fyne.Settings { return settingsWithoutAnimation{a.App.Settings()} }

type settingsWithoutAnimation struct{ fyne.Settings }

func (settingsWithoutAnimation) ShowAnimations() bool { return false }

// hasDisplay reports whether the environment names a display.
func hasDisplay() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}
