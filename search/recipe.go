package search

// recipe is how one island spends its evaluations: sizes, shares and patience.
// Every figure was measured; `make bench-search` measures them again.
type recipe struct {
	start        int     // points of a start
	breeders     int     // of them go on to breed
	mapShare     float64 // of all evaluations: the larger spread that the first epoch begins with
	firstRun     int     // evaluations bred in round 0 of a start; each round twice the last,
	longRun      int     // up to this
	polish       int     // Nelder-Mead evaluations per continuous gene
	leastPol     int     // fewer per gene are wasted: breed instead
	descents     int     // points of a start that go down by least squares, where there are residuals
	breedEvery   int     // a start in so many breeds even after one of them met every limit
	apart        float64 // between elites
	elites       int     // at most
	gain         float64 // a start that gained less than this part of its score
	patience     int     // in so many rounds is given up
	shrunk       float64 // scores that differ by no more than this part are as one
	cloud        float64 // last share of an island's evaluations: a cloud round the elites
	cloudSize    int     // its population
	sigma        float64 // and its spread
	gate         float64 // the screen's score up to which the averaged motion is asked
	swingShare   float64 // last share of the evaluations of an island whose problem limits the motion
	descendShare float64 // of that: the share that descents by least squares may take
	polishShare  float64 // and the share at which polishing the elites one by one ends
	swingSigma   float64 // spread of the cloud then: the motion has narrow valleys
	swingRun     int     // evaluations bred between two polishings
	leastLeft    int     // a new start or a cloud needs so many evaluations in its task
	leastAll     int     // an island of fewer evaluations has no cloud
}

var standard = recipe{
	start: 30, breeders: 30, mapShare: 0.01,
	firstRun: 500, longRun: 4000,
	polish: 150, leastPol: 60,
	descents: 3, breedEvery: 16,
	apart: 0.1, elites: 500,
	gain: 0.05, patience: 4, shrunk: 1e-6,
	cloud: 0.2, cloudSize: 60, sigma: 0.1,
	gate: 2, swingShare: 0.7, descendShare: 0.5, polishShare: 0.9, swingRun: 4000, swingSigma: 0.03,
	leastLeft: 1000, leastAll: 12_000,
}

// polished tells whether a round ends with Nelder-Mead: rounds 0, 1, 3, 7, 15.
func polished(round int) bool {
	return round < 16 && round&(round+1) == 0
}
