// Package guitest is test support for the packages of the window: a small
// window around a widget, another theme, and what a widget shows.
package guitest
