package main

import (
	"embed"
	"strings"
	"text/template"
	"unicode"

	"github.com/alecthomas/kong"
)

// completionVerb prints a script that a shell loads.
type completionVerb struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"The shell: bash, zsh or fish."`
}

//go:embed shell
var shells embed.FS

func (v *completionVerb) Run(s *streams, parser *kong.Kong) error {
	script, err := shells.ReadFile("shell/" + v.Shell + ".tmpl")
	if err != nil {
		return err
	}
	return fill(s.out, string(script), parser, template.FuncMap{"join": strings.Join, "zsh": zshText, "fish": fishText})
}

// verb is one of the command line, as a shell and the manual page see it.
type verb struct {
	Name, Help, Detail string
	Arguments          []argument
	Options            []option
}

// argument is one that has a place: "job".
type argument struct {
	Name     string
	Help     string
	Optional bool
	Values   []string // to choose from; none: a file
}

// option is one that has a name.
type option struct {
	Name, Short, Help string
	Value             string   // what stands for its value; empty: it takes none
	Values            []string // to choose from
	IsFile            bool     // its value is a file or a folder
}

// verbsOf lists the verbs with all that may follow each.
func verbsOf(parser *kong.Kong) []verb {
	var all []verb
	var names []string
	for _, node := range parser.Model.Children {
		if node.Hidden {
			continue
		}
		names = append(names, node.Name)
		v := verb{Name: node.Name, Help: node.Help, Detail: node.Detail}
		for _, a := range node.Positional {
			v.Arguments = append(v.Arguments, argument{a.Name, a.Help, !a.Required, choices(a)})
		}
		for _, f := range node.Flags {
			if !f.Hidden {
				v.Options = append(v.Options, optionOf(f))
			}
		}
		all = append(all, v)
	}
	for i := range all {
		for k, a := range all[i].Arguments {
			if a.Name == "verb" {
				all[i].Arguments[k].Values = names
			}
		}
	}
	return all
}

func optionOf(f *kong.Flag) option {
	o := option{Name: f.Name, Help: f.Help, Values: choices(f.Value)}
	if f.Short != 0 {
		o.Short = string(f.Short)
	}
	if f.IsBool() {
		return o
	}
	switch {
	case f.PlaceHolder != "":
		o.Value = f.PlaceHolder
	case len(o.Values) > 0:
		o.Value = strings.Join(o.Values, "|")
	case f.HasDefault:
		o.Value = f.Default
	default:
		o.Value = "N"
	}
	// A value in capitals with an ending, or FILE or DIR, stands for a path.
	o.IsFile = strings.HasPrefix(o.Value, "FILE") || strings.HasPrefix(o.Value, "DIR") || strings.HasPrefix(o.Value, "OUT.")
	return o
}

// choices are the values that a list of allowed ones leaves to choose from; the
// empty one stands for leaving it out.
func choices(v *kong.Value) []string {
	return strings.FieldsFunc(v.Enum, func(r rune) bool { return r == ',' || unicode.IsSpace(r) })
}

// zshText writes a text into a specification of zsh's, in single quotes.
func zshText(text string) string {
	return strings.NewReplacer(`\`, `\\`, `[`, `\[`, `]`, `\]`, `:`, `\:`, `'`, `'\''`).Replace(text)
}

// fishText writes a text between single quotes of fish's.
func fishText(text string) string {
	return strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(text)
}
