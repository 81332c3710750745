package drawing

import (
	"math"

	"evenswing/space"
)

// shareTints fill the bands of a stack; edges and names tell them apart where
// they print alike.
var shareTints = [...]string{"#dde5ea", "#ffffff", "#f5ead6", "#c9cdd6"}

// Shares is a chart of how the energy is shared between the modes over time:
// bands that together are always the whole, the first series lowest. Values are
// fractions, times in s.
func Shares(time []float64, modes []Series, style ChartStyle) []byte {
	tops, below := stacked(time, modes), 0.0
	names, middles := make([]string, len(modes)), make([]float64, len(modes))
	for k := range modes {
		top := last(tops[k])
		names[k] = shortName(modes[k].Name) + " " + percentText((top-below)/100)
		middles[k], below = (below+top)/2, top
	}
	style = style.or("How the energy is shared between the modes over time", endings(modes, percentText))
	c := newChart(newPlane(time, 0, 100, names), "% of the energy, by mode", style)
	for k := len(modes) - 1; k >= 0; k-- {
		c.band(time, tops[k], shareTints[k%len(shareTints)])
		c.name(c.place(c.To, middles[k]).Y, names[k])
	}
	return c.finish()
}

func percentText(fraction float64) string { return decimals(100*fraction, 1) + "\u00a0%" }

// stacked is the upper edge of every band in percent, the first series lowest;
// what is no number counts as nothing.
func stacked(time []float64, modes []Series) [][]float64 {
	sum := make([]float64, len(time))
	tops := make([][]float64, len(modes))
	for k := range modes {
		for j := range min(len(time), len(modes[k].At)) {
			if v := modes[k].At[j]; finite(v) {
				sum[j] += 100 * math.Min(math.Max(v, 0), 1)
			}
		}
		tops[k] = append([]float64(nil), sum...)
	}
	return tops
}

// band fills from the axis up to an edge; narrower ones are drawn over it.
func (c *chart) band(time, top []float64, tint string) {
	for _, run := range c.points(time, top) {
		run = thinned(run, chartFinest)
		floor := c.place(c.From, c.Low).Y
		edge := append([]space.Vec{{X: run[0].X, Y: floor}}, run...)
		edge = append(edge, space.Vec{X: run[len(run)-1].X, Y: floor})
		c.canvas.open("path").str("d", linePath(edge)+"z").str("fill", tint).str("stroke", ink).
			num("stroke-width", fineWeight*chartText).str("stroke-linejoin", "round").done()
	}
}
