// Package judge compares each option and the house with their limits and writes the
// findings: the equipment's nameplate, common practice, and the published sets that
// a job ticks. A check is never a permit.
package judge
