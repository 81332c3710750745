package mass

import (
	"math"

	"evenswing/space"
)

// beam is a bar's direction and length: (ux, uy) from its start to its end.
type beam struct{ ux, uy, length float64 }

func beamOf(b *space.Bar) beam {
	dx, dy := b.To.X-b.From.X, b.To.Y-b.From.Y
	length := math.Sqrt(dx*dx + dy*dy)
	return beam{dx / length, dy / length, length}
}

// BarSlopesTo fills dst, of length BarNumbers and VoidNumbers for each void,
// with the derivatives of what AddBar adds, cut-outs taken off, by the bar's
// numbers and its voids', and returns that by the density.
func BarSlopesTo(dst []Slope, b *space.Bar, density float64) (byDensity Slope) {
	clear(dst)
	u := beamOf(b)
	m := density * b.Height * b.Thick * u.length
	square := (u.length*u.length + b.Height*b.Height) / 12
	p := piece{m, 0.5 * (b.From.X + b.To.X), 0.5 * (b.From.Y + b.To.Y), m * square}
	// A metre more of length brings mass and inertia: d(m(L² + h²)/12).
	long := piece{m: m / u.length, inertia: m/u.length*square + m*u.length/6}
	for end, toward := range [2]float64{-1, 1} { // From, then To
		for axis, c := range [2]float64{u.ux, u.uy} {
			d := piece{m: toward * c * long.m, inertia: toward * c * long.inertia}
			if axis == 0 {
				d.x = 0.5
			} else {
				d.y = 0.5
			}
			dst[2*end+axis] = p.slope(d)
		}
	}
	dst[4] = p.slope(piece{m: m / b.Height, inertia: m/b.Height*square + m*b.Height/6})
	dst[5] = p.slope(piece{m: m / b.Thick, inertia: m / b.Thick * square})
	volume := b.Height * b.Thick * u.length
	byDensity = p.slope(piece{m: volume, inertia: volume * square})
	for i := range b.Voids {
		own := dst[BarNumbers+VoidNumbers*i:][:VoidNumbers]
		d := voidSlopesTo(own, dst[:BarNumbers], b, &b.Voids[i], &u, density)
		byDensity.Add(&d, 1)
	}
	if b.Weighed.Given() {
		var own Sum
		own.bar(b, density)
		k := newWeighing(&own, &b.Weighed)
		k.slopesTo(dst, &byDensity, BarNumbers-WeighedNumbers)
	}
	return byDensity
}

// voidSlopesTo fills own with the derivatives of what a void takes off by its
// numbers, adds those by the bar's own numbers to bar, and returns that by the
// density.
func voidSlopesTo(own, bar []Slope, b *space.Bar, v *space.Void, u *beam, density float64) Slope {
	p, perDensity := voidPiece(b, v, u, density)
	along, across := voidSizes(&p, v)
	own[2], own[3] = p.slope(along), p.slope(across)
	if v.Kind == space.Recess {
		recessSlopes(own, bar, b, v, u, &p, across)
	} else {
		own[0], own[1] = p.slope(piece{x: 1}), p.slope(piece{y: 1})
	}
	own[4] = p.slope(piece{m: p.m / v.Through, inertia: p.inertia / v.Through})
	return p.slope(perDensity)
}

// voidPiece is what a void adds: a negative mass, and its derivative by the
// density.
func voidPiece(b *space.Bar, v *space.Void, u *beam, density float64) (p, perDensity piece) {
	perDensity.m = -v.Along * v.Across * v.Through
	square := (v.Along*v.Along + v.Across*v.Across) / 12
	if v.Kind == space.Hole {
		perDensity.m = -math.Pi / 4 * v.Across * v.Across * v.Through
		square = v.Across * v.Across / 8
	}
	perDensity.inertia = perDensity.m * square
	p = piece{density * perDensity.m, v.At.X, v.At.Y, density * perDensity.inertia}
	if v.Kind == space.Recess {
		along, side := recessAt(b, v, u)
		across := 0.5 * side * (b.Height - v.Across)
		p.x = b.From.X + along*u.ux - across*u.uy
		p.y = b.From.Y + along*u.uy + across*u.ux
	}
	return p, perDensity
}

// voidSizes is how a void's piece grows with its size along and across the bar.
// A hole's diameter is its size across.
func voidSizes(p *piece, v *space.Void) (along, across piece) {
	if v.Kind == space.Hole {
		return piece{}, piece{m: 2 * p.m / v.Across, inertia: 4 * p.inertia / v.Across}
	}
	along = piece{m: p.m / v.Along, inertia: p.inertia/v.Along + p.m*v.Along/6}
	across = piece{m: p.m / v.Across, inertia: p.inertia/v.Across + p.m*v.Across/6}
	return along, across
}

// recessAt is how far along the bar a recess lies, and on which side: 1 to the
// left of the bar's direction, −1 to the right.
func recessAt(b *space.Bar, v *space.Void, u *beam) (along, side float64) {
	rx, ry := v.At.X-b.From.X, v.At.Y-b.From.Y
	return rx*u.ux + ry*u.uy, math.Copysign(1, ry*u.ux-rx*u.uy)
}

// recessSlopes are those that a recess has because its place follows the bar:
// with r from the bar's start to the opening, a = r·u and n = (−uy, ux), its
// middle is P = From + a u + c n, c = ± ½ (height − depth). Turning the bar by dφ
// moves it by dφ (a n + (r·n) u − c u); moving To by dt turns the bar by n·dt/L,
// moving From turns it by the opposite and shifts P along n.
func recessSlopes(own, bar []Slope, b *space.Bar, v *space.Void, u *beam, p *piece, across piece) {
	a, side := recessAt(b, v, u)
	nx, ny := -u.uy, u.ux
	c := 0.5 * side * (b.Height - v.Across)
	rn := (v.At.X-b.From.X)*nx + (v.At.Y-b.From.Y)*ny
	turnX, turnY := a*nx+(rn-c)*u.ux, a*ny+(rn-c)*u.uy
	for axis, k := range [2]struct{ u, n float64 }{{u.ux, nx}, {u.uy, ny}} {
		t := k.n / u.length
		own[axis] = p.slope(piece{x: k.u * u.ux, y: k.u * u.uy})
		p.add(&bar[axis], piece{x: k.n*nx - t*turnX, y: k.n*ny - t*turnY})
		p.add(&bar[2+axis], piece{x: t * turnX, y: t * turnY})
	}
	p.add(&bar[4], piece{x: 0.5 * side * nx, y: 0.5 * side * ny})
	across.x, across.y = -0.5*side*nx, -0.5*side*ny
	own[3] = p.slope(across)
}
