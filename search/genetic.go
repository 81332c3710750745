package search

import (
	"math"
	"math/rand"

	"github.com/MaxHalford/eaopt"
)

// genome is a candidate in the shape that eaopt works on. One whose score is
// known is never evaluated again.
type genome struct {
	candidate
	known   bool
	parents [2]int64
	ledger  *ledger
}

// Evaluate scores the candidate, once. Its error ends the breeding.
func (g *genome) Evaluate() (float64, error) {
	if !g.known {
		if err := g.ledger.evaluate(&g.candidate, Genetic, g.parents); err != nil {
			return 0, err
		}
		g.known = true
	}
	return g.Score, nil
}

// Mutate and Crossover do nothing: breeder makes children itself.
func (g *genome) Mutate(*rand.Rand) {}

// Crossover does nothing.
func (g *genome) Crossover(eaopt.Genome, *rand.Rand) {}

// Clone copies everything, the known score too.
func (g *genome) Clone() eaopt.Genome {
	c := *g
	c.candidate = g.candidate.clone()
	return &c
}

// breeder is a model of eaopt: differential breeding with success history.
// It is stateful, so it serves one population of one GA.
type breeder struct {
	moves   moves
	dice    *dice
	history *history
	ledger  *ledger
	end     int         // of ledger.used
	parents []*genome   // of this generation, best first
	past    [][]float64 // replaced parents, at most as many as slots
	free    []*genome   // whose memory can be used again
	retired []*genome   // free from the next generation on
}

// breed spends up to the given number of evaluations on the population.
func (is *island) breed(evaluations int) error {
	s, b := is.state, newBreeder(is, evaluations)
	ga, err := b.newGA(b, len(s.Population))
	if err != nil {
		return err
	}
	if err := ga.Minimize(is.inTurn()); err != nil {
		return err
	}
	for i, individual := range ga.Populations[0].Individuals {
		s.Population[i] = individual.Genome.(*genome).candidate
	}
	s.Past = b.past
	return nil
}

func newBreeder(is *island, evaluations int) *breeder {
	return &breeder{
		moves: is.moves, dice: is.nextDice(), history: &is.state.History, ledger: is.ledger,
		end: is.ledger.used + evaluations, past: is.state.Past,
	}
}

// inTurn hands out the population, whose scores are known.
func (is *island) inTurn() func(*rand.Rand) eaopt.Genome {
	k := -1
	return func(*rand.Rand) eaopt.Genome {
		k++
		return &genome{candidate: is.state.Population[k], known: true, ledger: is.ledger}
	}
}

func (b *breeder) newGA(model eaopt.Model, size int) (*eaopt.GA, error) {
	return eaopt.GAConfig{
		NPops: 1, PopSize: uint(size), NGenerations: math.MaxInt, HofSize: 1,
		Model:     model,
		RNG:       rand.New(b.dice),
		EarlyStop: func(*eaopt.GA) bool { return b.ledger.used >= b.end },
	}.NewGA()
}

// Validate has nothing to refuse.
func (b *breeder) Validate() error { return nil }

// Apply makes one child for each slot of the sorted population, until the
// evaluations are spent. A child that is no worse takes the slot.
func (b *breeder) Apply(pop *eaopt.Population) error {
	b.freeze(pop.Individuals)
	for i := range pop.Individuals {
		if b.ledger.used >= b.end {
			break
		}
		if err := b.challenge(&pop.Individuals[i], i); err != nil {
			return err
		}
	}
	b.history.learn()
	return nil
}

// freeze keeps the parents of a generation and frees what the last one left.
func (b *breeder) freeze(individuals eaopt.Individuals) {
	b.parents = b.parents[:0]
	for i := range individuals {
		b.parents = append(b.parents, individuals[i].Genome.(*genome))
	}
	b.free = append(b.free, b.retired...)
	b.retired = b.retired[:0]
}

// challenge makes a child for slot i and lets the better one have the slot.
func (b *breeder) challenge(slot *eaopt.Individual, i int) error {
	child := b.spare()
	f, cr := b.history.draw(b.dice)
	b.conceive(child, i, f, cr)
	individual := eaopt.Individual{Genome: child}
	if err := individual.Evaluate(); err != nil {
		return err
	}
	parent := b.parents[i]
	if child.Score > parent.Score {
		b.free = append(b.free, child)
		return nil
	}
	if child.Score < parent.Score {
		b.history.succeed(f, cr, parent.Score-child.Score)
	}
	b.remember(parent)
	*slot = individual
	return nil
}

// conceive draws the others that take part and has the child moved.
func (b *breeder) conceive(child *genome, i int, f, cr float64) {
	n := len(b.parents)
	x := b.parents[i]
	best := b.parents[b.dice.intn(max(2, int(topShare*float64(n))))]
	r1 := i
	for r1 == i {
		r1 = b.dice.intn(n)
	}
	r2 := i
	for r2 == i || r2 == r1 {
		r2 = b.dice.intn(n + len(b.past))
	}
	child.known, child.parents = false, [2]int64{x.ID, best.ID}
	b.moves.childTo(child.Point, x.Point, best.Point, b.parents[r1].Point, b.other(r2), f, cr, b.dice)
}

// other is a parent or, counted on from there, a replaced one.
func (b *breeder) other(k int) []float64 {
	if k < len(b.parents) {
		return b.parents[k].Point
	}
	return b.past[k-len(b.parents)]
}

// topShare of the population serves as the best.
const topShare = 0.15

// spare gives a genome whose memory nobody uses.
func (b *breeder) spare() *genome {
	if n := len(b.free); n > 0 {
		g := b.free[n-1]
		b.free = b.free[:n-1]
		return g
	}
	return &genome{candidate: candidate{Point: make([]float64, len(b.parents[0].Point))}, ledger: b.ledger}
}

// remember copies a replaced parent into the past, over a random one when the
// past is as large as the population. The genome itself is still a parent of
// this generation.
func (b *breeder) remember(parent *genome) {
	if len(b.past) < len(b.parents) {
		b.past = append(b.past, append([]float64(nil), parent.Point...))
	} else {
		copy(b.past[b.dice.intn(len(b.past))], parent.Point)
	}
	b.retired = append(b.retired, parent)
}
