// Package message writes what a person reads, in the person's language. A
// message is the name of an entry of the catalog and its named arguments; it
// becomes a sentence only where it is shown:
//
//	m := message.New("{branch}: the duct drops {drop}.", "branch", b.Name, "drop", d)
//	m.In(units.IP) // "Hall: the duct drops 0.120 in. w.c."
//
// The catalog is one folder of JSON for each language. The English text names an
// entry, so that the code can be read; its English entry may differ from the name,
// for a singular as an example. An entry that a language lacks is written in English.
package message
