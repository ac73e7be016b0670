package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
)

// field is one line of a job's file: the path of a value and the value.
type field struct{ path, value string }

// flatten turns a job's file into lines, in the file's order. An object in a
// list that holds nothing but plain values is one line.
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

// flat tells that a node holds plain values only.
func (n *node) flat() bool {
	for _, p := range n.parts {
		if !p.leaf {
			return false
		}
	}
	return !n.leaf
}

func (n *node) lines(path string, out *[]field) {
	switch {
	case n.leaf:
		*out = append(*out, field{path, n.plain})
	case n.flat() && (n.list || strings.HasSuffix(path, "]")):
		*out = append(*out, field{path, n.joined()})
	default:
		for i, p := range n.parts {
			p.lines(n.under(path, i), out)
		}
	}
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

func (n *node) joined() string {
	texts := make([]string, len(n.parts))
	for i, p := range n.parts {
		texts[i] = strings.TrimSpace(n.names[i] + " " + p.plain)
	}
	return strings.Join(texts, ", ")
}
