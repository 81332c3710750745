package search

import (
	"math"
	"slices"
	"testing"
)

// Deviates of the right shape; the bounds are five standard errors of the
// sample, so that a right generator of any seed passes.
func TestDice(t *testing.T) {
	const n = 100_000
	d := newDice(7, Task{3, 2}, 1)
	sum, words, quartile := 0.0, [5]int{}, 0
	for range n {
		u := d.float()
		if u < 0 || u >= 1 {
			t.Fatalf("float gave %v", u)
		}
		sum += u
		words[d.intn(5)]++
		if math.Abs(d.cauchy()) < 1 { // half of a Cauchy distribution
			quartile++
		}
	}
	if e := 5 * math.Sqrt(n/12.0); math.Abs(sum-n/2) > e {
		t.Errorf("the mean of float is %v", sum/n)
	}
	if e := 5 * math.Sqrt(n/4.0); math.Abs(float64(quartile)-n/2) > e {
		t.Errorf("%d of %d Cauchy deviates lie within 1", quartile, n)
	}
	for k, c := range words {
		if e := 5 * math.Sqrt(n*0.16); math.Abs(float64(c)-n/5) > e {
			t.Errorf("intn(5) gave %d %d times of %d", k, c, n)
		}
	}
}

// Every step of every task has a generator of its own.
func TestDiceDiffer(t *testing.T) {
	var firsts []uint64
	for seed := range uint64(4) {
		for e := range 4 {
			for i := range 4 {
				for step := range 4 {
					firsts = append(firsts, newDice(seed, Task{e, i}, step).Uint64())
				}
			}
		}
	}
	slices.Sort(firsts)
	if n := len(slices.Compact(firsts)); n != 256 {
		t.Errorf("256 generators begin with %d numbers", n)
	}
}

// Runs of one version go on with one another: the numbers must not change.
// Computed by this package.
func TestDiceStay(t *testing.T) {
	d := newDice(1, Task{0, 0}, 1)
	if a, b := d.Uint64(), d.Uint64(); a != firstNumber || b != secondNumber {
		t.Errorf("the first numbers are %d and %d", a, b)
	}
}

const firstNumber, secondNumber uint64 = 9189421447669429285, 14824484997403602003

func TestShuffle(t *testing.T) {
	d := newDice(1, Task{}, 1)
	var seen [6]int
	for range 6000 {
		order := []int{9, 9, 9}
		d.shuffleTo(order)
		seen[slices.Index([]int{12, 21, 102, 120, 201, 210}, 100*order[0]+10*order[1]+order[2])]++
	}
	for k, n := range seen {
		if n < 1000-145 || n > 1000+145 { // five standard errors
			t.Errorf("order %d came %d times of 6000", k, n)
		}
	}
}
