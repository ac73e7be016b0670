package sizing_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/processor"
	"returnbench/sizing/published"
)

// The largest example by the independent solver, in processor time: what several
// copies take beyond one, so that Python's start is not counted. It solves today
// and the options and marches their dust; the engine's Study, with its sizes,
// findings and curves, does more.
func BenchmarkHouseByScript(b *testing.B) {
	names, jobs := exampleJobs(b)
	job := jobs[0]
	for i, name := range names {
		if name == "one-inch-slot.job.json" {
			job = jobs[i]
		}
	}
	study, err := sizing.Solve(job)
	require.NoError(b, err)
	python := solverPython(b)
	const copies = 5
	for b.Loop() {
		_, one := scripted(b, python, job, study, 1)
		answers, many := scripted(b, python, job, study, 1+copies)
		for _, a := range answers {
			agrees(b, study, a)
		}
		b.ReportMetric(float64((many-one).Nanoseconds())/copies, "processor-ns/op")
	}
}

// BenchmarkHouseByEngine is the same house and all of its Study.
func BenchmarkHouseByEngine(b *testing.B) {
	names, jobs := exampleJobs(b)
	for i, name := range names {
		if name != "one-inch-slot.job.json" {
			continue
		}
		defer processor.Report(b)()
		for b.Loop() {
			if _, err := sizing.Solve(jobs[i]); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// scripted gives the independent solver so many copies of a job.
func scripted(b *testing.B, python string, job sizing.Job, study *sizing.Study, copies int) ([]solverAnswer, time.Duration) {
	entries := make([]solverEntry, copies)
	for i := range entries {
		entries[i] = solverEntry{Job: job, MakeLaws: makeLaws(job, study)}
	}
	in, err := json.Marshal(map[string]any{"jobs": entries})
	require.NoError(b, err)
	cmd := exec.Command(python, "-B", filepath.Join(published.Dir(), "house_solver", "solve.py"))
	cmd.Stdin = bytes.NewReader(in)
	out, err := cmd.Output()
	require.NoError(b, err)
	var answers []solverAnswer
	require.NoError(b, json.Unmarshal(out, &answers))
	require.Len(b, answers, copies)
	return answers, cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
}

// agrees holds the airflow, static and watts of each option to 0.1 %;
// TestHouse_Independent holds the rest, of many houses.
func agrees(b *testing.B, study *sizing.Study, a solverAnswer) {
	require.Empty(b, a.Error)
	for i := range a.Options {
		want := &a.Options[i].Clean
		got := &study.Option(a.Options[i].Name).Clean
		for _, v := range [][2]float64{{got.Airflow.SI(), want.Airflow}, {got.ExternalStatic.SI(), want.ExternalStatic}, {got.BlowerPower.SI(), want.BlowerPower}} {
			require.LessOrEqual(b, math.Abs(v[0]/v[1]-1), 1e-3, a.Options[i].Name)
		}
	}
}
