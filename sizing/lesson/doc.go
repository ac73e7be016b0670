// Package lesson holds demonstrations for a class: an invented house, a
// question, what one may predict, one move to make, and the explanation.
//
// Nothing in a lesson says which prediction is right, and no number stands in
// its words: the house is solved at the settings of the move, the claims of
// each prediction are held against what comes out, and the explanation names
// numbers by {placeholders}. A change of the engine or of the house can
// therefore not leave a lesson telling what is no longer so.
//
//	Lesson    what a file holds
//	Setting   one position of the move: a job, and the option of it that is shown
//	SolvedSetting
//	          the house solved at a setting
//	Outcome   the SolvedSettings along the move: it judges and explains
//
// Words of a lesson:
//
//	Number    a headline number of a SolvedSetting, such as airflow
//	Goes      how a number answers to the move: up, down, level, ...
//	State     which state of the filter is looked at: clean or loaded
//	Chart     the picture that shows the answer
package lesson
