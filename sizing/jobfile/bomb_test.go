package jobfile

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
)

// TestRead_Bombs: texts that no house fills are refused in time and in
// memory, and what is said of them is short.
func TestRead_Bombs(t *testing.T) {
	const start = `{"schema": 1, "design_airflow": "1200 cfm", `
	rep := func(text string, bytes int) string { return strings.Repeat(text, bytes/len(text)) }
	list := func(text string) string { return strings.TrimSuffix(rep(text+",", LargestFile-200), ",") }
	for name, text := range map[string]string{
		"unknown names":  start + list(`"x":1`) + "}",
		"one long name":  start + `"` + rep("x", LargestFile-100) + `": 1}`,
		"a long text":    start + `"name": "` + rep("x", LargestFile-100) + `"}`,
		"a long number":  start + `"target_face_velocity": "` + rep("1", LargestFile-100) + ` fpm"}`,
		"branches":       start + `"returns": [` + list(`{"grille":{"width":"20 in","height":"20 in"}}`) + "]}",
		"bad branches":   start + `"returns": [` + list(`{}`) + "]}",
		"bad filters":    start + `"filters": [` + list(`{"nme":1}`) + "]}",
		"options":        start + `"options": [` + list(`{"name":"a","filter":"b"}`) + "]}",
		"wrong kinds":    start + `"filters": [` + list(`1`) + "]}",
		"nested":         start + `"filters": ` + rep("[", LargestFile/2) + rep("]", LargestFile/2-200) + "}",
		"the same names": start + list(`"name":"a"`) + "}",
		"spaces":         start + rep(" ", LargestFile-100) + "}",
	} {
		require.LessOrEqual(t, len(text), LargestFile, name)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		_, err := Read([]byte(text))
		took := time.Since(began)
		runtime.ReadMemStats(&after)
		require.Error(t, err, name)
		require.Less(t, len(err.Error()), 100_000, name)
		require.Less(t, took, 10*time.Second, "%s: several times what a slow and busy machine takes", name)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(300<<20), name)
		t.Logf("%s: %v, %d MB, %d letters told", name, took, (after.TotalAlloc-before.TotalAlloc)>>20, len(err.Error()))
	}
}

// TestRead_Counted: faults past a hundred are counted, and a list that
// is too long is named with its bound.
func TestRead_Counted(t *testing.T) {
	var b strings.Builder
	for i := range 250 {
		fmt.Fprintf(&b, `"x%d": 1, `, i)
	}
	_, err := Read([]byte(`{"schema": 1, ` + b.String() + `"design_airflow": "1200 cfm"}`))
	var faults sizing.FieldErrors
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, sizing.MostFaults+1)
	require.Equal(t, "150 more faults", faults[sizing.MostFaults].Given)
	_, err = Read([]byte(`{"schema": 1, "design_airflow": "1200 cfm", "options": [` + strings.TrimSuffix(strings.Repeat(`{"name": "a"},`, 30), ",") + `]}`))
	require.ErrorContains(t, err, "options: given 30 items; want at most 24")
	_, err = Read([]byte(`{"schema": 1, "design_airflow": "1200 cfm", "name": "` + strings.Repeat("é", 201) + `"}`))
	require.ErrorContains(t, err, "name: given 201 letters; want at most 200")
}
