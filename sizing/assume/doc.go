// Package assume fills what a job leaves open with usual values and notes each
// one, so that a Study can list its assumptions. A value is common practice unless
// its source names another.
package assume
