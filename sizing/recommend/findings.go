package recommend

import (
	"returnbench/sizing/house"
	"returnbench/sizing/judge"
	"returnbench/sizing/message"
	"returnbench/sizing/study"
)

// JudgeAndRecommend judges the options and the house, compares each option with today, sorts
// all findings and, from these, writes the Study's recommendation.
func JudgeAndRecommend(h *house.House, s *study.Study) {
	AddOptionFindings(h, s)
	for i := range s.Options {
		s.Findings = append(s.Findings, s.Options[i].Findings...)
	}
	s.Findings = append(s.Findings, judge.JudgeHouse(h, s)...)
	s.Findings = append(s.Findings, judge.JudgeTaps(h, s)...)
	s.Findings = append(s.Findings, judge.JudgeReadings(h, s)...)
	judge.WorstFirst(s.Findings)
	s.Recommendation = recommend(s)
}

// AddOptionFindings writes the findings and the verdict of each option, and how
// its problems compare with today's.
func AddOptionFindings(h *house.House, s *study.Study) {
	JudgeOptions(h, s)
	for i := range s.Options {
		CompareWith(&s.Options[i], s.Today(), nil, nil)
	}
}

// JudgeOptions writes the findings and the verdict of each option.
func JudgeOptions(h *house.House, s *study.Study) {
	for i := range s.Options {
		o := &s.Options[i]
		if o.Kind == study.KindNoFilter {
			o.Verdict, o.Why = study.Caution, message.Sentences{message.New("Comparison only: never run the blower without its filter.")}
			continue
		}
		o.Findings = append(judge.OptionFindings(h, o), judge.JudgeSpeed(h, o, s.Today())...)
		for k := range o.Findings {
			o.Findings[k].Option = o.Name
		}
		judge.WorstFirst(o.Findings)
		o.Verdict, o.Why = judge.Verdict(o.Findings)
	}
}
