// Package lesson is the place for demonstrations in front of a class: the list
// of them, the question with what one may predict, the one move, and what the
// engine makes of it. A Show is what is going on, without the toolkit; Screen
// draws it, and Editor makes a demonstration of one's own.
package lesson
