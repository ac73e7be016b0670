package lesson

import (
	"bytes"
	"encoding/json"

	"returnbench/sizing/message"
)

// Texts are the words of a lesson in another language, each list in the order of the
// lesson's own. Placeholders are those of the lesson.
type Texts struct {
	Title       string   `json:"title"`
	Question    string   `json:"question"`
	Predictions []string `json:"predictions"`
	Move        string   `json:"move"`              // what it is called
	Choices     []string `json:"choices,omitempty"` // labels of the positions of a switch
	Explanation []string `json:"explanation"`
}

// ReadTexts reads the words of a lesson from JSON. A name that is not known is an error.
func ReadTexts(data []byte) (t Texts, err error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	err = d.Decode(&t)
	return t, err
}

// InWords is the lesson with the texts of a JSON file; empty data leaves it as
// it is.
func (l Lesson) InWords(data []byte) (Lesson, error) {
	if data == nil {
		return l, nil
	}
	t, err := ReadTexts(data)
	if err != nil {
		return l, err
	}
	return l.With(t)
}

// With is the lesson with other texts. There must be as many of each kind as the
// lesson has.
func (l Lesson) With(t Texts) (Lesson, error) {
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"predictions", len(t.Predictions), len(l.Predictions)},
		{"choices", len(t.Choices), len(l.Move.Choices)},
		{"explanation", len(t.Explanation), len(l.Explanation)},
	} {
		if c.got != c.want {
			return l, message.Errorf("{list}: {count} texts, want {want}", "list", c.what, "count", c.got, "want", c.want)
		}
	}
	out := l.Clone()
	out.Title, out.Question, out.Move.Name = t.Title, t.Question, t.Move
	for i, text := range t.Predictions {
		out.Predictions[i].Text = text
	}
	for i, label := range t.Choices {
		out.Move.Choices[i].Label = label
	}
	copy(out.Explanation, t.Explanation)
	return out, nil
}
