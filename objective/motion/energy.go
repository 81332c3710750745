package motion

import "evenswing/space"

// energy is kinetic and potential energy above rest, J.
func (d *Dynamics) energy(y *point) float64 {
	var p [Max]float64
	d.momenta(y, &p)
	e := 0.0
	for i := 0; i < d.n; i++ {
		s, _ := sincos(0.5 * y.phi[i])
		e += 0.5*p[i]*y.rate[i] + 2*d.weight[i]*s*s
	}
	return e
}

// momenta fills p with M(φ) φ̇, the momenta that belong to the angles.
func (d *Dynamics) momenta(y *point, p *[Max]float64) {
	var e equations
	e.turn(d, &y.phi)
	e.inertia(d)
	for i := 0; i < d.n; i++ {
		p[i] += d.j[i] * y.rate[i]
		for a := d.parent[i]; a != space.Wall; a = d.parent[a] {
			m := e.m[i][a]
			p[i] += m * y.rate[a]
			p[a] += m * y.rate[i]
		}
	}
}
