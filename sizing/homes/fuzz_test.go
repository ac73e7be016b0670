package homes

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzRow reads any cell in any column: a home or faults, never both, and each
// fault names a column.
func FuzzRow(f *testing.F) {
	for i, c := range columns {
		f.Add(uint(i), sample(c))
		f.Add(uint(i), "1/0 in")
	}
	f.Add(uint(0), "\x00")
	f.Fuzz(func(t *testing.T, at uint, cell string) {
		c := &columns[at%uint(len(columns))]
		hd := &heading{cells: []string{c.Name}, uses: []use{{column: c}}}
		h, faults := hd.read([]string{cell})
		for _, fault := range faults {
			require.NotEmpty(t, fault.Column)
			require.NotEmpty(t, fault.Reason)
		}
		if faults != nil {
			return
		}
		_, err := h.safely()
		require.False(t, errors.Is(err, errSolver), "%v", err)
		if err != nil {
			for _, fault := range h.faults(err, hd.uses) {
				require.NotEmpty(t, fault.Reason)
			}
		}
	})
}

// FuzzScreen reads any list: the rows written are as many as were read, hold
// the list's own cells, and are complete enough to go on from.
func FuzzScreen(f *testing.F) {
	f.Add("name,design_airflow\nx,1200 cfm\n")
	f.Add("\xef\xbb\xbfname,slot\r\n\"a\r\r\nb\",16x25x1\"\r\n")
	f.Add("name\n\"\n\"\"\"\r\n\\.\n,,\n")
	f.Add("design_airflow [cfm],option_slot\n1200,20x25x4\n1,\n")
	f.Fuzz(func(t *testing.T, list string) {
		if strings.Count(list, "\n") > 20 {
			return
		}
		var out bytes.Buffer
		s, err := Screen(context.Background(), strings.NewReader(list), &out, Options{Workers: 1})
		if err != nil {
			var fault *ListError
			require.ErrorAs(t, err, &fault)
			return
		}
		rows, end, err := Complete(bytes.NewReader(out.Bytes()))
		require.NoError(t, err)
		require.Equal(t, s.Homes, rows)
		require.EqualValues(t, out.Len(), end)
		var more bytes.Buffer
		again, err := Screen(context.Background(), strings.NewReader(list), &more, Options{Done: bytes.NewReader(out.Bytes())})
		require.NoError(t, err)
		require.Empty(t, more.String())
		require.Equal(t, s, again)
		all, err := csv.NewReader(&out).ReadAll()
		require.NoError(t, err)
		for _, r := range all[1:] {
			require.False(t, slices.ContainsFunc(r, func(c string) bool { return strings.Contains(c, errSolver.Error()) }))
		}
	})
}

// FuzzHeading reads any heading: columns, or an error that names what is wrong.
func FuzzHeading(f *testing.F) {
	f.Add("name,design_airflow [cfm]")
	f.Add("slot,slot [x")
	f.Add("option_slot [in,,[] []")
	f.Fuzz(func(t *testing.T, line string) {
		cells := strings.Split(line, ",")
		h, err := readHeading(cells)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.Len(t, h.cells, len(cells))
	})
}
