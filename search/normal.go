package search

// even is n, or one more where n is odd.
func even(n int) int { return n + n&1 }

// columnsTo fills columns, one after the other, each of even(rows) entries, with
// those columns of a Jacobian that free names: slopes has rows × genes entries, row
// by row. What makes a column even is nought, and stays so.
func columnsTo(columns, slopes []float64, rows, genes int, free []int) {
	for a, i := range free {
		column := columns[a*even(rows):][:rows]
		for r := range column {
			column[r] = slopes[r*genes+i]
		}
	}
}

// normalTo fills normal, n × n, with JᵀJ: columns are those of J, long entries
// each, even, and one of noughts where n is odd. Every entry is the sum over the
// rows in their order; two by two, so that none waits for another.
func normalTo(normal, columns []float64, long, n int) {
	for a := 0; a < n; a += 2 {
		for b := 0; b <= a; b += 2 {
			p, q, r, s := products(columns, long, a, b)
			normal[a*n+b], normal[b*n+a] = p, p
			if b+1 < n {
				normal[a*n+b+1], normal[(b+1)*n+a] = q, q
			}
			if a+1 < n {
				normal[(a+1)*n+b], normal[b*n+a+1] = r, r
				normal[(a+1)*n+b+1], normal[(b+1)*n+a+1] = s, s
			}
		}
	}
}

// products are those of columns a and a+1 with b and b+1.
func products(columns []float64, long, a, b int) (ab, ab1, a1b, a1b1 float64) {
	p, q := columns[a*long:][:long], columns[(a+1)*long:][:long]
	u, v := columns[b*long:][:long], columns[(b+1)*long:][:long]
	for r := 1; r < len(p); r += 2 {
		x, y, c, d := p[r-1], q[r-1], u[r-1], v[r-1]
		ab, ab1, a1b, a1b1 = ab+x*c, ab1+x*d, a1b+y*c, a1b1+y*d
		x, y, c, d = p[r], q[r], u[r], v[r]
		ab, ab1, a1b, a1b1 = ab+x*c, ab1+x*d, a1b+y*c, a1b1+y*d
	}
	return ab, ab1, a1b, a1b1
}
