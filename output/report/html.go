package report

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"html/template"
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

// style is the page's style sheet. It stands in the page, and the page's
// policy allows it by its hash and nothing else.
func style() template.CSS {
	text, err := files.ReadFile("templates/style.css")
	if err != nil {
		panic(err) // it is built in
	}
	return template.CSS("\n" + strings.TrimSpace(string(text)) + "\n")
}

// policy is the Content-Security-Policy: no script, no network, one style.
func policy() string {
	sum := sha256.Sum256([]byte(style()))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"'; img-src data:; base-uri 'none'; form-action 'none'"
}
