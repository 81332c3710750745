package formula

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"evenswing/space/quantity"
	"pgregory.net/rapid"
)

// tree is a formula by itself: worked out by recursion over the tree, without
// the parser, the tape or shared registers.
type tree struct {
	sign        string // "" for a leaf
	left, right *tree
	number      float64
	name        int // index of an input, -1 for a number
}

var inputsOfTree = []string{"a", "long_arm", "x_1"}

func (n *tree) value(inputs []float64) float64 {
	switch n.sign {
	case "":
		if n.name >= 0 {
			return inputs[n.name]
		}
		return n.number
	case "neg":
		return -n.left.value(inputs)
	case "sqrt":
		return math.Sqrt(n.left.value(inputs))
	case "abs":
		return math.Abs(n.left.value(inputs))
	}
	x, y := n.left.value(inputs), n.right.value(inputs)
	switch n.sign {
	case "+":
		return x + y
	case "-":
		return x - y
	case "*":
		return x * y
	case "/":
		return x / y
	case "min":
		return math.Min(x, y)
	case "max":
		return math.Max(x, y)
	}
	panic(n.sign)
}

// text writes the tree with no more parentheses than it needs inside a
// surrounding of that power: 1 in a sum, 2 in a product, 3 after a sign.
func (n *tree) text(surrounding int) string {
	power, text := 4, ""
	switch n.sign {
	case "":
		if n.name >= 0 {
			return inputsOfTree[n.name]
		}
		return strconv.FormatFloat(n.number, 'g', -1, 64)
	case "neg":
		power, text = 3, "-"+n.left.text(3)
	case "sqrt", "abs":
		text = fmt.Sprintf("%s(%s)", n.sign, n.left.text(0))
	case "min", "max":
		text = fmt.Sprintf("%s(%s, %s)", n.sign, n.left.text(0), n.right.text(0))
	case "+", "-":
		power, text = 1, n.left.text(1)+" "+n.sign+" "+n.right.text(2)
	default:
		power, text = 2, n.left.text(2)+n.sign+n.right.text(3)
	}
	if power < surrounding {
		return "(" + text + ")"
	}
	return text
}

func drawTree(t *rapid.T, depth int) *tree {
	signs := []string{"+", "-", "*", "/", "min", "max", "neg", "sqrt", "abs"}
	if depth == 0 || rapid.IntRange(0, 5).Draw(t, "leaf") == 0 {
		number := float64(rapid.IntRange(0, 2000).Draw(t, "number")) / 16
		return &tree{number: number, name: rapid.IntRange(-1, len(inputsOfTree)-1).Draw(t, "name")}
	}
	n := &tree{sign: rapid.SampledFrom(signs).Draw(t, "sign"), left: drawTree(t, depth-1)}
	switch n.sign {
	case "neg", "sqrt", "abs":
	default:
		n.right = drawTree(t, depth-1)
	}
	return n
}

// finiteConstants tells whether no part without inputs is infinite or NaN,
// which the compiler refuses.
func (n *tree) finiteConstants() (fine, constant bool) {
	if n.sign == "" {
		return true, n.name < 0
	}
	fine, constant = n.left.finiteConstants()
	if n.right != nil {
		f, c := n.right.finiteConstants()
		fine, constant = fine && f, constant && c
	}
	v := 0.0
	if constant {
		v = n.value(nil)
	}
	return fine && v-v == 0, constant
}

// TestAgainstTree: parsing, folding, sharing and the tape change no bit of
// what plain recursion gives.
func TestAgainstTree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := drawTree(t, 5)
		b := NewBuilder()
		for _, name := range inputsOfTree {
			b.Input(name, quantity.Number)
		}
		text := root.text(0)
		if negativeZero.MatchString(text) {
			return // a rig file knows no sign of nought
		}
		r, err := b.Compile(text, quantity.Number)
		if fine, _ := root.finiteConstants(); !fine {
			if err == nil {
				t.Fatalf("%s has a part without a finite value, which goes unseen", text)
			}
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		inputs := []float64{0.75, -3, rapid.Float64Range(-10, 10).Draw(t, "x_1")}
		got, want := evaluate(b, inputs, r), root.value(inputs)
		if got != want && (finite(got) || finite(want)) { // of which kind it is not finite says nothing
			t.Fatalf("%s = %v, want %v", text, got, want)
		}
	})
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// negativeZero finds a minus before a bare 0: read as one number it is 0, as an
// operation −0, and a division or an arc tangent tells the two apart.
var negativeZero = regexp.MustCompile(`[-−]\s*0([^.0-9]|$)`)

// FuzzCompile: no text makes a panic or an error that points outside it.
func FuzzCompile(f *testing.F) {
	for _, seed := range []string{
		"0.6 * long_arm", "3-1/2 in + ring", "max(0, a - 1)", "-(a)", "1/2*a", "min(a, 3 min)", "((a", "a b", "2 ** 3", "a,b", "3 mm to", "\xff", "ring²",
	} {
		f.Add(seed, "a + 1")
	}
	f.Fuzz(func(t *testing.T, text, value string) {
		b := NewBuilder()
		b.Input("a", quantity.Number)
		b.Input("long_arm", quantity.Length)
		b.Define("ring", value)
		for _, e := range b.ResolveValues() {
			if e.At < 0 || e.Len < 0 || e.At+e.Len > len(value) || e.Text == "" {
				t.Fatalf("%q: %+v", value, e)
			}
		}
		r, _, err := b.CompileAny(text)
		if err == nil {
			evaluate(b, []float64{1, 2}, r)
		} else if e := err.(*quantity.Error); e.At < 0 || e.Len < 0 || e.At+e.Len > len(text) || e.Text == "" {
			t.Fatalf("%q: %+v", text, e)
		}
	})
}
