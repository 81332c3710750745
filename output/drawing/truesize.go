package drawing

import (
	"bytes"
	"strings"
)

// TrueSize gives a picture of this package its own size: a millimetre of the
// rig is a millimetre of whoever opens it alone. Nil stays nil.
func TrueSize(svg []byte) []byte {
	const mark = `viewBox="`
	at := bytes.Index(svg, []byte(mark))
	if at < 0 {
		return svg
	}
	box, _, _ := bytes.Cut(svg[at+len(mark):], []byte(`"`))
	numbers := strings.Fields(string(box))
	if len(numbers) != 4 {
		return svg
	}
	size := `width="` + numbers[2] + `mm" height="` + numbers[3] + `mm" `
	return append(append(append([]byte(nil), svg[:at]...), size...), svg[at:]...)
}
