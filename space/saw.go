package space

import "slices"

// Sheets is how many sheets of a size the pieces take, each with a saw cut of
// kerf beside it, and how many pieces fit none: laid out in rows, the deepest
// first, each row as deep as its first piece. turn says that a piece may lie
// either way.
func Sheets(pieces []Vec, size Vec, kerf float64, turn bool) (sheets, misfits int) {
	return new(saw).sheets(pieces, size, kerf, turn)
}

// saw is the scratch space of Sheets: pieces in order, rows, and how deep the rows of
// each sheet are together.
type saw struct {
	list []Vec
	rows []strip
	used []float64
}

// strip is one row: its sheet, how deep it is and how far it is full.
type strip struct {
	sheet      int
	deep, full float64
}

func (s *saw) sheets(pieces []Vec, size Vec, kerf float64, turn bool) (sheets, misfits int) {
	s.list, s.rows, s.used = s.list[:0], s.rows[:0], s.used[:0]
	for _, p := range pieces {
		if turn && p.X < p.Y {
			p.X, p.Y = p.Y, p.X
		}
		switch {
		case p.X <= size.X+sameSize && p.Y <= size.Y+sameSize:
			s.list = append(s.list, p)
		case turn && p.Y <= size.X+sameSize && p.X <= size.Y+sameSize:
			s.list = append(s.list, Vec{p.Y, p.X})
		default:
			misfits++
		}
	}
	slices.SortStableFunc(s.list, func(a, b Vec) int {
		if a.Y != b.Y {
			return sign(b.Y - a.Y)
		}
		return sign(b.X - a.X)
	})
	for _, p := range s.list {
		s.lay(p, size, kerf)
	}
	return len(s.used), misfits
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// lay puts a piece into the first sheet that has room: into a row of it, or a new one.
func (s *saw) lay(p, size Vec, kerf float64) {
	for k := range s.used {
		for i := range s.rows {
			if row := &s.rows[i]; row.sheet == k && p.Y <= row.deep+sameSize && row.full+p.X <= size.X+sameSize {
				row.full += p.X + kerf
				return
			}
		}
		if s.used[k]+p.Y <= size.Y+sameSize {
			s.rows = append(s.rows, strip{k, p.Y, p.X + kerf})
			s.used[k] += p.Y + kerf
			return
		}
	}
	s.rows = append(s.rows, strip{len(s.used), p.Y, p.X + kerf})
	s.used = append(s.used, p.Y+kerf)
}
