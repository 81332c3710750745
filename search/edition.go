package search

// Edition numbers the arithmetic. It rises by one with every change, of this
// package or of `objective`, that makes a candidate's figures or a plan's rows
// others than before, if only in the last bit or by a column more: a run is
// carried on by the edition that began it and by no other, so that no run mixes
// rows of two. TestEdition notices such changes and says what to do.
const Edition = 6
