package objective

// listHolding adds the columns of a Holding; put writes the same order.
func listHolding(add func(unit, text string, pieces ...string)) {
	add("", "largest swing, over the working swings, all pendulums scaled together, up to which the drift is allowed; 2: no larger one was tried; 0: it never is", "largest_swing")
	add("", "share of 7 x 7 starting swings of the worst ratio's two pendulums, up to 1.4 times the working ones, at which the drift is allowed", "holds_share")
	add("", "median drift of 50 builds within the tolerances, untuned, worst release of each", "drift_built_median")
	add("", "drift that nine in ten of them stay below", "drift_built_most")
	add("", "drift of the worst of them; null where one cannot exist or tells none", "drift_built_worst")
}

// holdingColumns is how many columns listHolding adds.
const holdingColumns = 5

// put writes the columns; nil: not computed.
func (h *Holding) put(r *rowWriter) {
	if h == nil {
		r.skip(holdingColumns)
		return
	}
	r.put(h.Largest.Scale)
	r.put(h.Share)
	r.optional(h.Built.Median)
	r.optional(h.Built.Most)
	r.optional(h.Built.Worst)
}
