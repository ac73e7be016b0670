package calculations

import (
	"returnbench/sizing/job"
	"returnbench/sizing/study"
)

// speedStep is the step by the fan laws, for an option with a blower speed factor.
func (s *calculation) speedStep(o *study.OptionResult, c *study.Condition) []study.Step {
	if o.SpeedRatio == 0 || o.SpeedRatio == 1 {
		return nil
	}
	numbers, args := "n %.3f, n^2 %.3f, n^3 %.3f", []any{o.SpeedRatio, o.SpeedRatio * o.SpeedRatio, o.SpeedRatio * o.SpeedRatio * o.SpeedRatio}
	result := any(job.TapName(o.Tap))
	if c.BlowerSpeed > 0 {
		numbers += "; the wheel then turns at %v"
		args = append(args, c.BlowerSpeed)
	}
	return []study.Step{study.NewStep("The tap's table with its wheel turned n times as fast.", "Q ~ n, p ~ n^2, W ~ n^3; new pulley / old pulley on the motor",
		"fan laws, textbook: same wheel, same air; fair from 0.8 to 1.2, the motor's efficiency taken as unchanged", result, numbers, args...)}
}
