package motion

// mostPatterns is the largest number of releases that a design is judged by.
const mostPatterns = 8

// Patterns is the number of sign patterns by which a release of n pendulums at
// full swing is judged: all that begin with plus, eight at most.
func Patterns(n int) int {
	if n >= 4 {
		return mostPatterns
	}
	return 1 << max(n-1, 0)
}

// PatternTo fills sign with +1 and −1, by pendulum, for pattern number of
// Patterns(n): every pattern that begins with plus for up to four pendulums,
// beyond that the rows of a Hadamard matrix, so that every two pendulums start
// alike as often as not.
func PatternTo(sign *[Max]float64, n, number int) {
	for i := 0; i < n; i++ {
		turned := number >> max(i-1, 0) & 1 // bit i−1 turns pendulum i
		if n > 4 {
			turned = parity(number & i) // Sylvester's 8 x 8
		}
		sign[i] = 1
		if i > 0 && turned == 1 {
			sign[i] = -1
		}
	}
}

// parity is 1 where an odd number of bits is set.
func parity(x int) int {
	p := 0
	for ; x != 0; x &= x - 1 {
		p ^= 1
	}
	return p
}
