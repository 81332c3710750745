package motion

import "math"

// lattice gives every mode a frame to turn in and a whole number for it.
//
// The frame of mode k is near ω_k. A product of amplitudes and their conjugates
// turns slowly, so it is resonant, when the numbers of its factors, those of
// the conjugates taken away, add up to nought: the frames do then too. Numbers
// count halves of the base frequency Ω, so that a mode that nobody set a target
// for is still seen to meet the others near ½Ω, Ω, 3/2Ω. What is kept as
// resonant without being so costs no accuracy, for its detuning is kept too; a
// term that is transformed away with a small divisor does. A mode that has no
// place among the halves gets a large number of its own, in which it meets
// nothing but modes near itself, its double and its treble.
type lattice struct {
	number [Max]int64
	frame  [Max]float64 // rad/s
}

const (
	// latticeReach is how near a mode must be to a place of the lattice to take
	// it, in units of Ω: half the way to the next one, and a little for
	// rounding. A reach of 0.1 doubled the error of ln drift (0.16 for 0.08 in
	// the 90th percentile) of 1226 rigs with a mode anywhere from 0.45 to
	// 3.55 Ω.
	latticeReach = 0.2501
	// highest bounds the places, in halves of Ω.
	highest = 240
	// farFrom is the first number off the lattice, each further one farTimes the
	// last: more than four factors of up to highest, or three times another's
	// number, can make up.
	farFrom, farTimes = 1009, 101
	// trebles is the largest multiple of a mode off the lattice that another is
	// looked for at: beyond three no term of fourth order meets it.
	trebles = 3
)

// lay places the modes of b.
func (t *lattice) lay(b *Bands) {
	far := int64(farFrom)
	for k := 0; k < b.N; k++ {
		x := b.Multiple[k]
		half := math.Round(2 * x)
		switch {
		case half >= 1 && half <= highest && math.Abs(x-half/2) <= latticeReach:
			t.number[k], t.frame[k] = int64(half), half/2*b.Base
		case !t.follow(b, k):
			t.number[k], t.frame[k] = far, x*b.Base
			far *= farTimes
		}
	}
}

// follow places mode k by a slower one off the lattice; false where none is at
// its frequency, a half or a third of it.
func (t *lattice) follow(b *Bands, k int) bool {
	for l := 0; l < k; l++ {
		if t.number[l] < farFrom {
			continue
		}
		at := t.frame[l] / b.Base
		times := math.Round(b.Multiple[k] / at)
		if times >= 1 && times <= trebles && math.Abs(b.Multiple[k]-times*at) <= latticeReach*at {
			t.number[k], t.frame[k] = int64(times)*t.number[l], times*t.frame[l]
			return true
		}
	}
	return false
}

// maxProducts is the number of products a_k a_l, k ≤ l, of Max amplitudes.
const maxProducts = Max * (Max + 1) / 2

// products lists the products a_k a_l by rising number, so that those that
// resonate with one another stand together.
type products struct {
	count  int
	first  [maxProducts]int // k
	second [maxProducts]int // l ≥ k
	number [maxProducts]int64
	at     [Max][Max]int // of a_k a_l in the list, either order
}

// list fills p for n modes.
func (p *products) list(t *lattice, n int) {
	p.count = 0
	for k := 0; k < n; k++ {
		for l := k; l < n; l++ {
			number := t.number[k] + t.number[l]
			i := p.count
			for ; i > 0 && p.number[i-1] > number; i-- {
				p.first[i], p.second[i], p.number[i] = p.first[i-1], p.second[i-1], p.number[i-1]
			}
			p.first[i], p.second[i], p.number[i] = k, l, number
			p.count++
		}
	}
	for i := 0; i < p.count; i++ {
		k, l := p.first[i], p.second[i]
		p.at[k][l], p.at[l][k] = i, i
	}
}

// twice is how often product i stands in a sum over all k and l.
func (p *products) twice(i int) float64 {
	if p.first[i] == p.second[i] {
		return 1
	}
	return 2
}
