package fields

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/gui/guitest"
	"returnbench/gui/lang"
	"returnbench/sizing/units"
)

// A person who writes a comma before decimals types one and reads one.
func TestQuantityWithADecimalComma(t *testing.T) {
	b := &bench{sys: units.Locale{Comma: true}, flow: 1234.5 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	assert.Equal(t, "1234,5", q.Entry().Text)

	for _, c := range []struct {
		text, stays string
		want        float64
	}{{"1,5", "1,5", 1.5}, {"1.5", "1.5", 1.5}, {"1,50", "1,50", 1.5}, {"1,5 cfm", "1,5", 1.5}} {
		retype(w.Canvas(), q, c.text)
		assert.Empty(t, q.FaultText(), c.text)
		assert.InDelta(t, c.want, b.flow.In(units.CFM), 1e-9, c.text)
		w.Canvas().Focus(nil)
		assert.Equal(t, c.stays, q.Entry().Text, "what was typed as a bare number stays")
	}

	retype(w.Canvas(), q, "1.234")
	assert.Contains(t, q.FaultText(), "a point may mean thousands or decimals; write 1200 or 1,2")
	w.Canvas().Focus(nil)
	assert.Equal(t, "1.234", q.Entry().Text, "a text that cannot be read stays")
}

func TestQuantityWithADecimalPoint(t *testing.T) {
	b := &bench{sys: units.IP, flow: 1234.5 * units.CFM}
	q := b.quantity()
	w := guitest.Window(t, q.Object())
	assert.Equal(t, "1234.5", q.Entry().Text)
	for _, text := range []string{"1,5", "1,234"} {
		retype(w.Canvas(), q, text)
		assert.Contains(t, q.FaultText(), "a comma may mean thousands or decimals; write 1200 or 1.2")
	}
	retype(w.Canvas(), q, "1.234")
	assert.Empty(t, q.FaultText())
	assert.InDelta(t, 1.234, b.flow.In(units.CFM), 1e-9)
}

func TestPercentAndSizeWithADecimalComma(t *testing.T) {
	lang.Set(units.Locale{Comma: true})
	t.Cleanup(func() { lang.Set(units.IP) })
	b := &bench{share: 0.125, w: 16.5 * units.Inch, h: 25 * units.Inch}
	p := NewPercent(PercentOptions{Label: "Share", Get: func() float64 { return b.share }, Set: func(v float64) { b.share = v }})
	s := NewSize(SizeOptions{Label: "Size", NoDepth: true, Get: func() (w, h, d units.Length) { return b.w, b.h, 0 }, Set: func(w, h, _ units.Length) { b.w, b.h = w, h }})
	assert.Equal(t, "12,5", p.Entry().Text)
	assert.Equal(t, "16,5x25", s.Entry().Text)

	w := guitest.Window(t, p.Object())
	retype(w.Canvas(), p, "7,25")
	assert.InDelta(t, 0.0725, b.share, 1e-12)
	w = guitest.Window(t, s.Object())
	retype(w.Canvas(), s, "20,25 x 14")
	assert.Equal(t, []units.Length{20.25 * units.Inch, 14 * units.Inch}, []units.Length{b.w, b.h})
	w.Canvas().Focus(nil)
	assert.Equal(t, "20,25x14", s.Entry().Text)
}
