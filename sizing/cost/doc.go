// Package cost turns blower watts, filters and an upgrade into money.
//
// Payments fall at the end of each year; prices stay as they are today, so the
// discount rate is a real one (interest less inflation). Money is in whatever
// currency the job is in.
//
// Symbols:
//
//	A  money paid each year
//	U  money paid today for the upgrade
//	S  money saved each year
//	i  discount rate a year, as a share: 0.05
//	n  years
//	P  present value
package cost
