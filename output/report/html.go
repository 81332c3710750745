package report

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io/fs"
	"strings"
)

//go:embed templates
var files embed.FS

// layout is every section's template; the functions that need the maker's
// units are bound for each page.
var layout = template.Must(template.New("page.html").Funcs(functions(&Page{})).ParseFS(files, "templates/*.html"))

// HTML is the whole page as one file. The same Page gives the same bytes.
func HTML(page *Page) ([]byte, error) {
	made, err := layout.Clone()
	if err != nil {
		return nil, fmt.Errorf("laying out the page: %w", err)
	}
	var out bytes.Buffer
	if err := made.Funcs(functions(page)).Execute(&out, page); err != nil {
		return nil, fmt.Errorf("writing the page: %w", err)
	}
	return out.Bytes(), nil
}

// style is the page's style sheet: style.css, then that of each section that
// has one of its own, by name. It stands in the page, and the page's policy
// allows it by its hash and nothing else.
func style() template.CSS {
	text := builtIn("style.css")
	own, err := fs.Glob(files, "templates/*.css")
	if err != nil {
		panic(err) // the pattern is built in
	}
	for _, path := range own {
		if name := strings.TrimPrefix(path, "templates/"); name != "style.css" {
			text += "\n" + builtIn(name)
		}
	}
	return template.CSS("\n" + text + "\n")
}

// builtIn is a file of the folder templates.
func builtIn(name string) string {
	text, err := files.ReadFile("templates/" + name)
	if err != nil {
		panic(err) // it is built in
	}
	return strings.TrimSpace(string(text))
}

// script is the page's script, without which it shows everything but motion.
func script() template.JS { return template.JS("\n" + builtIn("swing.js") + "\n") }

// policy is the Content-Security-Policy: no network, one script, one style.
func policy() string {
	return "default-src 'none'; script-src '" + digest(string(script())) + "'; style-src '" + digest(string(style())) +
		"'; img-src data:; base-uri 'none'; form-action 'none'"
}

// digest is how a policy names a text.
func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}
