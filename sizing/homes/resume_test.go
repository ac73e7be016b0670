package homes

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestResume_Identity: cut anywhere, a run that is gone on with ends with the
// bytes and the summary of an unbroken one.
func TestResume_Identity(t *testing.T) {
	list := small(t) + strings.SplitAfterN(small(t), "\n", 2)[1]
	whole, want := screened(t, list, Options{})
	rapid.Check(t, func(t *rapid.T) {
		cut := whole[:rapid.IntRange(0, len(whole)).Draw(t, "bytes")]
		rows, end, err := Complete(strings.NewReader(cut))
		require.NoError(t, err)
		out := bytes.NewBufferString(cut[:end])
		opts := Options{}
		if end > 0 {
			opts.Done = strings.NewReader(cut[:end])
			opts.Progress = func(done int) { require.GreaterOrEqual(t, done, rows) }
		}
		got, err := Screen(context.Background(), strings.NewReader(list), out, opts)
		require.NoError(t, err)
		require.Equal(t, whole, out.String())
		require.Equal(t, want, got)
	})
}

func TestComplete(t *testing.T) {
	for _, c := range []struct {
		text string
		rows int
		end  int64
	}{
		{"", 0, 0},
		{"name,err", 0, 0},
		{"name,error\n", 0, 11},
		{"name,error\na,b", 0, 11},
		{"name,error\na,b\n", 1, 15},
		{"name,error\na,\"two\nlines\"\n", 1, 25},
		{"name,error\na,\"two\n", 0, 11},
		{"name,error\na,\"two\"", 0, 11},
		{"name,error\na,b\n\"", 1, 15},
	} {
		rows, end, err := Complete(strings.NewReader(c.text))
		require.NoError(t, err)
		assert.Equal(t, c.rows, rows, "%q", c.text)
		assert.Equal(t, c.end, end, "%q", c.text)
	}
}

// TestResume_Other: the output of another list, of other units or of
// another file altogether is refused, and nothing is written.
func TestResume_Other(t *testing.T) {
	list := invented(t, 1, 4)
	done, _ := screened(t, list, Options{})
	for name, c := range map[string]struct{ list, done, want string }{
		"changed list": {strings.Replace(list, "invented home 3", "invented home three", 1), done, "line 4 of the earlier output is not of line 4 of the list"},
		"shorter list": {strings.Join(strings.SplitAfter(list, "\n")[:3], ""), done, "more rows than the list"},
		"other file":   {list, "a,b\n1,2\n", "another heading"},
		"other units":  {list, strings.Replace(done, "study_airflow [cfm]", "study_airflow [L/s]", 1), "another heading"},
		"empty":        {list, "", "empty"},
	} {
		var out bytes.Buffer
		_, err := Screen(context.Background(), strings.NewReader(c.list), &out, Options{Done: strings.NewReader(c.done)})
		var fault *ResumeError
		require.ErrorAs(t, err, &fault, name)
		assert.Contains(t, err.Error(), c.want, name)
		assert.Empty(t, out.String(), name)
	}
}

// TestResume_Engine: rows of another engine are not gone on with, and
// the same engine goes on.
func TestResume_Engine(t *testing.T) {
	list := invented(t, 1, 4) + "a row at fault\n"
	done, _ := screened(t, list, Options{Engine: "returnbench 1"})
	var out bytes.Buffer
	_, err := Screen(context.Background(), strings.NewReader(list), &out, Options{Engine: "returnbench 2", Done: strings.NewReader(done)})
	var fault *ResumeError
	require.ErrorAs(t, err, &fault)
	require.ErrorContains(t, err, `by the engine "returnbench 1" and this is "returnbench 2"`)
	require.ErrorContains(t, err, "screen the list anew")
	require.Empty(t, out.String())
	_, err = Screen(context.Background(), strings.NewReader(list), &out, Options{Engine: "returnbench 1", Done: strings.NewReader(done)})
	require.NoError(t, err)
	for _, r := range records(t, done)[1:] {
		require.Equal(t, "returnbench 1", r[len(r)-2])
	}
}
