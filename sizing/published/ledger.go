package published

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// The ledger is the table of sizing/README.md: a row for each published check
// with its equation, its source and the largest difference seen. Every test
// compares its own row with its own result, so that the table stays true.
var ledger = sync.OnceValues(func() (map[string]float64, error) { return readLedger(Ledger()) })

// Ledger is the file that holds the table.
func Ledger() string { return filepath.Join(Dir(), "..", "sizing", "README.md") }

// readLedger finds the rows "| equation | source | TestX_Published | largest |",
// and those of TestX_Plausible.
func readLedger(path string) (map[string]float64, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	rows := map[string]float64{}
	for _, line := range strings.Split(string(data), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) < 6 {
			continue
		}
		name := strings.Trim(cells[3], " `")
		if !strings.HasSuffix(name, "_Published") && !strings.HasSuffix(name, "_Plausible") {
			continue
		}
		worst, err := strconv.ParseFloat(strings.TrimSpace(cells[4]), 64)
		if err != nil {
			return nil, fmt.Errorf("%s: largest difference of %s: %w", path, name, err)
		}
		rows[name] = worst
	}
	return rows, nil
}

var seen struct {
	sync.Mutex
	worst map[string]float64
}

// record keeps the largest difference of the test, relative to the wanted value
// (or to the tolerance where zero is wanted), and compares it with the ledger
// when the test ends.
func record(t testing.TB, r Row) {
	name, _, _ := strings.Cut(t.Name(), "/")
	scale := math.Abs(r.Want)
	if scale == 0 {
		scale = r.Tolerance
	}
	off := math.Abs(r.Got-r.Want) / scale
	seen.Lock()
	defer seen.Unlock()
	if seen.worst == nil {
		seen.worst = map[string]float64{}
	}
	_, known := seen.worst[name]
	seen.worst[name] = math.Max(seen.worst[name], off)
	rows, err := ledger()
	if err != nil {
		t.Errorf("the table of checks cannot be read: %v", err)
		return
	}
	stated, ok := rows[name]
	if !ok && !known {
		t.Errorf("sizing/README.md has no row for %s", name)
	}
	if ok && off > stated*slack+rounding {
		t.Errorf("sizing/README.md says that %s differs by %.2g at most; it differs by %.2g", name, stated, off)
	}
	if !known && t.Name() == name {
		t.Cleanup(func() { checkSlack(t, name, stated) })
	}
}

// Differences under rounding count as zero, and a stated difference may
// be up to three times the one seen: another machine rounds otherwise.
const (
	rounding = 1e-12
	slack    = 3
)

// checkSlack reports a row that states a much larger difference than there is.
func checkSlack(t testing.TB, name string, stated float64) {
	seen.Lock()
	worst := seen.worst[name]
	seen.Unlock()
	if stated > worst*slack+rounding && !t.Failed() {
		t.Errorf("sizing/README.md says that %s differs by %.2g; it differs by only %.2g", name, stated, worst)
	}
}
