package search

// history is the memory of which steps and crossover rates helped: success
// history of Tanabe and Fukunaga, "Success-history based parameter adaptation
// for differential evolution", IEEE CEC 2013.
type history struct {
	F    []float64 `json:"f"`  // scale of the difference, (0, 1]
	CR   []float64 `json:"cr"` // share of genes that change, [0, 1]
	Next int       `json:"next"`

	successF, successCR, gain []float64 // of this generation
}

const (
	memories = 10
	firstF   = 0.5
	firstCR  = 0.8
	// Spread of the draws round a memory, of the paper.
	spreadF, spreadCR = 0.1, 0.1
)

func newHistory() history {
	h := history{F: make([]float64, memories), CR: make([]float64, memories)}
	for i := range memories {
		h.F[i], h.CR[i] = firstF, firstCR
	}
	return h
}

// draw gives the settings of one child.
func (h *history) draw(d *dice) (f, cr float64) {
	k := d.intn(memories)
	cr = max(0, min(1, h.CR[k]+spreadCR*d.norm()))
	for f <= 0 {
		f = h.F[k] + spreadF*d.cauchy()
	}
	return min(f, 1), cr
}

// succeed notes that a child with these settings beat its parent by gain > 0.
func (h *history) succeed(f, cr, gain float64) {
	h.successF = append(h.successF, f)
	h.successCR = append(h.successCR, cr)
	h.gain = append(h.gain, gain)
}

// learn ends a generation: the next memory becomes the mean of what helped,
// weighted with the gain.
func (h *history) learn() {
	if len(h.gain) == 0 {
		return
	}
	h.F[h.Next] = lehmer(h.successF, h.gain)
	h.CR[h.Next] = lehmer(h.successCR, h.gain)
	h.Next = (h.Next + 1) % memories
	h.successF, h.successCR, h.gain = h.successF[:0], h.successCR[:0], h.gain[:0]
}

// lehmer is Σ w x² / Σ w x for x in [0, 1]; 0 where all x are 0.
func lehmer(x, w []float64) float64 {
	largest := 0.0
	for _, v := range w {
		largest = max(largest, v)
	}
	squares, sum := 0.0, 0.0
	for i, v := range x {
		u := w[i] / largest // no sum overflows
		squares += u * v * v
		sum += u * v
	}
	if sum == 0 {
		return 0
	}
	return min(1, squares/sum)
}
