//go:build !headless && checkthreads

package main

const checksThreads = true
