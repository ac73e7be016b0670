package notices

import (
	"strings"

	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// titles are what problems are called at the head of what is said of them: short,
// and in the words of the trade.
var titles = map[sizing.Problem]message.ID{
	sizing.AirflowShort: "Airflow short of design",
	"airflow_low":       "Airflow too low for the coil",
	sizing.AirflowHigh:  "Airflow too high for the coil",
	sizing.StaticHigh:   "External static over the rating",
	sizing.OffTable:     "Blower outside its table",
	"reading_off_table": "Reading outside the blower's table",

	sizing.Frost:         "Coil freezes",
	sizing.FrostRisk:     "Coil may freeze",
	sizing.RiseHigh:      "Temperature rise too high",
	"rise_high_assumed":  "Temperature rise may be too high",
	sizing.RiseLow:       "Temperature rise too low",
	"rise_low_assumed":   "Temperature rise may be too low",
	"supply_cool":        "Supply air cool in heating",
	sizing.FaceVelocity:  "Face velocity too high",
	sizing.FilterDrop:    "Filter drop too high",
	sizing.FilterLeak:    "Air leaks past the filter",
	"frame_leaves_seat":  "Filter frame bows off its seat",
	"merv":               "Filter too coarse for the requirement",
	"coarser_than_today": "Filter coarser than today's",
	"coarser_than_next":  "Filter coarser than the runner-up's",

	"tap_cooling":      "Blower tap in cooling",
	"tap_heating":      "Blower tap in heating",
	"speed_up":         "Blower wheel faster than its table",
	"speed_far":        "Blower speed far from its table",
	"undersized_parts": "Undersized parts of the return",
	"duct_velocity":    "Duct velocity too high",
	"duct_friction":    "Duct friction too high",

	"wall": "Grille too large for its wall",

	"flex_range":    "Slack flex outside its equation",
	"watts_assumed": "Blower watts assumed",
	"watts_unlike":  "Blower watts from another source than today's",
	"stud_bay":      "Grille too wide for its stud bay",
	"room":          "Cabinet too large for its room",
	"depth":         "Cabinet too deep for its room",
	"over_budget":   "Work over the budget",

	"cost_unknown":   "Price of work not known",
	"upgrade_hurts":  "Option that makes something worse",
	"upgrade_mixed":  "Option with gains and losses",
	"upgrade_unsure": "Option not surely better",
	"assumed":        "Values assumed, not measured",

	"unexplained_loss":   "Unexplained loss in the return",
	"return_unlike":      "Return reads other than described",
	"filter_found":       "Filter dirty when it was read",
	"filter_reads_low":   "Filter reads lower than a clean one",
	"reading_part":       "Part that reads other than expected",
	"reading_airflow":    "Measured airflow differs",
	"reading_port":       "Test port that reads other than expected",
	"reading_other":      "Power or temperature reading differs",
	"signs_mixed":        "Signs of the readings mixed",
	"ports_swapped":      "Test ports swapped",
	"inside_handler":     "Reading from inside the air handler",
	"filter_sum":         "Filter readings do not add up",
	"filter_over_return": "Filter reads more than the whole return",

	"title24_efficacy":   "Energy code: fan efficacy",
	"title24_airflow":    "Energy code: airflow",
	"title24_unmeasured": "Energy code: airflow and power not measured",
	"title24_merv":       "Energy code: MERV",
	"title24_face":       "Energy code: filter face",
	"title24_drop":       "Energy code: filter drop",
	"title24_grilles":    "Energy code: filter grilles",
	"title24_ducts":      "Energy code: return ducts",
	"title24_run":        "Energy code: length of the return",
	"title24_bends":      "Energy code: bends of the return",
	"title24_table_drop": "Energy code: filter drop by its table",
	"ashrae622_merv":     "ASHRAE 62.2: MERV",
	"ifgc_return_area":   "Fuel gas code: return area",
}

// Title is what a problem is called, in the language of the window.
func Title(p sizing.Problem) string {
	if title, ok := titles[p]; ok {
		return lang.T(title)
	}
	// No such problem is raised today; a file of a later version may hold one.
	words := strings.TrimSpace(string(p.Words()))
	if words == "" {
		return ""
	}
	return strings.ToUpper(words[:1]) + words[1:]
}
