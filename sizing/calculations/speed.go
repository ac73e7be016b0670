package calculations

import (
	"returnbench/sizing/message"
	"returnbench/sizing/study"
)

// speedStep is the step by the fan laws, for an option with a blower speed factor.
func (s *calculation) speedStep(o *study.OptionResult, c *study.Condition) []study.Step {
	if o.SpeedRatio == 0 || o.SpeedRatio == 1 {
		return nil
	}
	numbers := message.ID("n {n}, n^2 {square}, n^3 {cube}")
	if c.BlowerSpeed > 0 {
		numbers = "n {n}, n^2 {square}, n^3 {cube}; the wheel then turns at {speed}"
	}
	n := o.SpeedRatio
	return []study.Step{study.NewStep("The tap's table with its wheel turned n times as fast.", "Q ~ n, p ~ n^2, W ~ n^3; new pulley / old pulley on the motor",
		"fan laws, textbook: same wheel, same air; fair from 0.8 to 1.2, the motor's efficiency taken as unchanged", s.Blower.TapAtSpeed(o.Tap, n),
		numbers, "n", message.Fixed(n, 3), "square", message.Fixed(n*n, 3), "cube", message.Fixed(n*n*n, 3), "speed", c.BlowerSpeed)}
}
