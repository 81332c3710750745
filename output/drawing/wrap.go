package drawing

import (
	"strings"
	"unicode"
)

// wrapped breaks text at spaces into lines of at most width runes; a word that
// is longer is broken. What does not fit into the lines is cut with a mark.
func wrapped(text string, width, most int) []string {
	var lines []string
	rest := []rune(strings.TrimSpace(text))
	for len(rest) > 0 && len(lines) < most {
		end := lineEnd(rest, width)
		lines = append(lines, strings.TrimSpace(string(rest[:end])))
		rest = rest[end:]
	}
	if len(rest) > 0 {
		last := []rune(lines[most-1])
		lines[most-1] = string(last[:min(len(last), width-1)]) + "…"
	}
	return lines
}

// lineEnd is where a line of at most width runes ends: after its last space,
// or in the middle of a long word.
func lineEnd(text []rune, width int) int {
	if len(text) <= width {
		return len(text)
	}
	for i := width; i > width/2; i-- {
		if text[i] == ' ' {
			return i + 1
		}
	}
	return width
}

// lineWidth is a careful guess of a line's width in heights of its lettering:
// no font is at hand, and every sans-serif that a browser picks is narrower.
func lineWidth(line string, bold bool) float64 {
	width := 0.0
	for _, r := range line {
		switch {
		case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul), r > 0xFFFF:
			width += 1.05
		case unicode.Is(unicode.Mn, r):
		case unicode.IsUpper(r), r == 'm', r == 'w', r == '—':
			width += 0.74
		case strings.ContainsRune("ijlt.,:;'|!()[]/ ", r):
			width += 0.36
		default:
			width += 0.6
		}
	}
	if bold {
		width *= 1.08
	}
	return width
}
