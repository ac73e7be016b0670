// Package gui is the window of the bench: the shell with its menu, its files and
// its settings, the strip with the decision above every place, and the column of
// places in the order of the work. A place is one screen of the window. The Job
// is in gui/session; each place is a package of its own that uses the session
// through a small interface. Nothing here computes what belongs in a Study.
//
// The package needs no display: with the toolkit's test application it draws
// the whole window into a picture.
package gui
