// Package jobfile reads and writes jobs. A job is one UTF-8 JSON file,
// *.job.json, with "schema": 1; quantities are strings with their unit
// ("design_airflow": "1200 cfm") and names are the trade's terms in snake_case.
//
// Reading is strict and complete: every fault of a file comes back at once as
// sizing.FieldErrors, each with its path, what was given and what is wanted. A
// text that is not JSON at all comes back as a *SyntaxError with its line.
//
// Writing is exact: quantities are spelled so that they read back bit for bit,
// in the unit in which a person would have typed them.
//
// A demonstration for a class is another such file, *.lesson.json, read and
// written in the same way; its house is a job inside it.
//
// It touches the disk in Load, Save and their like for demonstrations; of the
// other rooms of the engine only the library does.
package jobfile

//go:generate go test -run TestDescriptions_Golden -update .
