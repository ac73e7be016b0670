package judge

import (
	"returnbench/sizing/house"
	"returnbench/sizing/study"
)

// judgeSeat reports a frame that buckles out of its seat.
func judgeSeat(h *house.House, o *study.OptionResult) *study.Finding {
	const source = "draw-in (4/3) w^2/L of a bowed plate's edges; the bow is an estimate by bracing"
	switch {
	case o.Clean.LeftSeat:
		return study.Raise(study.Caution, "frame_leaves_seat", source,
			"The filter bows {bow} under a push of {push}: its frame can buckle out of its seat. Use a braced filter or a track that covers more of the edge.",
			"bow", o.Clean.FrameBow, "push", o.Clean.FramePush)
	case o.Loaded.LeftSeat:
		return study.Raise(study.Caution, "frame_leaves_seat", source,
			"The dirty filter bows {bow} under a push of {push}: its frame can buckle out of its seat. Use a braced filter, a track that covers more of the edge, or change it sooner.",
			"bow", o.Loaded.FrameBow, "push", o.Loaded.FramePush)
	}
	return nil
}
