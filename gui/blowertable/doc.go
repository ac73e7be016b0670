// Package blowertable is the grid in which the rows of a blower's table are typed
// or pasted. How a pasted text is read stands in package paste, without the
// toolkit.
package blowertable
