// Command returnbench opens the workbench, or runs one verb without a window.
//
// Exit status: 0 done; 1 the job is at fault; 2 wrong usage; 3 the disk or the
// machine is at fault.
package main

import (
	"os"

	_ "returnbench/gui/toolkit"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
