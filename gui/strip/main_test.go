package strip

import (
	"os"
	"testing"

	"returnbench/gui/guitest"
)

func TestMain(m *testing.M) { os.Exit(guitest.Main(m)) }
