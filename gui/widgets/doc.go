// Package widgets holds the bench's own pieces of screen: fields that read and
// write quantities in any unit, findings, tables, charts with a read-out and
// the drawing of the airpath. They know the units and the Study; they do no
// physics and keep no model of their own: each reads its value through a
// function and hands a typed change to another.
//
// Every fault and every assumed value is told in words, never by colour alone,
// and everything that can be clicked can be reached by keyboard.
package widgets
