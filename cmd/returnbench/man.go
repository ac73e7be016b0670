package main

import (
	_ "embed"
	"io"
	"strings"
	"text/template"

	"github.com/alecthomas/kong"
)

// manVerb prints the manual page. It is made of the program's own help, so that
// it names every verb and option there is.
type manVerb struct{}

//go:embed shell/man.tmpl
var manPage string

func (v *manVerb) Run(s *streams, parser *kong.Kong) error {
	return fill(s.out, manPage, parser, template.FuncMap{"roff": roff, "paragraphs": paragraphs})
}

// fill writes a template filled with the command line and with what it may call.
func fill(w io.Writer, text string, parser *kong.Kong, funcs template.FuncMap) error {
	page, err := template.New("").Funcs(funcs).Parse(text)
	if err != nil {
		return err
	}
	return page.Execute(w, struct {
		Version, About string
		Verbs          []verb
	}{version, parser.Model.Help, verbsOf(parser)})
}

// roff writes a text so that troff prints it as it is.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`).Replace(text)
	if strings.HasPrefix(text, ".") {
		return `\&` + text
	}
	return text
}

// paragraphs are those of a text, in which an empty line parts them.
func paragraphs(text string) []string { return strings.Split(strings.TrimSpace(text), "\n\n") }
