package system

import (
	"errors"
	"fmt"

	"golang.org/x/sys/windows"

	"returnbench/sizing/message"
)

// shell gives a path to the desktop's own call, as a value and not as text of a
// command: whatever letters it holds, it is a path.
func shell(verb, path string) error {
	what, err := windows.UTF16PtrFromString(verb)
	if err != nil {
		return err
	}
	file, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return err
	}
	err = windows.ShellExecute(0, what, file, nil, nil, windows.SW_SHOWNORMAL)
	if errors.Is(err, windows.ERROR_NO_ASSOCIATION) {
		return &MissingError{Program: message.ID("PDF reader"), For: "program that prints"}
	}
	if err != nil {
		return fmt.Errorf("%s %s: %w", verb, path, err)
	}
	return nil
}
