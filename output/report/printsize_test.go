package report

import "testing"

// TestSized: lettering of 20 units in 1000 is 2.487 mm high, 7.05 points, where the picture is
// 124.4 mm wide, by the rule of three.
func TestSized(t *testing.T) {
	const head, tail = `xmlns="x" viewBox="-5 -5 1000 700" role="img">`, `<text font-size="20">a</text><text font-size="25">b</text></svg>`
	for svg, want := range map[string]string{
		`<svg ` + head + tail:               `<svg width="124.4mm" ` + head + tail,
		`<svg width="148mm" ` + head + tail: `<svg width="148mm" ` + head + tail,
		`<svg ` + head + `<rect/></svg>`:    `<svg ` + head + `<rect/></svg>`,
		`<svg viewBox="0 0 0 0">` + tail:    `<svg viewBox="0 0 0 0">` + tail,
		``:                                  ``,
	} {
		if got := string(sized([]byte(svg))); got != want {
			t.Errorf("%s gives %s, want %s", svg, got, want)
		}
	}
}
