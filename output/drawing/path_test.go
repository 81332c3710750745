package drawing

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"evenswing/space"
)

var pathTokens = regexp.MustCompile(`[a-zA-Z]|-?(?:\d+\.?\d*|\.\d+)`)

// readPath reads path data of M, l, c and z back as curves; it is not the code
// that wrote them.
func readPath(t *testing.T, data string) []cubic {
	t.Helper()
	var curves []cubic
	var at space.Vec
	command, numbers := "", []float64(nil)
	take := func() {
		switch {
		case command == "M" && len(numbers) == 2:
			at, numbers = space.Vec{X: numbers[0], Y: numbers[1]}, nil
		case command == "l" && len(numbers) == 2:
			to := space.Vec{X: at.X + numbers[0], Y: at.Y + numbers[1]}
			curves = append(curves, cubic{at, mixed(at, to, 1.0/3), mixed(at, to, 2.0/3), to})
			at, numbers = to, nil
		case command == "c" && len(numbers) == 6:
			c := cubic{at}
			for k := range 3 {
				c[k+1] = space.Vec{X: at.X + numbers[2*k], Y: at.Y + numbers[2*k+1]}
			}
			curves = append(curves, c)
			at, numbers = c[3], nil
		}
	}
	for _, token := range pathTokens.FindAllString(data, -1) {
		value, err := strconv.ParseFloat(token, 64)
		if err != nil {
			if len(numbers) != 0 {
				t.Fatalf("%d numbers left over before %q", len(numbers), token)
			}
			command = token
			continue
		}
		numbers = append(numbers, value)
		take()
	}
	if len(numbers) != 0 {
		t.Fatalf("%d numbers left over", len(numbers))
	}
	return curves
}

func TestPathNumbers(t *testing.T) {
	for _, c := range []struct {
		points []space.Vec
		want   string
	}{
		{[]space.Vec{{X: 0, Y: 0}, {X: 1.5, Y: -0.25}}, "M0 0l1.5-.25"},
		{[]space.Vec{{X: -0.05, Y: 12}, {X: 0, Y: 12.004}}, "M-.05 12l.05 0"},
		{[]space.Vec{{X: 10.10, Y: -3}, {X: 0, Y: 0}, {X: 0.5, Y: 0}}, "M10.1-3l-10.1 3 .5 0"},
	} {
		if got := linePath(c.points); got != c.want {
			t.Errorf("%v: %q, want %q", c.points, got, c.want)
		}
	}
}

// TestPathRoundingDoesNotAddUp walks 10,000 steps that each round down.
func TestPathRoundingDoesNotAddUp(t *testing.T) {
	points := make([]space.Vec, 10001)
	for i := range points {
		points[i] = space.Vec{X: 0.014 * float64(i), Y: -0.003 * float64(i)}
	}
	curves := readPath(t, linePath(points))
	end := curves[len(curves)-1][3]
	if math.Abs(end.X-140) > pathFinest || math.Abs(end.Y+30) > pathFinest {
		t.Errorf("ends at %v, want 140 -30", end)
	}
}
