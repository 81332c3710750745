package build

import "math"

// Bracket is the plate that carries the wall's pendulums: Deep from its
// uppermost fixings down to the edge that it tips about (m), Fixings in all and
// Top in the uppermost row, with what one may take sideways and pulled (N);
// allowable figures, no safety factor on them. A zero Fixings says that none
// is given.
type Bracket struct {
	Deep         float64
	Fixings, Top float64
	Side, Pull   float64
}

// leverArm is the share of Bracket.Deep at which the wall pushes back: the
// pressure under the plate's lower edge is spread. Judgement.
const leverArm = 0.9

// Fixing is what pulls and shears one of the uppermost fixings, N, Bump
// included.
func (b *Bracket) Fixing(weight, standOff float64) (pull, shear float64) {
	if !(b.Deep > 0 && b.Top > 0 && b.Fixings > 0) {
		return math.Inf(1), math.Inf(1)
	}
	pull = Bump * weight * max(0, standOff) / (leverArm * b.Deep * b.Top)
	return pull, Bump * weight / b.Fixings
}

// Use is the utilisation of one of the uppermost fixings under weight (N) that
// hangs at standOff (m) from the wall.
func (b *Bracket) Use(weight, standOff float64) float64 {
	pull, shear := b.Fixing(weight, standOff)
	return ScrewsUse(shear, pull, b.Side, b.Pull)
}

// RowPulls fills dst with the pull (N) of one fixing in each row under moment m
// (N m): m yᵢ/Σ n y² for rows at heights (m) over the edge that the plate tips
// about, n fixings each. Source: plate that stays flat.
func RowPulls(dst, heights []float64, m, each float64) {
	sum := 0.0
	for _, y := range heights {
		sum += each * y * y
	}
	for i, y := range heights {
		dst[i] = divide(m*y, sum)
	}
}
