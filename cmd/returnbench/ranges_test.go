package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestStudyRanges: the number of samples may stand after the flag, with
// a sign of equality, or not at all; the seed decides what they are.
func TestStudyRanges(t *testing.T) {
	job := jobFile("least")
	samples := func(args ...string) (outcome, int) {
		r := returnbench(t, "", append([]string{"study", "--json"}, args...)...)
		require.Equal(t, 0, r.status, r.err)
		var doc struct {
			Ranges struct {
				Samples int `json:"samples"`
			} `json:"ranges"`
		}
		require.NoError(t, json.Unmarshal([]byte(r.out), &doc))
		return r, doc.Ranges.Samples
	}
	for _, x := range []struct {
		args []string
		want int
	}{
		{[]string{job}, 0},
		{[]string{job, "--ranges"}, 200},
		{[]string{"--ranges", job}, 200},
		{[]string{job, "--ranges", "--seed", "3"}, 200},
		{[]string{job, "--ranges", "25"}, 25},
		{[]string{"--ranges=25", job}, 25},
	} {
		_, got := samples(x.args...)
		require.Equal(t, x.want, got, "%v", x.args)
	}
	first, _ := samples(job, "--ranges", "30", "--seed", "9")
	again, _ := samples(job, "--ranges", "30", "--seed", "9")
	other, _ := samples(job, "--ranges", "30", "--seed", "10")
	require.Equal(t, first, again)
	require.NotEqual(t, first, other)

	text := returnbench(t, "", "study", job, "--ranges", "30")
	require.Equal(t, 0, text.status)
	require.Contains(t, text.out, "How well that is known")
	for _, bad := range []string{"--ranges=many", "--ranges=3", "--ranges=1e9"} {
		r := returnbench(t, "", "study", job, bad)
		require.Equal(t, 2, r.status)
		require.Contains(t, r.err, "want a whole number from 20")
	}
	require.True(t, strings.Contains(returnbench(t, "", "help", "study").out, "N left out: 200"))
}
