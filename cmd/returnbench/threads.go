//go:build !headless && !checkthreads

package main

// checksThreads is whether the toolkit holds every call to the thread that it was
// made on. It reads the stack of each refresh for that, which takes a third of what
// the window does of its own; the tests of the window are built with it.
const checksThreads = false
