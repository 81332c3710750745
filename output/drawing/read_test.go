package drawing

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"

	"evenswing/space"
)

// element is one element of a picture that was read back.
type element struct {
	name       string
	attributes map[string]string
	text       string
}

// elements reads a picture as strict XML and fails the test if it is not.
func elements(t *testing.T, picture []byte) []element {
	t.Helper()
	reader := xml.NewDecoder(strings.NewReader(string(picture)))
	var all []element
	for {
		token, err := reader.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			all = append(all, element{token.Name.Local, attributesOf(token), ""})
		case xml.CharData:
			if len(all) > 0 {
				all[len(all)-1].text += string(token)
			}
		}
	}
}

func attributesOf(token xml.StartElement) map[string]string {
	attributes := map[string]string{}
	for _, a := range token.Attr {
		attributes[a.Name.Local] = a.Value
	}
	return attributes
}

// number is an attribute that must be a number.
func (e *element) number(t *testing.T, name string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(e.attributes[name], 64)
	if err != nil {
		t.Fatalf("%s of %s is %q", name, e.name, e.attributes[name])
	}
	return value
}

// drawnPivots are the pivots as the picture has them, back in the wall frame
// and in millimetres.
func drawnPivots(t *testing.T, picture []byte) map[int]space.Vec {
	t.Helper()
	pivots := map[int]space.Vec{}
	for _, e := range elements(t, picture) {
		if _, is := e.attributes["data-pivot"]; is {
			pivots[int(e.number(t, "data-pivot"))] = space.Vec{X: e.number(t, "cx"), Y: -e.number(t, "cy")}
		}
	}
	return pivots
}
