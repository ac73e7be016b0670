// Package recommend says what each option does to today's problems and which
// option to take: fewest stops, then most problems removed clean and dirty, then no
// coarser filter than today's, then the least cost over ten years.
package recommend
