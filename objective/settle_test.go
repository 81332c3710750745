package objective

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenswing/space"

	"gonum.org/v1/gonum/mat"
)

// settler is a plain Levenberg-Marquardt in the cube, for the test alone: it
// shows that residuals and slopes lead somewhere, whoever uses them.
type settler struct {
	w    *Workspace
	r    *Residuals
	used int // evaluations; a Jacobian counts as 4
	met  int // evaluations when all limits were first kept
}

func (s *settler) score(p, dst []float64) (cost float64) {
	v := s.w.Score(p)
	s.used++
	if s.met == 0 && v.Meets == Yes {
		s.met = s.used
	}
	if !s.r.To(dst) {
		return math.Inf(1)
	}
	for _, x := range dst {
		cost += x * x
	}
	return cost
}

// settle goes downhill from p until all limits are kept or limit evaluations
// are spent.
func (s *settler) settle(p []float64, limit int) {
	n, m := s.r.Len(), len(p)
	at, next, jacobian := make([]float64, n), make([]float64, n), make([]float64, n*m)
	cost, lambda, failures := s.score(p, at), 1e-2, 0
	s.r.SlopesTo(jacobian)
	s.used += 4
	for s.met == 0 && s.used < limit && failures < 8 {
		trial := step(p, at, jacobian, lambda)
		if c := s.score(trial, next); c < cost {
			copy(p, trial)
			copy(at, next)
			s.r.SlopesTo(jacobian)
			s.used += 4
			cost, lambda, failures = c, lambda/4, 0
		} else {
			lambda *= 5
			failures++
		}
	}
}

// step is (JᵀJ + λ(diag + 1)) s = −Jᵀr within the cube: coordinates that lean on
// a bound are left out.
func step(p, at, jacobian []float64, lambda float64) []float64 {
	m := len(p)
	j := mat.NewDense(len(at), m, slices.Clone(jacobian))
	var gradient mat.VecDense
	gradient.MulVec(j.T(), mat.NewVecDense(len(at), at))
	var square mat.Dense
	square.Mul(j.T(), j)
	held := make([]bool, m)
	for {
		a, b := mat.NewDense(m, m, nil), mat.NewVecDense(m, nil)
		for i := range m {
			a.Set(i, i, 1)
			if held[i] {
				continue
			}
			b.SetVec(i, -gradient.AtVec(i))
			for k := range m {
				if !held[k] {
					a.Set(i, k, square.At(i, k))
				}
			}
			a.Set(i, i, square.At(i, i)+lambda*(square.At(i, i)+1))
		}
		var s mat.VecDense
		if err := s.SolveVec(a, b); err != nil {
			return slices.Clone(p)
		}
		again, largest := false, 0.0
		for i := range m {
			if x := s.AtVec(i); !held[i] && (x < 0 && p[i] <= 0 || x > 0 && p[i] >= 1) {
				held[i], again = true, true
			}
			largest = math.Max(largest, math.Abs(s.AtVec(i)))
		}
		if again {
			continue
		}
		trial, shrink := slices.Clone(p), math.Min(1, 0.25/largest)
		for i := range trial {
			trial[i] = math.Max(0, math.Min(1, p[i]+shrink*s.AtVec(i)))
		}
		return trial
	}
}

// settleFrom starts from the best three of 30 random points and counts the
// evaluations until a design keeps every limit.
func settleFrom(rig *space.Rig, seed uint64) int {
	w := New(rig).NewWorkspace()
	s := &settler{w: w, r: w.NewResiduals()}
	rng := rand.New(rand.NewPCG(seed, 9))
	type start struct {
		point []float64
		score float64
	}
	var starts []start
	for range 30 {
		p := make([]float64, rig.Dim())
		for i := range p {
			p[i] = rng.Float64()
		}
		starts = append(starts, start{p, w.Score(p).Score})
	}
	s.used = len(starts)
	slices.SortFunc(starts, func(a, b start) int {
		if a.score < b.score {
			return -1
		}
		return 1
	})
	for _, st := range starts {
		if s.met > 0 {
			break
		}
		s.settle(st.point, s.used+900)
	}
	return s.met
}

// TestResidualsSettle: least squares on these residuals meets every limit of
// four.yaml, of the same with worked-out levels, after a few hundred evaluations.
func TestResidualsSettle(t *testing.T) {
	for name, rig := range map[string]*space.Rig{"four": loadRig(t, "four.yaml"), "two levels worked out": fourWith(t, twoLevels...)} {
		var met []int
		for seed := range uint64(40) {
			met = append(met, settleFrom(rig, seed))
		}
		slices.Sort(met)
		t.Logf("%s: first meets after %d, median %d, 90 %% by %d evaluations", name, met[0], met[20], met[36])
		if met[0] == 0 || met[20] > 150 || met[36] > 400 {
			t.Errorf("%s: first meets after %v evaluations", name, met)
		}
	}
}
