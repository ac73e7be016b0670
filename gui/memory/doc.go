// Package memory has the C library give memory back to the system while the window
// is open. Import it for this effect; it exports nothing.
//
// The window's renderer takes its pictures from the C heap. By its own rule the GNU
// C library serves ever larger pieces from that heap once a large one was given
// back, up to 32 MB, and the holes that pictures leave there stay with the program.
package memory
