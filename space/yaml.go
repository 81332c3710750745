package space

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

var errSecond = errors.New("a second document begins after `---`")

// parseNodes parses one YAML document. A panic of the library is an error.
func parseNodes(text []byte) (root *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			root, err = nil, fmt.Errorf("this YAML cannot be read (%v)", p)
		}
	}()
	in := yaml.NewDecoder(bytes.NewReader(text))
	var document, second yaml.Node
	if err := in.Decode(&document); err == io.EOF {
		return nil, nil
	} else if err != nil {
		return nil, err
	}
	if err := in.Decode(&second); err == nil {
		return nil, errSecond
	} else if err != io.EOF {
		return nil, err
	}
	if document.Kind != yaml.DocumentNode || len(document.Content) != 1 {
		return nil, nil
	}
	return document.Content[0], nil
}

var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?`)

// counted tells the messages of the library's parser, which counts lines from
// 0; its scanner counts from 1.
func counted(text string) bool {
	for _, end := range []string{"',' or ']'", "',' or '}'", "'-' indicator", "expected key", "node content", "<document start>"} {
		if strings.HasSuffix(text, end) {
			return true
		}
	}
	return false
}

// tabIndent is the first line, from the given one on, that is indented with a
// tab, 0 for none.
func (r *reader) tabIndent(from int) int {
	for line := max(from, 1); line <= len(r.starts); line++ {
		if strings.HasPrefix(strings.TrimLeft(r.line(line), " "), "\t") {
			return line
		}
	}
	return 0
}

// syntax keeps what the YAML library could not read.
func (r *reader) syntax(err error) {
	text := err.Error()
	m := Mistake{File: r.file, Mend: "look for a missing colon, quote or bracket, or for indents that do not line up"}
	if found := yamlLine.FindStringSubmatch(text); found != nil {
		text = text[len(found[0]):]
		m.Line, _ = strconv.Atoi(found[1])
	}
	if counted(text) {
		m.Line++
	}
	if tab := r.tabIndent(m.Line); tab > 0 && strings.Contains(text, "tab") {
		m.Line, m.Mend = tab, "indent with spaces, not with tabs"
	}
	if m.Line > 0 {
		m.Line = min(m.Line, len(r.starts))
		m.Excerpt = r.line(m.Line)
		m.Column = 1 + len(m.Excerpt) - len(strings.TrimLeft(m.Excerpt, " \t"))
	}
	if errors.Is(err, errSecond) {
		m.Mend = "one rig in a file: remove the second"
	}
	m.Text = "this is not YAML that can be read: " + text
	r.mistakes.add(m)
}

// tooMuch tells why a tree, its aliases followed, is too large, "" if it is not.
func tooMuch(root *yaml.Node) string {
	nodes := 0
	var visit func(n *yaml.Node, depth int) string
	visit = func(n *yaml.Node, depth int) string {
		nodes++
		if nodes > maxNodes {
			return fmt.Sprintf("aliases blow this file up to more than %d values", maxNodes)
		}
		if depth > maxDepth {
			return fmt.Sprintf("this is nested more than %d levels deep", maxDepth)
		}
		if n.Kind == yaml.AliasNode {
			return visit(n.Alias, depth+1)
		}
		for _, c := range n.Content {
			if text := visit(c, depth+1); text != "" {
				return text
			}
		}
		return ""
	}
	return visit(root, 0)
}
