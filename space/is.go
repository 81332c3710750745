package space

import (
	"errors"
	"math"

	"evenswing/space/quantity"
)

// readIs reads the value of a filled-in unknown.
func (r *reader) readIs(s section, u *Unknown) {
	e, ok := s.at["is"]
	if !ok {
		return
	}
	if e.node.Anchor != "" {
		r.wrong(e.spot, 0, "`is:` carries an anchor (&"+e.node.Anchor+")", "a value of its own", "write the value out where it is used")
		return
	}
	text, ok := r.text(e.spot, "the value of "+quoted(u.Name))
	if !ok {
		return
	}
	v, err := u.parse(text)
	if err != nil {
		r.wrongFormula(e.spot, lead(e.value()), text, err)
		return
	}
	u.Is = Optional{v, true}
}

// parse reads a value of the unknown: SI, or the index of an option.
func (u *Unknown) parse(text string) (float64, error) {
	if u.Kind == Choice {
		return u.parseOption(text)
	}
	v, err := quantity.Parse(text, u.Dim)
	if err != nil {
		return 0, err
	}
	if math.IsInf(float64(float32(v)), 0) {
		return 0, &quantity.Error{Len: len(text), Text: quoted(text) + " is larger than single precision holds"}
	}
	return v, nil
}

// textOf is what an error of package quantity says, without its place.
func textOf(err error) string {
	var e *quantity.Error
	if errors.As(err, &e) {
		return e.Text
	}
	return err.Error()
}
