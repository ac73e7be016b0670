package judge

import (
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
)

// JudgeSpeed reports the motor power of a faster blower, and when the fan laws
// are used beyond their range.
func JudgeSpeed(h *house.House, o, today *study.OptionResult) []study.Finding {
	if o.SpeedRatio == 0 {
		return nil
	}
	const source = "fan laws, power in proportion to the cube of the speed, textbook"
	var out []study.Finding
	if o.SpeedRatio > 1 && o.Clean.BlowerPower > 0 {
		out = append(out, study.NewFinding(study.Caution, "speed_up", source,
			"The blower speed factor is {factor}: the blower draws {power}, {today} today. Check the motor's amps against its nameplate and the wheel's top speed.",
			"factor", message.Fixed(o.SpeedRatio, 2), "power", o.Clean.BlowerPower, "today", today.Clean.BlowerPower))
	}
	if o.SpeedRatio < job.NearRatioLow || o.SpeedRatio > job.NearRatio {
		out = append(out, study.NewFinding(study.Caution, "speed_far", source,
			"The blower speed factor is {factor}, far from the table: the motor's efficiency changes too, so the watts are a guess. Measure them.", "factor", message.Fixed(o.SpeedRatio, 2)))
	}
	return out
}
