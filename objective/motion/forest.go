package motion

import "evenswing/space"

// Max is the largest number of bodies in a forest.
const Max = space.MaxPendulums

// MaxPairs is the largest number of (ancestor, descendant) pairs.
const MaxPairs = Max * (Max - 1) / 2

// Body is one rigid body in its own frame, whose origin is its own pivot and
// whose axes are those of the wall in the design pose.
type Body struct {
	Mass    float64   // kg
	Cg      space.Vec // centre of gravity, m
	Inertia float64   // about the centre of gravity, kg m²
	Reach   float64   // Σ|m||c| over its parts, kg m: the yardstick for "neutral"
	Pivot   space.Vec // its pivot in the parent's frame, m
}

// Pair is an ancestor I of a descendant J; Via is the child of I through which
// J hangs (J itself if it is that child).
type Pair struct{ I, J, Via int }

// Forest is who hangs from whom. It is immutable.
type Forest struct {
	N      int
	Parent [Max]int // space.Wall for a body on the wall
	Order  [Max]int // parents before their children
	Pairs  []Pair   // by descendant in Order, nearest ancestor first
}

// NewForest makes the forest of the given parents, which must be free of
// cycles and at most Max.
func NewForest(parents []int) *Forest {
	f := &Forest{N: len(parents)}
	copy(f.Parent[:], parents)
	placed := make([]bool, f.N)
	for at := 0; at < f.N; {
		before := at
		for i, p := range parents {
			if !placed[i] && (p == space.Wall || placed[p]) {
				placed[i] = true
				f.Order[at] = i
				at++
			}
		}
		if at == before {
			panic("motion: the parents form a cycle")
		}
	}
	for _, j := range f.Order[:f.N] {
		via := j
		for i := parents[j]; i != space.Wall; i = parents[i] {
			f.Pairs = append(f.Pairs, Pair{i, j, via})
			via = i
		}
	}
	return f
}
