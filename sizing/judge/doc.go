// Package judge holds each option and the house to their limits and writes the
// findings: the equipment's nameplate, common practice, and the published sets that
// a job ticks. A check is never a permit.
package judge
