package build

import "math"

var (
	testSteel = Metal{E: 200e9, Poisson: 0.29}
	testBrass = Metal{E: 97e9, Poisson: 0.31}
)

const lineLoad = 500 / 0.032 // N/m: 500 N on 32 mm

func contact(c Contact) figures {
	return figures{"p0": c.Peak / mpa, "half_width": c.Half / mm, "mean": c.Mean / mpa, "tau_max": c.Shear / mpa, "depth": c.Depth / mm}
}

func edgeWork() map[string]func(check) figures {
	plane := Plane(testSteel, testBrass)
	line := func(plane float64) func(check) figures {
		return func(c check) figures { return contact(Line(lineLoad, c.in("r")*mm, plane)) }
	}
	flank := func(c check) figures { return one(Flank(lineLoad, rad(c.in("alpha_deg"))) * mm) }
	all := map[string]func(check) figures{
		"Estar_steel_brass": func(check) figures { return one(plane / mpa) },
		"Estar_steel_steel": func(check) figures { return one(Plane(testSteel, testSteel) / mpa) },
		"hertz_root_r0.5_rg0.8": func(c check) figures {
			return contact(Line(lineLoad, Relative(c.in("r")*mm, c.in("rg")*mm), plane))
		},
		"flank_90": flank, "flank_120": flank,
		"hertz_flank90_r0.5": func(c check) figures {
			return contact(Line(Flank(lineLoad, math.Pi/2), c.in("r")*mm, plane))
		},
		"hertz_flat_steel_r0.1": line(Plane(testSteel, testSteel)), "hertz_flat_steel_r0.5": line(Plane(testSteel, testSteel)),
	}
	for _, r := range []string{"0.1", "0.25", "0.5", "1.0", "1.5"} {
		all["hertz_flat_brass_r"+r] = line(plane)
	}
	for id, work := range yieldWork(plane) {
		all[id] = work
	}
	return all
}

func yieldWork(plane float64) map[string]func(check) figures {
	first := func(c check) figures { return one(Metal{Yield: c.in("Y")}.FirstYield()) }
	// The radius at which the peak pressure is just that of first yield.
	elastic := func(c check) figures {
		p := Metal{Yield: c.in("Y") * mpa}.FirstYield()
		return one(c.in("Fp") / mm * plane / (math.Pi * p * p) / mm)
	}
	bed := func(c check) figures {
		k := Knife{Radius: c.in("r") * mm, Long: 0.032, Edge: testSteel, Seat: testBrass}
		k.Seat.Hardness = c.in("H") * mpa
		u := k.Use(c.in("Fp") / mm).Bedding
		return figures{"u": u, "width": u * bedding * c.in("r")}
	}
	// The edge on a seat of brass of which only the stiffness counts.
	edge := func(m Metal) float64 {
		m.E, m.Poisson = testSteel.E, testSteel.Poisson
		k := Knife{Radius: 0.1 * mm, Long: 0.032, Edge: m, Seat: testBrass}
		return k.Use(lineLoad).Edge
	}
	return map[string]func(check) figures{
		// Plain conversions of units.
		"brass_yield_H02":     func(check) figures { return one(45000 * psi / mpa) },
		"brass_H":             func(check) figures { return one(140 * standardGravity) },
		"steel_60HRC_HV":      func(c check) figures { return one(c.in("HV") * standardGravity) },
		"p0_first_yield_Y310": first, "p0_first_yield_Y140": first,
		"r_elastic_Y310": elastic, "r_elastic_Y140": elastic,
		"bedding_r0.1": bed, "bedding_r0.5": bed,
		"edge_u_60HRC_r0.1": func(c check) figures { return one(edge(Metal{Hardness: c.in("H") * mpa})) },
		"edge_u_mild_r0.1":  func(c check) figures { return one(edge(Metal{Yield: c.in("Y") * mpa})) },
	}
}

func (c check) face() Face {
	return Face{Radius: c.in("a") * mm, Spread: c.in("r0") * mm, Thick: c.in("t") * mm, Poisson: c.in("nu")}
}

func drumWork() map[string]func(check) figures {
	supported := func(c check) figures {
		f := c.face()
		s := f.Stress(c.in("W"))
		return figures{"sigma": s / mpa, "M": s * f.Thick * f.Thick / 6}
	}
	return map[string]func(check) figures{
		"face_ss_30kg": supported, "face_ss_30kg_r60": supported,
		"face_ss_uniform_check": func(c check) figures {
			f := Face{Radius: c.in("a") * mm, Spread: c.in("a") * mm, Thick: mm, Poisson: c.in("nu")}
			m := f.Stress(c.in("W")) * mm * mm / 6
			return figures{"plate": m, "uniform": m}
		},
		"face_fixed_centre": func(c check) figures {
			f := c.face()
			middle, rim := f.Clamped(c.in("W"))
			return figures{"centre": middle / mpa, "edge": rim / mpa}
		},
		"face_u": func(c check) figures {
			f := Face{Radius: 0.172, Spread: 0.15, Thick: 0.006, Poisson: 0.3}
			return one(DefaultSafety * bumpShare * Fifth * f.Stress(Bump*30*standardGravity) / (c.in("fm_weak") * mpa))
		},
		"rim_glue_pull": func(c check) figures {
			p, _ := RimGlue(c.in("W"), c.in("Rm")*mm, c.in("w")*mm)
			return one(p / mpa)
		},
		"rim_glue_shear_inplane": func(c check) figures {
			_, s := RimGlue(c.in("W"), c.in("Rm")*mm, c.in("w")*mm)
			return one(s / mpa)
		},
	}
}

func levelWork() map[string]func(check) figures {
	edge := func(c check) figures {
		f, l, e := c.in("F"), c.in("L")*mm, c.in("e")*mm
		q, contact := LineLoad(f, l, e)
		factor := Line(q, mm, 1e11).Peak / Line(f/l, mm, 1e11).Peak
		return figures{"qmax": q * mm, "contact": contact / mm, "p_factor": factor, "u_kern": EdgeUse(e, l), "u_tip": EdgeUse(e, l) / 3}
	}
	all := map[string]func(check) figures{
		"edge_e2": edge, "edge_e5.33": edge, "edge_e8": edge, "edge_e12": edge,
		"e_effective": func(c check) figures {
			return one(OffMiddle(c.in("e")*mm, c.in("c")*mm, rad(c.in("phi_deg")), c.in("Hz_over_F")) / mm)
		},
	}
	// Loose lead by packing: weighed by objective/mass, whose tests have it.
	for _, id := range []string{"0.55", "0.6", "0.635", "0.64"} {
		all["shot_"+id] = func(c check) figures { return one(shotDensity(c.in("phi"))) }
	}
	return all
}
