package published

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Hand-counted: "The cat sat on the mat." is 6 words of 6 syllables in 1 sentence:
// 2.34 + 11.8 - 15.59 = -1.45.
func TestGradeItself_Identity(t *testing.T) {
	assert.InDelta(t, -1.45, ReadingGrade([]string{"The cat sat on the mat."}), 1e-9)
	for word, n := range map[string]int{"filter": 2, "airflow": 2, "pressure": 2, "moves": 1, "removed": 2, "cabinet": 3, "wasted": 2, "1200": 1, "calculations": 4} {
		assert.Equal(t, n, syllables(word), word)
	}
}
