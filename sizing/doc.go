// Package sizing is the front door of the engine of the bench: a Job (what a
// person entered) goes in, a Study (all that follows from it) comes out. It draws
// nothing, reads no clock, touches no disk and keeps no state between calls.
//
// Solve reads top to bottom as the trade would explain it. The rooms behind it
// are packages below this one, each with one purpose:
//
//	job           what a person entered, and its checks
//	fieldpath     a field of a job by its path, and how it is described
//	assume        usual values for what is left open
//	study         the results, as data
//	house         the house made ready, and its operating points
//	money         a year and ten years in money
//	fit           what the house has room for
//	judge         findings held to limits
//	readings      the gauge beside the prediction
//	option        one option solved whole
//	search        nominal sizes
//	upgrade       changes that reach an airflow
//	pleats        sweeps over pleats
//	perturb       one sample moved within its uncertainty
//	sampling      many samples
//	compare       options side by side, and ranges
//	recommend     the option to take
//	calculations  the steps behind a number
//
// Programs import this package alone; names.go gives them the names of the rooms.
package sizing
