package dataset

import (
	"errors"
	"io"

	"evenswing/objective"
)

// read fills rows rows, span by span; take copies a span to the rows from at
// on. It answers how many rows there were.
func (c *cursor) read(rows int, take func(s span, at int)) (int, error) {
	for at := 0; at < rows; {
		s, err := c.next(rows - at)
		if errors.Is(err, io.EOF) {
			return at, nil
		}
		if err != nil {
			return at, err
		}
		take(s, at)
		at += s.rows
	}
	return rows, nil
}

// spread copies the values of a span to its rows; rows without one get absent.
// seen, where not nil, tells which rows have none.
func spread[T any](dst []T, values []T, s span, absent T, missing []bool) {
	values = values[s.value:]
	if len(s.levels) == 0 {
		copy(dst[:s.rows], values)
		if missing != nil {
			clear(missing[:s.rows])
		}
		return
	}
	n := 0
	for i, level := range s.levels {
		here := level == present
		if missing != nil {
			missing[i] = !here
		}
		if !here {
			dst[i] = absent
			continue
		}
		dst[i] = values[n]
		n++
	}
}

// floatsTo reads the next rows; a missing one is 0 and marked.
func (c *cursor) floatsTo(dst []float32, missing []bool) (int, error) {
	return c.read(len(dst), func(s span, at int) {
		data := c.page.Data()
		spread(dst[at:], data.Float(), s, 0, missing[at:])
	})
}

// int64sTo reads the next rows; a missing one is absent.
func (c *cursor) int64sTo(dst []int64, absent int64) (int, error) {
	return c.read(len(dst), func(s span, at int) {
		data := c.page.Data()
		spread(dst[at:], data.Int64(), s, absent, nil)
	})
}

// int32sTo reads the next rows; a missing one is 0.
func (c *cursor) int32sTo(dst []int32) (int, error) {
	return c.read(len(dst), func(s span, at int) {
		data := c.page.Data()
		spread(dst[at:], data.Int32(), s, 0, nil)
	})
}

// meetsTo reads the next rows of a column of answers, a null one being not
// known. A page holds them one bit each.
func (c *cursor) meetsTo(dst []objective.Meets) (int, error) {
	return c.read(len(dst), func(s span, at int) {
		data := c.page.Data()
		bits, n := data.Boolean(), s.value
		for i := range s.rows {
			answer := objective.NotKnown
			if len(s.levels) == 0 || s.levels[i] == present {
				answer = objective.No + objective.Meets(bits[n/8]>>(n%8)&1)
				n++
			}
			dst[at+i] = answer
		}
	})
}

// wordsTo reads the next rows of a column of words; a missing one is "".
func (c *cursor) wordsTo(dst []string) (int, error) {
	return c.read(len(dst), func(s span, at int) {
		data := c.page.Data()
		numbers, n := data.Int32()[s.value:], 0
		for i := range s.rows {
			dst[at+i] = ""
			if len(s.levels) == 0 || s.levels[i] == present {
				dst[at+i] = c.words[numbers[n]]
				n++
			}
		}
	})
}
