package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// field is one line of a job's file: the path of a value and the value.
type field struct{ path, value string }

// flatten turns a job's file into lines. The plain values of an object or a list
// are one line; its objects and lists follow.
func flatten(data []byte) ([]field, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	root, err := readNode(d)
	if err != nil {
		return nil, fmt.Errorf("job: %w", err)
	}
	var out []field
	root.lines("", &out)
	return out, nil
}

// node is a value of the file; names are empty in a list.
type node struct {
	plain string
	names []string
	parts []*node
	list  bool
	leaf  bool
}

func readNode(d *json.Decoder) (*node, error) {
	token, err := d.Token()
	if err != nil {
		return nil, err
	}
	open, ok := token.(json.Delim)
	if !ok {
		return &node{plain: fmt.Sprint(token), leaf: true}, nil
	}
	n := &node{list: open == '['}
	for d.More() {
		name := ""
		if !n.list {
			token, err := d.Token()
			if err != nil {
				return nil, err
			}
			name = fmt.Sprint(token)
		}
		part, err := readNode(d)
		if err != nil {
			return nil, err
		}
		n.names, n.parts = append(n.names, name), append(n.parts, part)
	}
	_, err = d.Token() // the closing bracket
	return n, err
}

func (n *node) lines(path string, out *[]field) {
	if n.leaf {
		*out = append(*out, field{path, n.plain})
		return
	}
	at := path
	if at == "" {
		at = "job"
	}
	if plain := n.joined(); plain != "" {
		*out = append(*out, field{at, plain})
	}
	if n.list && n.table() {
		rows := make([]string, len(n.parts))
		for i, p := range n.parts {
			rows[i] = fmt.Sprintf("[%d] %s", i, p.joined())
		}
		*out = append(*out, field{at, strings.Join(rows, "; ")})
		return
	}
	for i, p := range n.parts {
		if !p.leaf {
			p.lines(n.under(path, i), out)
		}
	}
}

// table reports whether a list has objects of plain values only, each a row.
func (n *node) table() bool {
	for _, p := range n.parts {
		if p.leaf || slices.ContainsFunc(p.parts, func(q *node) bool { return !q.leaf }) {
			return false
		}
	}
	return len(n.parts) > 0
}

func (n *node) under(path string, i int) string {
	switch {
	case n.list:
		return fmt.Sprintf("%s[%d]", path, i)
	case path == "":
		return n.names[i]
	}
	return path + "." + n.names[i]
}

// joined are the plain values of a node, each behind its name.
func (n *node) joined() string {
	var texts []string
	for i, p := range n.parts {
		if p.leaf {
			text := strings.TrimSpace(n.names[i] + " " + p.plain)
			if len(text) < 30 {
				text = strings.ReplaceAll(text, " ", string(nbsp))
			}
			texts = append(texts, text)
		}
	}
	return strings.Join(texts, ", ")
}
