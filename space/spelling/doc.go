// Package spelling guesses which known word a maker meant.
//
// It reads a word and the words that would have been understood, and makes
// the nearest of them, for error messages of the readers. It corrects nothing.
package spelling
