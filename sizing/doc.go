// Package sizing is the front door of the engine of the bench: a Job (what a
// person entered) goes in, a Study (all that follows from it) comes out. It draws
// nothing, reads no clock and touches no disk. Equal jobs give equal Studies; what is
// kept between calls (a Solver's filter laws, the bow of a frame by its side ratio)
// only saves time.
//
// Solve reads top to bottom as the trade would explain it. The rooms behind it
// are packages below this one, each with one purpose:
//
//	job           what a person entered, and its checks
//	fieldpath     a field of a job by its path, and how it is described
//	quote         what the papers of a job say: customer, plate, price lines
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
//	air, duct, filter, blower, airpath, thermal, stock, cost
//	              the parts: one equation, one place
//	root, leastsquares
//	              numerical work that the parts share
//	units         quantities
//	message       what a person reads, in his language
//
// Programs reach these packages by themselves, without this one being in between:
//
//	jobfile       jobs and demonstrations on a disk
//	library       a firm's filters, blowers, cabinets, sizes and prices
//	homes         lists of homes
//	lesson        demonstrations for a class
//	export        a Study as JSON, CSV, workbook and text
//
// Programs that want a Job solved import this package: names.go gives them the names
// of the rooms. For a part's own types (duct.Run, filter.Filter, blower.Table),
// quantities and messages they import that package too.
package sizing
