package search

import (
	"math/bits"
	"math/rand/v2"
)

// dice is the source of all chance: a 128-bit permuted congruential generator
// (PCG-DXSM, math/rand/v2), cheap to seed and the same on every machine. It
// also serves as a math/rand Source64.
type dice struct {
	rand.PCG
	normal *rand.Rand
}

// newDice seeds a generator for one step of one task.
func newDice(seed uint64, t Task, step int) *dice {
	h := scramble(seed)
	for _, v := range [...]int{t.Island, t.Epoch, step} {
		h = scramble(h ^ uint64(v))
	}
	d := &dice{}
	d.PCG.Seed(h, scramble(h))
	d.normal = rand.New(&d.PCG)
	return d
}

// scramble is the output function of SplitMix64 (Steele, Lea and Flood 2014):
// neighbouring arguments give unrelated values.
func scramble(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Int63 and Seed make it a source of math/rand.
func (d *dice) Int63() int64 { return int64(d.Uint64() >> 1) }

// Seed is there for math/rand alone.
func (d *dice) Seed(seed int64) { d.PCG.Seed(uint64(seed), scramble(uint64(seed))) }

// float is uniform in [0, 1).
func (d *dice) float() float64 { return float64(d.Uint64()>>11) * 0x1p-53 }

// intn is uniform in [0, n), n > 0 (its bias is below n/2⁶⁴).
func (d *dice) intn(n int) int {
	high, _ := bits.Mul64(d.Uint64(), uint64(n))
	return int(high)
}

// norm is normal with mean 0 and deviation 1.
func (d *dice) norm() float64 { return d.normal.NormFloat64() }

// cauchy is the standard Cauchy deviate: the ratio of the coordinates of a
// point that is uniform in the unit disk.
func (d *dice) cauchy() float64 {
	for {
		x, y := 2*d.float()-1, 2*d.float()-1
		if r := x*x + y*y; r <= 1 && y != 0 {
			return x / y
		}
	}
}

// shuffle puts the numbers 0 to len(dst)-1 into dst in random order.
func (d *dice) shuffleTo(dst []int) {
	for i := range dst {
		j := d.intn(i + 1)
		dst[i] = dst[j]
		dst[j] = i
	}
}
