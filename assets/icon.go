package assets

import _ "embed"

//go:embed icon.png
var icon []byte

// Icon is the program's picture as PNG, drawn from icon.svg: air through a pleated
// filter. Drawing the SVG would keep a window from opening for ten times as long.
func Icon() []byte { return icon }
