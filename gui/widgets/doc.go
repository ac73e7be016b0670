// Package widgets holds the small pieces that every screen builds on: buttons
// and lists that report the keyboard, hover and focus, the icon of a severity,
// layouts. The larger ones have packages of their own: fields, blowertable,
// chart, airpath, table, notices.
package widgets
