package published

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMisnamed(t *testing.T) {
	assert.Empty(t, misnamed("TestX_Published", "ISO 2533, tabulated by mpmath"))
	assert.Empty(t, misnamed("TestX_Published/part", "energy code, from secondary text"))
	assert.Empty(t, misnamed("TestX_Plausible", "interest tables, from memory"))
	assert.Empty(t, misnamed("TestX_Plausible/part", "common practice, no source"))
	assert.Contains(t, misnamed("TestX_Published", "a rule of thumb of the trade"), "named _Plausible")
	assert.Contains(t, misnamed("TestX_Plausible", "ISO 2533"), "named _Published")
	assert.Contains(t, misnamed("TestX_Identity", "ISO 2533"), "_Published or _Plausible")
}
