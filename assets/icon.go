package assets

import _ "embed"

//go:embed icon.svg
var icon []byte

// Icon is the program's picture as SVG: air through a pleated filter.
func Icon() []byte { return icon }
