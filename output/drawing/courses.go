package drawing

import (
	"math"
	"strings"
)

// courseDashes tell curves apart without colour, in heights of the lettering.
var courseDashes = [...][]float64{
	nil, {1.4, 0.5}, {0.1, 0.45}, {1.8, 0.45, 0.1, 0.45}, {0.7, 0.45}, {2.6, 0.5}, {1.2, 0.4, 0.1, 0.4, 0.1, 0.4}, {0.4, 0.8},
}

// Amplitudes is a chart of how far each pendulum swings over time, in degrees.
// Values are in rad, times in s.
func Amplitudes(time []float64, pendulums []Series, style ChartStyle) []byte {
	high, names := 0.0, make([]string, len(pendulums))
	degrees := make([]Series, len(pendulums))
	for i, s := range pendulums {
		degrees[i] = s.times(180 / math.Pi)
		_, top := bounds(degrees[i].At)
		high = math.Max(high, top)
		names[i] = shortName(s.Name) + " " + degreesText(last(degrees[i].At))
	}
	style = style.or("How far each pendulum swings over time", endings(degrees, degreesText))
	c := newChart(newPlane(time, 0, high*headroom, names), "swing, degrees", style)
	for i := range degrees {
		if end, any := c.course(time, degrees[i].At, courseDashes[i%len(courseDashes)]); any {
			c.name(end.Y, names[i])
		}
	}
	return c.finish()
}

func degreesText(degrees float64) string { return decimals(degrees, 1) + "°" }

// times is a series with every value multiplied.
func (s Series) times(factor float64) Series {
	list := make([]float64, len(s.At))
	for i, v := range s.At {
		list[i] = v * factor
	}
	return Series{s.Name, list}
}

// headroom leaves a curve's top clear of the picture's.
const headroom = 1.06

// or fills in what a style leaves out.
func (s ChartStyle) or(title, summary string) ChartStyle {
	if s.Title == "" {
		s.Title = title
	}
	if s.Summary == "" {
		s.Summary = summary
	}
	return s
}

// endings says what every series begins and ends at.
func endings(list []Series, write func(float64) string) string {
	var said []string
	for _, s := range list {
		if len(s.At) > 0 {
			said = append(said, s.Name+": from "+write(s.At[0])+" to "+write(last(s.At)))
		}
	}
	return strings.Join(said, "; ") + "."
}

// last is the last number of a list, 0 of none.
func last(list []float64) float64 {
	for i := len(list) - 1; i >= 0; i-- {
		if finite(list[i]) {
			return list[i]
		}
	}
	return 0
}
