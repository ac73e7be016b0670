package message_test

import (
	"testing"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

func BenchmarkText(b *testing.B) {
	for name, l := range map[string]units.Locale{"English": units.IP, "Spanish": spanish} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				message.Text(l, "External static is {static}, within the rated {rated}.", "static", 0.4*units.InchWater, "rated", 0.5*units.InchWater)
			}
		})
	}
}

func BenchmarkEntries(b *testing.B) {
	for b.Loop() {
		message.Entries("es")
	}
}
