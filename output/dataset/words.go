package dataset

import (
	"fmt"

	"github.com/parquet-go/parquet-go"
)

// Words is what a search.Scorer also offers where it can say in words how the
// candidate last scored fared. The words come from a fixed table: they hold no
// numbers of the candidate.
type Words interface {
	// Reason says why the candidate cannot exist; false where it can.
	Reason() (string, bool)
	// WorstLimit names the limit that is hardest to keep; false where there is
	// none.
	WorstLimit() (string, bool)
}

// lexicon numbers the words of one column as they come.
type lexicon struct {
	words  []string
	values []parquet.Value // the same, as the file has them
	last   int
}

// noWord stands where a row has none.
const noWord int16 = -1

// mostWords bounds a lexicon: more of them means that a word holds a number of
// the candidate, which is our own mistake.
const mostWords = 4096

// number finds a word's number. Words come from a table of a few dozen, in long
// runs of the same one: the last is tried first, then all in turn.
func (l *lexicon) number(word string) (int16, error) {
	if l.last < len(l.words) && l.words[l.last] == word {
		return int16(l.last), nil
	}
	for i, w := range l.words {
		if w == word {
			l.last = i
			return int16(i), nil
		}
	}
	if len(l.words) == mostWords {
		return noWord, fmt.Errorf("more than %d different words such as %q in one column: a fault of this program", mostWords, word)
	}
	l.words = append(l.words, word)
	l.values = append(l.values, there(parquet.ByteArrayValue([]byte(word))))
	l.last = len(l.words) - 1
	return int16(l.last), nil
}
