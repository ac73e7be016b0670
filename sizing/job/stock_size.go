package job

import (
	"fmt"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// SizeUse is what a nominal size is of.
type SizeUse string

// What nominal sizes are of.
const (
	FilterSize SizeUse = "filter"
	GrilleSize SizeUse = "grille"
)

// Values are the words that a file may hold.
func (SizeUse) Values() []string { return []string{string(FilterSize), string(GrilleSize)} }

// StockSize is a nominal size that a supplier has beside the listed ones: of a
// filter, thin for a slot or deep for a cabinet, or of a grille.
type StockSize struct {
	Of     SizeUse      `json:"of"`
	Width  units.Length `json:"width"`
	Height units.Length `json:"height"`
	Depth  units.Length `json:"depth,omitzero"` // of a filter
}

// Nominal is the size as lists have it. One with a side that is no sixteenth of an
// inch is metric.
func (s StockSize) Nominal() stock.Size {
	sys := units.InchPound
	for _, side := range []units.Length{s.Width, s.Height, s.Depth} {
		n := side.In(units.Inch) * 16
		if math.Abs(n-math.Round(n)) > 1e-6 {
			sys = units.Metric
		}
	}
	return stock.Size{Width: s.Width, Height: s.Height, Depth: s.Depth, System: sys}
}

// Bounds of a face and of a filter's depth.
const (
	leastFilterSide, mostFilterSide   = 4 * units.Inch, 72 * units.Inch
	leastFilterDepth, mostFilterDepth = 0.2 * units.Inch, 30 * units.Inch
	leastGrilleSide, mostGrilleSide   = 3 * units.Inch, 96 * units.Inch
	leastStockDepth, mostStockDepth   = 0.5 * units.Inch, 12 * units.Inch // as a drop by MERV and depth is estimated for
)

// stockSizes checks the sizes of a supplier; a search of sizes solves each of them, so
// that all their fields are needed.
func (c *checker) stockSizes() {
	needed := func(path string, v, low, high units.Length) {
		c.want(v >= low && v <= high, path, v, "{low} to {high}", "low", low, "high", high)
	}
	for i, s := range c.job.StockSizes {
		path := fmt.Sprintf("stock_sizes[%d]", i)
		if s.Of == "" {
			c.fault(path+".of", nothing, message.New("filter or grille"))
		}
		oneOf(c, path+".of", s.Of)
		low, high := leastFilterSide, mostFilterSide
		if s.Of == GrilleSize {
			low, high = leastGrilleSide, mostGrilleSide
		}
		needed(path+".width", s.Width, low, high)
		needed(path+".height", s.Height, low, high)
		if s.Of == GrilleSize {
			c.want(s.Depth == 0, path+".depth", s.Depth, "nothing: only a filter has a depth")
		} else {
			needed(path+".depth", s.Depth, leastStockDepth, mostStockDepth)
		}
	}
}
