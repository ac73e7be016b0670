// Package lesson has the demonstrations for a class: an invented house, a
// question, predictions to choose from, one move, and the explanation.
//
// A lesson's file does not state which prediction is right, and its texts
// contain no results: the house is solved at the settings of the move, the
// claims of each prediction are compared with the results, and the explanation
// has {placeholders} for numbers. So a lesson stays true when the engine or the
// house changes.
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
//	Goes      how a number changes with the move: up, down, level, ...
//	State     which state of the filter is looked at: clean or loaded
//	Chart     the picture that shows the answer
package lesson
