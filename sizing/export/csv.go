package export

import (
	"encoding/csv"
	"io"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// machine is how files for programs are written: English, with a decimal point.
func machine(l units.Locale) units.Locale { return units.IP.With(l.System) }

// CSV writes the options (each with a clean and a loaded filter) and, after an
// empty line, the sizes; headings hold the units. It is English with a decimal point,
// whatever the language of the locale.
func CSV(w io.Writer, s *sizing.Study, sys units.Locale) error {
	if err := OptionsCSV(w, s, sys); err != nil {
		return err
	}
	if _, err := io.WriteString(w, "\n"); err != nil {
		return err
	}
	return SizesCSV(w, s, sys)
}

// OptionsCSV writes the options alone.
func OptionsCSV(w io.Writer, s *sizing.Study, sys units.Locale) error {
	return flushed(w, table[optionRow]{optionFull, optionRows(s), machine(sys)}.csv)
}

// SizesCSV writes the sizes alone.
func SizesCSV(w io.Writer, s *sizing.Study, sys units.Locale) error {
	rows, err := sizeRows(s)
	if err != nil {
		return err
	}
	return flushed(w, table[sizeRow]{sizeColumns(machine(sys)), rows, machine(sys)}.csv)
}

func flushed(w io.Writer, write func(*csv.Writer) error) error {
	c := csv.NewWriter(w)
	if err := write(c); err != nil {
		return err
	}
	c.Flush()
	return c.Error()
}
