//go:build e2e

package main

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"
)

// patience is a context that ends when a machine which does nothing else would have
// had so long. Where more wants to run than there are processors, time passes as
// much slower: what is waited for is then late, not lost.
func patience(d time.Duration) (context.Context, context.CancelFunc) {
	ctx, cancel := context.WithCancel(context.Background())
	go func() {
		const step = 250 * time.Millisecond
		for left, last := d, time.Now(); left > 0; {
			select {
			case <-ctx.Done():
				return
			case <-time.After(step):
			}
			left -= time.Duration(float64(time.Since(last)) / crowd())
			last = time.Now()
		}
		cancel()
	}()
	return ctx, cancel
}

// crowd is how many want each processor now, and no less than one.
func crowd() float64 {
	text, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return 1
	}
	var running, all, recent float64
	if fields := strings.Fields(string(text)); len(fields) > 3 {
		fmt.Sscanf(fields[0], "%f", &recent)
		fmt.Sscanf(fields[3], "%f/%f", &running, &all)
	}
	return max(1, max(running, recent)/float64(runtime.NumCPU()))
}
