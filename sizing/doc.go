// Package sizing is the engine of the bench: a Job (what a person entered)
// goes in, a Study (all that follows from it) comes out. It draws nothing,
// reads no clock, touches no disk and keeps no state between calls.
//
// Solve reads top to bottom as the trade would explain it: air, design
// airflow, return branches, filter, coil and supply, blower, operating point,
// heat and cold, dust over time, money, sizes, findings.
package sizing
