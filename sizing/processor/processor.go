// Package processor is test support: it lets a benchmark report the processor time
// of an operation beside the elapsed time, which on a shared machine depends on
// the other programs.
package processor

import "testing"

// Report starts counting; the function that it returns ends the count and
// reports the process's time for one operation, with that of its garbage
// collector. Call it right before the loop of the benchmark:
//
//	defer processor.Report(b)()
//	for b.Loop() { ... }
func Report(b *testing.B) (end func()) {
	from, known := nanoseconds()
	return func() {
		if to, _ := nanoseconds(); known && b.N > 0 {
			b.ReportMetric(float64(to-from)/float64(b.N), "processor-ns/op")
		}
	}
}
