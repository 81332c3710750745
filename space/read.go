package space

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"evenswing/space/formula"
	"evenswing/space/material"

	"go.yaml.in/yaml/v3"
)

const (
	// maxBytes is far above any rig a person writes, and small enough to parse
	// at once.
	maxBytes = 1 << 20
	// maxNodes bounds what aliases may blow a file up to; 8 pendulums with 50
	// parts each have a tenth of it.
	maxNodes = 100_000
	// maxDepth bounds nesting; the format needs 7 levels.
	maxDepth = 64
	// maxName is the length of the longest name, in characters.
	maxName = 300
)

// Load reads a rig file. The error is *Mistakes where the file can be read but
// is wrong.
func Load(path string) (*Rig, error) {
	data, err := loadBounded(path)
	if err != nil {
		return nil, err
	}
	return Read(path, data)
}

// loadBounded reads a file, unless it is no file or too large.
func loadBounded(path string) ([]byte, error) {
	about, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("reading the rig: %w", err)
	}
	if about.IsDir() {
		return nil, whole(path, "this is a folder, not a rig file", "name the .yaml file in it")
	}
	if about.Size() > maxBytes {
		return nil, tooLarge(path, about.Size())
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("reading the rig: %w", err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading the rig: %w", err)
	}
	return data, nil
}

// whole is a mistake of a file as a whole.
func whole(file, text, mend string) error {
	return &Mistakes{List: []Mistake{{File: file, Text: text, Mend: mend}}}
}

func tooLarge(file string, size int64) error {
	return whole(file, fmt.Sprintf("the file has %d bytes, a rig file at most %d", size, maxBytes), "is this the right file?")
}

// Read reads the text of a rig file; file is its name in messages. The error
// is *Mistakes, with every mistake of the text.
func Read(file string, data []byte) (*Rig, error) {
	if len(data) > maxBytes {
		return nil, tooLarge(file, int64(len(data)))
	}
	r := &reader{source: newSource(file, data), formulas: formula.NewBuilder(), stock: material.BuiltIn()}
	r.rig = newRig(file, data)
	root := r.parse()
	if root != nil {
		r.readRig(spot{node: root})
	}
	if err := r.mistakes.err(); err != nil {
		return nil, err
	}
	r.finish()
	return r.rig, nil
}

// parse turns the text into nodes, nil where a mistake was found.
func (r *reader) parse() *yaml.Node {
	if !r.readable() {
		return nil
	}
	root, err := parseNodes(r.data)
	if err != nil {
		r.syntax(err)
		return nil
	}
	if root == nil {
		r.mistakes.add(Mistake{File: r.file, Text: "the file is empty", Mend: "`evenswing new FILE` writes a rig to start from"})
		return nil
	}
	if text := tooMuch(root); text != "" {
		r.wrong(spot{node: root}, 0, text, "", "write the rig out without nested aliases")
		return nil
	}
	return root
}

// readable refuses what is no text.
func (r *reader) readable() bool {
	for at := 0; at < len(r.data); {
		c, size := utf8.DecodeRune(r.data[at:])
		if c == utf8.RuneError && size == 1 {
			return r.noText(at, "this is not text in UTF-8", "save the file as UTF-8 text")
		}
		if c < ' ' && c != '\n' && c != '\r' && c != '\t' {
			return r.noText(at, fmt.Sprintf("a control character (code %d) stands here", c), "is this a rig file? remove the character")
		}
		at += size
	}
	return true
}

func (r *reader) noText(at int, text, mend string) bool {
	m := Mistake{File: r.file, Text: text, Mend: mend}
	m.Line, m.Column = r.place(at)
	m.Excerpt = r.line(m.Line)
	r.mistakes.add(m)
	return false
}

// defaultName is a rig's name where the file gives none.
func defaultName(file string) string {
	base := filepath.Base(file)
	return strings.TrimSuffix(base, filepath.Ext(base))
}
