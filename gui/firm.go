package gui

import (
	"errors"
	"io/fs"
	"path/filepath"

	"returnbench/plots/report/firm"
)

// firmFile holds the company's profile, in the folder of the person's own files.
const firmFile = "firm.json"

// Firm reads the company's profile; without a file there is none.
func (d desk) Firm() (firm.Profile, error) {
	if d.userFolder.dir == "" {
		return firm.Profile{}, nil
	}
	p, err := firm.Read(filepath.Join(d.userFolder.dir, firmFile))
	if errors.Is(err, fs.ErrNotExist) && p.Logo == "" {
		return firm.Profile{}, nil
	}
	return p, err
}

// SetFirm keeps the company's profile.
func (d desk) SetFirm(p firm.Profile) error {
	if d.userFolder.dir == "" {
		return errNoOwnFolder
	}
	return firm.Write(filepath.Join(d.userFolder.dir, firmFile), p)
}
