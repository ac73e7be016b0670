// Package library keeps what a firm uses from job to job: filters, blower tables
// with the equipment they belong to, cabinets, grilles, nominal sizes, prices and
// job templates.
//
// A library is a folder of plain files, one item a file, in a folder for each
// kind, so that any file sync can carry it from machine to machine:
//
//	filters/pleat-4-in-merv-11.json
//	blowers/...  cabinets/...  grilles/...  sizes/...  prices/...
//	templates/two-returns.job.json
//
// A file is JSON that a person can read and write. It has "schema": 1 and one
// object with the fields of a job's file, under the kind's name; a template is a
// job's file. A file that cannot be read is named and left out, and the rest is
// used. Nothing in a job points into the library: what is taken from it is
// copied, so that a job opens the same where there is no library.
package library
