package sizing

import "testing"

func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		name string
		job  Job
	}{{"least", least()}, {"two_returns", twoReturns()}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(c.job); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
