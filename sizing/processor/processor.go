// Package processor is test support: it lets a benchmark report the processor time
// of an operation beside the time on the wall, which on a machine that others use
// says more about them.
package processor

import "testing"

// Report starts counting; what it gives back ends the count and reports the
// process's time an operation, that of its garbage collector among it. Call it
// right before the loop of the benchmark:
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
