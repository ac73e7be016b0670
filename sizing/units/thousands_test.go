package units

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDollarsKeepTheirDigits(t *testing.T) {
	for number, want := range map[string][2]string{
		"0": {"$0", "$0"}, "999": {"$999", "$999"}, "1000": {"$1,000", "$1.000"}, "15688": {"$15,688", "$15.688"},
		"-1210": {"-$1,210", "-$1.210"}, "1234567": {"$1,234,567", "$1.234.567"},
	} {
		require.Equal(t, want[0], IP.Dollars(number))
		require.Equal(t, want[1], Locale{Comma: true}.Dollars(number))
	}
	require.Equal(t, "$1,234.50", IP.Dollars("1234.50"))
	require.Equal(t, "$1.234,50", Locale{Comma: true}.Dollars("1234,50"))
}
