// Package search decides which design to try next.
//
// It reads a rig's Evaluator and a Plan, and works through a grid of tasks
// (epoch, island): spread points, genetic search, Nelder-Mead. Every
// evaluation leaves as a Row through a Recorder; what the next epoch needs
// leaves through a Store. Package output implements both. This package opens
// no file and prints nothing.
package search
