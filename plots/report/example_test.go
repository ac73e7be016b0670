package report_test

import (
	"bytes"
	"fmt"

	"returnbench/plots/report"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

func ExampleWrite() {
	job := sizing.Job{Schema: sizing.Schema, Name: "An invented house", DesignAirflow: 1200 * units.CFM}
	study, err := sizing.Solve(job)
	if err != nil {
		fmt.Println(err)
		return
	}
	var pages bytes.Buffer
	err = report.Write(&pages, job, study, report.Options{For: report.WorkOrder, Paper: report.A4, Date: "2026-03-05"})
	fmt.Println(err, bytes.HasPrefix(pages.Bytes(), []byte("%PDF-")))
	// Output: <nil> true
}
