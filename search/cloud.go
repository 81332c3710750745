package search

import "slices"

// gather puts a cloud round the elites in the place of the population: the
// best elite, and copies of all in turn with noise.
func (is *island) gather() error {
	s, d := is.state, is.nextDice()
	s.restart()
	s.Cloud = true
	s.Population = append(s.Population, s.Elites[0].clone())
	for k := range is.recipe.cloudSize - 1 {
		elite := s.Elites[k%len(s.Elites)]
		if is.ledger.left() == 0 {
			break
		}
		if err := is.meet(is.nearby(elite.Point, d), Genetic, elite.ID); err != nil {
			return err
		}
	}
	slices.SortFunc(s.Population, byScore)
	return nil
}

// nearby is a point at a normal distance sigma in every continuous gene, with
// a stepped or choice gene moved now and then.
func (is *island) nearby(from []float64, d *dice) []float64 {
	point, sigma := make([]float64, len(from)), is.recipe.sigma
	if is.state.Averaging {
		sigma = is.recipe.swingSigma
	}
	for j, x := range from {
		g := is.moves[j]
		switch k := cell(x, g.Count); {
		case g.Count == 0:
			point[j] = inside(x, x+sigma*d.norm())
		case g.Ordered:
			point[j] = middle(step(k, k, g.Count, d), g.Count)
		default:
			point[j] = middle(choose(x, x, false, 0, g.Count, d), g.Count)
		}
	}
	return point
}
