// Package assets embeds the data that ships with the program: generic filters
// to choose from, and what else a person opens without having made it. All of
// it is invented and says so; nothing here is a maker's.
//
// The engine never reads this package: nominal sizes and generic blowers,
// which it computes with, live beside their code.
package assets
