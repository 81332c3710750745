package motion

import "math"

// mostSamples is the largest number of samples in a slow period.
const mostSamples = 256

// slow turns samples of a motion's modal z into slow amplitudes.
//
// In the frame that turns with n_kΩ,
//
//	a_k(m) = Σ_j w_j z_k(t) e^(−i n_k Ω t),  t = (m + j/per) 2π/Ω, |j| < per,
//
// w_j = (1 + cos(πj/per))/(2 per): a Hann window over two slow periods, which
// takes out whatever differs by a whole multiple of Ω from the frame. The plain
// mean over the slow period that begins at m comes with it, since the falling
// half of one window and the rising half of the next add up to 1.
type slow struct {
	n, per int
	period float64 // 2π/Ω, s
	fall   [mostSamples]float64
	turn   [mostSamples][Max][2]float64 // e^(−i n_k Ω j period/per)
	frame  [Max]float64                 // n_kΩ
	whole  [Max]bool                    // n_k is whole: the frame is back after a period

	falling, rising [Max][2]float64
	before          [Max][2]float64 // the rising half of the period before
	count           int             // slow periods closed
	hann            []modal         // a(m) for m = 1, 2, ...
	plain           []modal         // means over the slow periods from m = 0 on
}

// open readies s for a motion with per samples a slow period.
func (s *slow) open(b *Bands, per int) {
	s.n, s.per, s.period = b.N, per, 2*math.Pi/b.Base
	s.count = 0
	s.hann, s.plain = s.hann[:0], s.plain[:0]
	s.falling, s.rising, s.before = [Max][2]float64{}, [Max][2]float64{}, [Max][2]float64{}
	for j := 0; j < per; j++ {
		s.fall[j] = (1 + math.Cos(math.Pi*float64(j)/float64(per))) / 2
		for k := 0; k < s.n; k++ {
			sin, cos := math.Sincos(-2 * math.Pi * b.Multiple[k] * float64(j) / float64(per))
			s.turn[j][k] = [2]float64{cos, sin}
		}
	}
	for k := 0; k < s.n; k++ {
		s.frame[k] = b.Multiple[k] * b.Base
		s.whole[k] = b.Multiple[k] == math.Round(b.Multiple[k])
	}
}

// take adds sample j of the present slow period, from 0 up.
func (s *slow) take(j int, z *modal) {
	f := s.fall[j]
	r := 1 - f
	for k := 0; k < s.n; k++ {
		t := &s.turn[j][k&7]
		a, b := z.re[k&7], z.im[k&7]
		x, y := a*t[0]-b*t[1], a*t[1]+b*t[0]
		s.falling[k&7][0] += f * x
		s.falling[k&7][1] += f * y
		s.rising[k&7][0] += r * x
		s.rising[k&7][1] += r * y
	}
}

// close ends the slow period of which per samples were taken.
func (s *slow) close() {
	var hann, plain modal
	scale := 1 / float64(s.per)
	for k := 0; k < s.n; k++ {
		c, q := 1.0, 0.0
		if !s.whole[k] {
			q, c = math.Sincos(-s.frame[k] * s.period * float64(s.count))
		}
		f, r := times(s.falling[k], c, q), times(s.rising[k], c, q)
		plain.re[k], plain.im[k] = (f[0]+r[0])*scale, (f[1]+r[1])*scale
		hann.re[k], hann.im[k] = (f[0]+s.before[k][0])*scale, (f[1]+s.before[k][1])*scale
		s.before[k] = r
	}
	s.plain = append(s.plain, plain)
	if s.count > 0 {
		s.hann = append(s.hann, hann)
	}
	s.falling, s.rising = [Max][2]float64{}, [Max][2]float64{}
	s.count++
}

// times is z turned by the unit number c + i s.
func times(z [2]float64, c, s float64) [2]float64 {
	return [2]float64{z[0]*c - z[1]*s, z[0]*s + z[1]*c}
}
