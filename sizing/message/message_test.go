package message_test

import (
	"errors"
	"fmt"
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

var spanish = units.Locale{Language: "es", Comma: true}

func TestTextWritesArguments(t *testing.T) {
	drop := 0.12 * units.InchWater
	const id message.ID = "{branch}: the duct drops {drop}."
	assert.Equal(t, "Hall: the duct drops 0.120 in. w.c.", message.Text(units.IP, id, "branch", "Hall", "drop", drop))
	assert.Equal(t, "Hall: the duct drops 29.9 Pa.", message.New(id, "branch", "Hall", "drop", drop).In(units.SI))
	assert.Equal(t, "2.50 and +3", message.Text(units.IP, "{a} and {b}", "a", message.Fixed(2.5, 2), "b", message.Signed(3, 0)))
	assert.Equal(t, "no {name}", message.Text(units.IP, "no {name}"), "an argument not given is left standing")
	assert.Empty(t, message.Text(units.IP, ""))
	assert.Equal(t, "It says: inner 3.", message.Text(units.IP, "It says: {what}", "what", message.New("inner {n}.", "n", 3)))
	assert.Panics(t, func() { message.Text(units.IP, "{a}", 1, 2) })
}

func TestDecimalMark(t *testing.T) {
	assert.Equal(t, "0,120 in. w.c.", (0.12 * units.InchWater).Show(spanish))
	assert.Equal(t, "2,5", message.Text(spanish, "{v}", "v", 2.5))
	assert.Equal(t, "1,50", message.Fixed(1.5, 2).Show(spanish))
}

func TestLists(t *testing.T) {
	assert.Empty(t, message.List{}.Show(units.IP))
	assert.Equal(t, "a", message.List{"a"}.Show(units.IP))
	assert.Equal(t, "a, b and c", message.List{"a", "b", "c"}.Show(units.IP))
	assert.Equal(t, "a, b y c", message.List{"a", "b", "c"}.Show(spanish))
}

func TestErrors(t *testing.T) {
	err := message.Errorf("cannot read {name}: {why}", "name", "a.json", "why", os.ErrNotExist)
	assert.EqualError(t, err, "cannot read a.json: file does not exist")
	require.ErrorIs(t, err, os.ErrNotExist)
	assert.Equal(t, "cannot read a.json: no existe el archivo", message.Fault(spanish, err), "no Spanish entry: English, its arguments are Spanish")
	assert.Equal(t, "x: plain", message.Fault(spanish, fmt.Errorf("x: %w", errors.New("plain"))))
}

func TestPseudo(t *testing.T) {
	l := units.Locale{Language: message.Pseudo}
	assert.Equal(t, "Ƀáćḱ Hall: íńńéŕ 3 {left}", message.Text(l, "Back {name}: {what} {n} {left}", "name", "Hall", "what", message.ID("inner"), "n", 3))
	assert.Empty(t, message.Text(l, ""))
}

func TestFaultsOfFiles(t *testing.T) {
	_, err := os.Open("no-such-file")
	require.Error(t, err)
	assert.Equal(t, err.Error(), message.Fault(units.IP, err))
	assert.Equal(t, "no-such-file: no existe tal archivo o carpeta", message.Fault(spanish, err))
	assert.Equal(t, "no existe el archivo\nplain", message.Fault(spanish, errors.Join(os.ErrNotExist, errors.New("plain"))))
	assert.Equal(t, "the disk: no space left on device", message.Fault(units.IP, message.Errorf("the disk: {why}", "why", syscall.ENOSPC)))
}
