// Package assume fills what a job leaves open with usual values and notes each
// one, so that a Study can say what it rests on. A value is common practice unless
// its source says otherwise.
package assume
