package formula

import "math"

// op is one operation of a tape.
type op uint8

const (
	input op = iota
	constant
	add
	subtract
	multiply
	divide
	negate
	absolute
	least
	greatest
	root
	hypotenuse
	sine
	cosine
	tangent
	arcSine
	arcCosine
	arcTangent
	arcTangent2
	lookup
)

// commutes tells whether the operands may be swapped, to the last bit.
func (o op) commutes() bool {
	return o == add || o == multiply || o == least || o == greatest || o == hypotenuse
}

// takesTwo tells whether b is an operand.
func (o op) takesTwo() bool {
	switch o {
	case add, subtract, multiply, divide, least, greatest, hypotenuse, arcTangent2:
		return true
	}
	return false
}

// isOperation tells whether the tape has to work it out.
func (o op) isOperation() bool { return o > constant }

// apply works out one operation other than a lookup, as IEEE 754 has it.
func apply(o op, a, b float64) float64 {
	switch o {
	case add:
		return a + b
	case subtract:
		return a - b
	case multiply:
		return a * b
	case divide:
		return a / b
	case negate:
		return -a
	case absolute:
		return math.Abs(a)
	case least:
		return min(a, b)
	case greatest:
		return max(a, b)
	case root:
		return math.Sqrt(a)
	case hypotenuse:
		return math.Hypot(a, b)
	}
	return trigonometry(o, a, b)
}

func trigonometry(o op, a, b float64) float64 {
	switch o {
	case sine:
		return math.Sin(a)
	case cosine:
		return math.Cos(a)
	case tangent:
		return math.Tan(a)
	case arcSine:
		return math.Asin(a)
	case arcCosine:
		return math.Acos(a)
	case arcTangent:
		return math.Atan(a)
	case arcTangent2:
		return math.Atan2(a, b)
	}
	panic("formula: an operation that apply does not know")
}

// pick is table[int(index)], the index held inside the table; NaN gives NaN.
func pick(table []float64, index float64) float64 {
	switch last := len(table) - 1; {
	case index != index:
		return index
	case index < 0:
		return table[0]
	case index >= float64(last):
		return table[last]
	}
	return table[int(index)]
}

// slopes are the partial derivatives of y = apply(o, a, b) by a and by b.
// Where there is a corner, abs has the slope 0 and min and max follow a.
func slopes(o op, a, b, y float64) (byA, byB float64) {
	switch o {
	case absolute:
		return direction(a), 0
	case least:
		return chosen(a <= b)
	case greatest:
		return chosen(a >= b)
	case root:
		return 1 / (2 * y), 0
	case hypotenuse:
		if y == 0 {
			return 0, 0
		}
		return a / y, b / y
	}
	return trigonometricSlopes(o, a, b, y)
}

func trigonometricSlopes(o op, a, b, y float64) (byA, byB float64) {
	switch o {
	case sine:
		return math.Cos(a), 0
	case cosine:
		return -math.Sin(a), 0
	case tangent:
		return 1 + y*y, 0
	case arcSine:
		return 1 / math.Sqrt((1-a)*(1+a)), 0
	case arcCosine:
		return -1 / math.Sqrt((1-a)*(1+a)), 0
	case arcTangent:
		return 1 / (1 + a*a), 0
	case arcTangent2:
		r := a*a + b*b
		return b / r, -a / r
	}
	panic("formula: an operation without a slope")
}

func chosen(a bool) (byA, byB float64) {
	if a {
		return 1, 0
	}
	return 0, 1
}

func direction(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
