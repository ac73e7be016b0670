// Package airpath joins the parts of a house's air path into one system: return
// branches in parallel, then the filter, coil and supply in series, and finds
// the operating point of that system and the blower.
//
//	symbol   meaning                                   unit
//	q        volume flow                               m3/s
//	p        pressure drop of a part                   Pa
//	es       external static pressure of the blower    Pa
//
// Everything here is SI float64: these are the innermost loops of the engine.
package airpath
