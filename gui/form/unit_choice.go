package form

import (
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// Measured adds a quantity that the trade reads here in another unit than the
// usual one: feet of duct, hours a year. Zero says the same as an empty field.
func Measured[T quantity](b *Builder, path string, label message.ID, at func(*sizing.Job) *T, ip, si string, given ...QuantityOptions) {
	var options QuantityOptions
	if len(given) > 0 {
		options = given[0]
	}
	options.in, options.zeroIsOpen = [2]string{ip, si}, true
	Quantity(b, path, label, at, options)
}
