package judge

import (
	"returnbench/sizing/house"
	"returnbench/sizing/job"
	"returnbench/sizing/study"
)

// JudgeSpeed says what a faster wheel asks of the motor, and when the fan laws
// are stretched.
func JudgeSpeed(h *house.House, o, today *study.OptionResult) []study.Finding {
	if o.SpeedRatio == 0 {
		return nil
	}
	const source = "fan laws, power in proportion to the cube of the speed, textbook"
	var out []study.Finding
	if o.SpeedRatio > 1 && o.Clean.BlowerPower > 0 {
		out = append(out, study.NewFinding(study.Caution, "speed_up", source,
			"The wheel turns %.2f times as fast and the blower takes %v where it takes %v today: hold the motor's amperes to its nameplate, and the wheel to its highest speed.",
			o.SpeedRatio, o.Clean.BlowerPower, today.Clean.BlowerPower))
	}
	if o.SpeedRatio < job.NearRatioLow || o.SpeedRatio > job.NearRatio {
		out = append(out, study.NewFinding(study.Caution, "speed_far", source,
			"The speed is %.2f times that of the table: the fan laws hold for the wheel, but the motor's efficiency moves too, so its watts are a guess.", o.SpeedRatio))
	}
	return out
}
