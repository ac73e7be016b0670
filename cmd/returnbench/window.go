//go:build !headless

package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"

	"fyne.io/fyne/v2/app"

	"returnbench/gui"
)

func openWindow(_ *stage, paths []string) error {
	if !hasDisplay() {
		return errors.New("there is no display to open a window on: neither DISPLAY nor WAYLAND_DISPLAY is set; the other verbs work without one")
	}
	if status := gui.Run(app.NewWithID(appID), version, paths...); status != done {
		return fmt.Errorf("the window ended with status %d", status)
	}
	return nil
}

// hasDisplay tells it where a display is named by the environment.
func hasDisplay() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}
