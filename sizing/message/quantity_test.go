package message_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Every kind of quantity has its words, which are those of the package units in English.
func TestKindsHaveWords(t *testing.T) {
	for _, k := range units.Kinds() {
		assert.Equal(t, message.ID(k.Name), message.KindName(k))
		assert.Equal(t, k.Wanted(), message.WantedOf(k).String())
	}
}

// What a text that is no quantity is reported is in English what its error says.
func TestUnreadQuantities(t *testing.T) {
	seen := map[units.Reason]bool{}
	for _, text := range []string{"", "lots", "1,200 cfm", "1/0 cfm", "1200", "1200 psi", `12"`, "1e308 m3/s", "1e309 cfm", "\"quoted\" {unit}"} {
		_, err := units.Parse[units.Flow](text)
		var p *units.ParseError
		if text == "1e308 m3/s" {
			_, err = units.Power(0).Kind().Parse("1e308 kW", "")
		}
		require.ErrorAs(t, err, &p, text)
		seen[p.Reason] = true
		assert.Equal(t, p.Why(), message.ReasonOf(p).String())
		assert.Equal(t, err.Error(), message.Fault(units.IP, err))
		assert.Equal(t, err.Error(), message.OfError(err).String())
	}
	assert.Len(t, seen, 7, "every reason")
}

func TestWriting(t *testing.T) {
	static := 0.25 * units.InchWater
	m := message.New("{outer}; {inner}; {rounded}; {words}", "outer", static, "inner", message.New("in {q}", "q", static),
		"rounded", message.Rounded{Message: message.New("in {q}", "q", static)}, "words", "as typed")
	assert.Equal(t, "0.25 in. w.c.; in 0.25 in. w.c.; in 0.250 in. w.c.; as typed", m.Writing(message.Exact).String())
	assert.Equal(t, "62.3 Pa; in 62.3 Pa; in 62.3 Pa; as typed", m.In(units.SI))
}

func TestChoice(t *testing.T) {
	for want, c := range map[string]message.Choice{"": {}, "a": {"a"}, "a or b": {"a", "b"}, "a, b or 3": {"a", "b", 3}} {
		assert.Equal(t, want, c.Show(units.IP))
	}
}

func TestOfErrorKeepsOtherWords(t *testing.T) {
	assert.Equal(t, "plain", message.OfError(errors.New("plain")).String())
	told := message.Errorf("drops {drop}", "drop", 0.25*units.InchWater)
	assert.Equal(t, "drops 62.3 Pa", message.OfError(told).In(units.SI))
	assert.Equal(t, "drops 0.250 in. w.c.", message.OfError(told).Writing(message.Exact).String(), "as the error says it")
}
