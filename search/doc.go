// Package search decides which design to try next.
//
// It reads a Problem (a rig's Evaluator, see Of) and a Plan, and works through
// a grid of tasks (epoch, island). Every evaluation leaves as a Row through a
// Recorder; what the next epoch needs leaves through a Store. Package output
// implements both. This package opens no file and prints nothing.
//
// One island:
//
//	spread 30 points         (once many: a hundredth of all evaluations, for maps)
//	  -> least squares from the best 3, where the problem knows its residuals;
//	     where one keeps every limit it is an elite, and 15 starts of 16 end here
//	  -> breed 500, polish the best one by Nelder-Mead
//	  -> breed 1000, polish -> breed 2000 -> breed 4000, polish -> ...
//	  -> keeps every limit, or gains no more: the best one is an elite; begin again
//	last fifth: a cloud round all elites, bred to the end
//
// Where a limit needs the averaged motion, the last 70 % are instead
//
//	take up the elites: scored again, with the averaged motion
//	  -> least squares from each, on the residuals of screen and motion
//	  -> Nelder-Mead from each, the best first
//	  -> a cloud round them, bred and polished in turns to the end
//
// In that part a candidate whose screen's score is above the gate is not asked
// to move, and stands behind all that are (behind).
//
// Beginning again is what finds different families of designs; the cloud is
// what makes the best of them better. recipe.go has all the figures.
//
// Islands take nothing from one another. Measured on testdata/rigs/four.yaml
// with 1,000,000 evaluations on four islands and eight seeds: with all elites
// of the neighbour taken over at each epoch the best score fell from 0.050 to
// 0.042 and 90 families became 91; with its best three 0.049 and 92. That
// is not worth an island that must wait for its neighbour, and that is lost
// when its neighbour's file is.
package search
