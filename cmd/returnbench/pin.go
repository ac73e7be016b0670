//go:build pin

package main

import (
	_ "codeberg.org/go-pdf/fpdf"
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/driver/software"
	_ "fyne.io/fyne/v2/test"
	_ "github.com/agext/levenshtein"
	_ "github.com/alecthomas/kong"
	_ "github.com/go-json-experiment/json"
	_ "github.com/google/renameio/v2/maybe"
	_ "github.com/hashicorp/golang-lru/v2"
	_ "github.com/invopop/jsonschema"
	_ "github.com/santhosh-tekuri/jsonschema/v6"
	_ "github.com/schollz/progressbar/v3"
	_ "github.com/stretchr/testify/require"
	_ "github.com/xuri/excelize/v2"
	_ "gonum.org/v1/gonum/interp"
	_ "gonum.org/v1/gonum/optimize"
	_ "gonum.org/v1/plot/vg/vgimg"
	_ "gonum.org/v1/plot/vg/vgpdf"
	_ "gonum.org/v1/plot/vg/vgsvg"
	_ "pgregory.net/rapid"
)
