package drawing

// rulers are the scale bars that a page has room for, m on the page.
var rulers = [2][3]float64{Metric: {0.05, 0.02, 0.01}, Inch: {2 * metresPerInch, metresPerInch, metresPerInch / 2}}

// band writes the key and a scale bar below a picture of a width whose lower
// edge is at y = top.
func (l *linePicture) band(width, top float64) {
	c, s := &l.canvas, l.scale
	left, base := -width/2+lineSurround*s, top+0.4*lineBand*s
	room := width/s - 2*lineSurround - l.key(left, base)/s
	units := min(l.style.Units, Inch)
	for _, length := range rulers[units] {
		whole := 1000*length + lineText*(1.5+lineWidth(units.Length(length*s), false))
		if whole <= room {
			c.ruler(width/2-lineSurround*s-whole*s, base-0.4*c.text, length*s, units)
			return
		}
	}
}

// key writes what the marks are, from the left end on, and tells its width.
func (l *linePicture) key(left, base float64) float64 {
	c, x := &l.canvas, left
	word := func(text string) {
		c.letters(x, base, "start", text, false)
		x += (lineWidth(text, false) + 1) * c.text
	}
	l.startMark("key", x+startRadius*l.scale, base-0.35*c.text)
	x += 1.3 * c.text
	word("start")
	l.endMark("key", x+endRadius*l.scale, base-0.35*c.text)
	x += 1.2 * c.text
	word("end")
	c.line(x, base-0.35*c.text, x+(2*dash+gap)*l.scale, base-0.35*c.text).pen(ink, outlineWeight).
		str("stroke-dasharray", coordinate(dash*l.scale)+" "+coordinate(gap*l.scale)).done()
	x += 1.8 * c.text
	word("off the sheet")
	return x - left
}
