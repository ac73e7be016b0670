// Package sizing is the front door of the engine of the bench: a Job (what a
// person entered) goes in, a Study (all that follows from it) comes out. It draws
// nothing, reads no clock and touches no disk. Equal jobs give equal Studies; what is
// kept between calls (a Solver's filter laws, the bow of a frame by its side ratio)
// only saves time.
//
// Solve reads top to bottom in the order in which the trade would explain it.
// The packages below this one, each with one purpose, do its work:
//
//	job           what a person entered, and its checks
//	fieldpath     a field of a job by its path, and how it is described
//	quote         what the proposal and the work order of a job need: customer, nameplate, price lines
//	assume        usual values for what is left open
//	study         the results, as data
//	house         the house ready to solve, and its operating points
//	money         a year and ten years in money
//	fit           what fits the openings and the room of the house
//	judge         findings: each option compared with its limits
//	readings      gauge readings compared with the prediction
//	option        one option solved, clean and loaded
//	search        nominal sizes
//	upgrade       changes that reach an airflow
//	pleats        sweeps over pleats
//	perturb       the inputs of one sample changed within their uncertainty
//	sampling      many samples
//	compare       options side by side, and ranges
//	recommend     the option to take
//	calculations  the steps behind a number
//	air, duct, filter, blower, airpath, thermal, stock, cost
//	              the parts: one equation, one place
//	root, leastsquares
//	              numerical work that the parts share
//	units         quantities
//	message       what a person reads, in the person's language
//
// Programs import these packages directly:
//
//	jobfile       jobs and demonstrations on a disk
//	library       a firm's filters, blowers, cabinets, sizes and prices
//	homes         lists of homes
//	lesson        demonstrations for a class
//	export        a Study as JSON, CSV, workbook and text
//
// Programs that solve a Job import this package: names.go repeats the names of the
// packages below that they need. For a part's own types (duct.Run, filter.Filter,
// blower.Table), quantities and messages they import that package too.
package sizing
