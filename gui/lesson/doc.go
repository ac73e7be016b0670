// Package lesson is the place for demonstrations in front of a class: their
// list, the question with its predictions, the one move, and the engine's
// result. A Show is the state of a demonstration, without the toolkit; Screen
// draws it, and an editor makes new demonstrations.
package lesson
