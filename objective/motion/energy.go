package motion

import "evenswing/space"

// energy is kinetic and potential energy above rest, J. It spoils e.
func (e *equations) energy(d *Dynamics, y *point) float64 {
	var p [Max]float64
	e.turn(d, &y.phi)
	e.inertia(d)
	e.momenta(d, &y.rate, &p)
	sum := 0.0
	for i := 0; i < d.n; i++ {
		s, _ := sincos(0.5 * y.phi[i])
		sum += 0.5*p[i]*y.rate[i] + 2*d.weight[i]*s*s
	}
	return sum
}

// momenta fills p with M φ̇, M being in e.m and not yet factored.
func (e *equations) momenta(d *Dynamics, rate, p *[Max]float64) {
	for i := 0; i < d.n; i++ {
		row, w := &e.m[i&7], rate[i&7]
		sum := row[i&7] * w
		for a := d.parent[i&7]; a != space.Wall; a = d.parent[a&7] {
			sum += row[a&7] * rate[a&7]
			p[a&7] += row[a&7] * w
		}
		p[i&7] = sum
	}
}
