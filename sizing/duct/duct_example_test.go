package duct_test

import (
	"fmt"

	"returnbench/sizing/air"
	"returnbench/sizing/duct"
	"returnbench/sizing/units"
)

func ExampleRun_Drop() {
	stretched := duct.Run{Shape: duct.Flex, Diameter: 16 * units.Inch, Length: 12 * units.Foot}
	slack := stretched
	slack.Compression = 0.15
	q := 1000 * units.CFM
	fmt.Println(stretched.Velocity(q).Show(units.IP))
	fmt.Println(stretched.Drop(q, air.Standard()).Show(units.IP))
	fmt.Println(slack.Drop(q, air.Standard()).Show(units.IP))
	// Output:
	// 716 fpm
	// 0.007 in. w.c.
	// 0.016 in. w.c.
}

func ExampleFitting_LossCoefficient() {
	drop := duct.Fitting{Kind: duct.ElbowSmooth, RadiusRatio: 1}
	zeta, source, err := drop.LossCoefficient()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(zeta)
	fmt.Println(source.Show(units.IP))
	// Output:
	// 0.22
	// ASHRAE Fundamentals duct fitting tables, from memory; angle 90 assumed
}

func ExampleGrille_Law() {
	g := duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch, Style: duct.Bar}
	law, err := g.Law()
	if err != nil {
		fmt.Println(err)
		return
	}
	q := 800 * units.CFM
	fmt.Println(g.FaceVelocity(q).Show(units.IP), law.Drop(q, air.Standard()).Show(units.IP))
	fmt.Println(law.Source)
	// Output:
	// 288 fpm 0.003 in. w.c.
	// Idelchik, diagram 8-1, at a free area of 0.75 (bar grille, usual 0.70 to 0.80, common practice, no source)
}

func ExampleRectangleFor() {
	width, err := duct.RectangleFor(16*units.Inch, 10*units.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(width.Show(units.IP))
	// Output: 22.28 in
}
