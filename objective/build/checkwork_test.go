package build

import (
	"math"
	"strings"
)

// checkWork says, for every check by its name, how this package works it out.
func checkWork() map[string]func(check) figures {
	all := map[string]func(check) figures{}
	for _, part := range []map[string]func(check) figures{
		pivotWork(), factorWork(), sectionWork(), barWork(), screwWork(), wallWork(), glueWork(), edgeWork(), drumWork(), levelWork(),
	} {
		for id, work := range part {
			all[id] = work
		}
	}
	return all
}

func rad(degrees float64) float64 { return degrees * math.Pi / 180 }

func pivotWork() map[string]func(check) figures {
	swing := func(c check) figures { return one(PointFactor(rad(c.in("A_deg")))) }
	all := map[string]func(check) figures{
		"compound_pivot": func(c check) figures {
			down, release, side := Swinging(c.in("m"), c.in("c"), c.in("J"), rad(c.in("A_deg")), standardGravity)
			return figures{"down_at_bottom": down, "vertical_at_release": release, "sideways_at_release": side}
		},
		"compound_sideways_max": func(c check) figures {
			_, _, side := Swinging(c.in("m"), c.in("c"), c.in("J"), rad(c.in("A_deg")), standardGravity)
			return one(side)
		},
	}
	for _, a := range []string{"3", "5", "8", "10", "20", "30"} {
		all["swing_factor_"+a] = swing
	}
	caught := func(c check) figures { return one(Caught(c.in("W"), c.in("k")/mm, c.in("s")*mm)) }
	all["cable_slack5"], all["cable_slack25"] = caught, caught
	return all
}

func factorWork() map[string]func(check) figures {
	return map[string]func(check) figures{
		"k05_bending":    func(check) figures { return one(Fifth) },
		"SF_ec5":         func(check) figures { return one(SafetyLong) },
		"SF_ec5_grain15": func(check) figures { return one(SafetyGrain) },
		"SF_ec5_recess":  func(check) figures { return one(SafetyRecess) },
		"SF_d245":        func(check) figures { return one(SafetyD245) },
		"SF_short":       func(check) figures { return one(SafetyShort) },
	}
}

func (c check) cuts() []Cut {
	var cuts []Cut
	for _, v := range c.Inputs["voids_w_s_y"].([]any) {
		n := v.([]any)
		cuts = append(cuts, Cut{n[0].(float64) * mm, n[1].(float64) * mm, n[2].(float64) * mm})
	}
	return cuts
}

func sectionWork() map[string]func(check) figures {
	work := func(c check) figures {
		s, ok := NetSection(c.in("b")*mm, c.in("h")*mm, c.cuts())
		if !ok {
			return figures{}
		}
		return figures{"A": s.A / 1e-6, "ybar": s.Y0 / mm, "I": s.I / 1e-12, "Ztop": s.ZTop / 1e-9, "Zbot": s.ZBot / 1e-9}
	}
	all := map[string]func(check) figures{}
	for _, id := range []string{"solid_35x60", "edge_recess_12", "face_pocket_10x30", "face_pocket_off", "slot_20", "slot_20_off8", "hole_d10_mid", "hole_d10_off15"} {
		all["section_"+id] = work
	}
	return all
}

// recessed is the section of a bar b x h with an edge recess down to hn.
func recessed(b, h, hn float64) Section {
	s, _ := NetSection(b, h, []Cut{{b, h - hn, hn / 2}})
	return s
}

func barWork() map[string]func(check) figures {
	notch := func(c check) figures {
		return one(NotchFactor(c.in("h")*mm, c.in("hef")*mm, c.in("x")*mm, c.in("i"), c.in("kn")))
	}
	ash := func(factor float64) func(check) figures {
		return func(c check) figures {
			s := recessed(0.035, 0.06, 0.048)
			m := 40 * standardGravity * 0.6 * PointFactor(rad(5))
			return one(c.in("SF") * factor * s.Bending(m, 0) / (c.in("MOR") * mpa))
		}
	}
	return map[string]func(check) figures{
		"kv_x25_i0": notch, "kv_x100_i0": notch, "kv_x100_i4": notch,
		"bar_M": func(c check) figures {
			return one(c.in("m") * standardGravity * c.in("x_m") * PointFactor(rad(c.in("A_deg"))))
		},
		"bar_sigma_recess": func(c check) figures {
			s := recessed(0.035, 0.06, c.in("hn")*mm)
			return one(s.Bending(c.in("M"), 0) / mpa)
		},
		"bar_u_bend": ash(1), "bar_u_bend_tension_side": ash(TensionVoid),
		"bar_tau_notch": func(c check) figures {
			s := recessed(c.in("b")*mm, c.in("h")*mm, c.in("hn")*mm)
			return one(s.Shear(c.in("V"), c.in("b")*mm, c.in("h")*mm) / mpa)
		},
		"bar_u_shear": func(c check) figures {
			s := recessed(0.035, 0.06, 0.048)
			return one(c.in("SF") * s.Shear(40*standardGravity*PointFactor(rad(5)), 0.035, 0.06) / (c.in("fv") * mpa))
		},
		"bar_combined_edge_recess": func(c check) figures {
			s := recessed(c.in("b")*mm, c.in("hn")*mm+c.in("t")*mm, c.in("hn")*mm)
			return one(s.Bending(c.in("M_Nm"), c.in("N")) / mpa)
		},
		"slot_vierendeel": func(c check) figures {
			b, h, s := c.in("b")*mm, c.in("h")*mm, c.in("s")*mm
			net, _ := NetSection(b, h, []Cut{{b, s, 0}})
			leg := (h - s) / 2
			return one((net.Bending(c.in("M_Nm"), 0) + SlotStress(c.in("V"), c.in("Ls")*mm, b, leg, leg)) / mpa)
		},
	}
}

func screwWork() map[string]func(check) figures {
	all := map[string]func(check) figures{
		// Coefficients: a screw of G 1, D 1 mm and 1 mm of thread.
		"coef_lag_ultimate":    func(check) figures { return one(FailingPull(LagScrew, 1, mm, mm)) },
		"coef_lag_allowable":   func(check) figures { return one(Withdrawal(LagScrew, 1, mm, mm, false)) },
		"coef_screw_ultimate":  func(check) figures { return one(FailingPull(WoodScrew, 1, mm, mm)) },
		"coef_screw_allowable": func(check) figures { return one(Withdrawal(WoodScrew, 1, mm, mm, false)) },
		"lat_coef_lag_hard":    func(check) figures { return one(LagSide(mm, true)) },
		"lat_coef_lag_soft":    func(check) figures { return one(LagSide(mm, false)) },
		"lat_coef_screw_I":     func(check) figures { return one(ScrewSide(mm, 1, false)) },
		"lat_coef_screw_II":    func(check) figures { return one(ScrewSide(mm, 2, false)) },
		"lat_coef_screw_III":   func(check) figures { return one(ScrewSide(mm, 3, false)) },
		"lat_coef_screw_IV":    func(check) figures { return one(ScrewSide(mm, 4, false)) },
		"lat_lag8_soft_perp": func(c check) figures {
			return one(LateralLag(c.in("D")*mm, false, true, false) / lateralRule)
		},
		"nds_screw_no10": func(c check) figures {
			return one(Withdrawal(WoodScrew, c.in("G"), c.in("D_in")*inch, inch, false) / pound)
		},
		"etb_screw_no10": func(c check) figures {
			return one(Withdrawal(WoodScrew, c.in("G"), c.in("D_in")*inch, inch, false) / pound)
		},
		"kerf_screw_no8": func(c check) figures {
			return one(FailingPull(WoodScrew, c.in("G"), c.in("D_in")*inch, inch) / pound)
		},
	}
	for _, id := range []string{"0.73_0.25", "0.67_0.375", "0.55_0.375", "0.55_0.5", "0.5_0.3125", "0.5_0.375", "0.42_0.25", "0.31_1"} {
		all["nds_T12.2A_"+id] = func(c check) figures {
			return one(Withdrawal(LagScrew, c.in("G"), c.in("D_in")*inch, inch, false) / pound)
		}
	}
	for _, id := range []string{"lag8_dfir50", "lag8_dfir60", "lag10_dfir70", "lag6_walnut30", "lag6_oak30", "screw4_walnut20", "screw5_ash25", "screw5_dfir30"} {
		all["withdraw_"+id] = pull
	}
	return all
}

func pull(c check) figures {
	kind := WoodScrew
	if strings.HasPrefix(c.ID, "withdraw_lag") {
		kind = LagScrew
	}
	g, d, l := c.in("G"), c.in("D_mm")*mm, c.in("thread_mm")*mm
	f := figures{"allow": Withdrawal(kind, g, d, l, false), "ultimate": FailingPull(kind, g, d, l)}
	if kind == LagScrew {
		f["end_grain_allow"] = Withdrawal(kind, g, d, l, true)
	}
	return f
}

func wallWork() map[string]func(check) figures {
	dowel := func(c check, angle float64) float64 {
		d := Dowel{Root: c.in("Dr") * inch, Wood: 8 * c.in("D") * inch, Plate: 0.25 * inch,
			InWood: c.in("Fem") * psi, InPlate: c.in("Fes") * psi, Screw: c.in("Fyb") * psi, Angle: angle}
		z, mode := d.Side()
		if mode != TwoHinges {
			return 0
		}
		return z
	}
	along := check{Inputs: map[string]any{"Dr": 0.265, "D": 0.375, "Fem": 5600.0, "Fes": 87000.0, "Fyb": 45000.0}}
	across := check{Inputs: map[string]any{"Dr": 0.265, "D": 0.375, "Fem": 3650.0, "Fes": 87000.0, "Fyb": 45000.0}}
	rule := func(across bool, yield float64) func(check) figures {
		return func(c check) figures {
			z := LateralLag(c.in("D")*mm, false, across, false) / lateralRule
			return figures{"rule_N": z, "yield_N": yield, "ratio": yield / z}
		}
	}
	bracket := func(c check) figures {
		b := Bracket{Deep: c.in("d") * mm, Fixings: c.in("n"), Top: c.in("n_top"), Side: c.in("Z"), Pull: c.in("W")}
		t, v := b.Fixing(c.in("P_N"), c.in("e")*mm)
		return figures{"M_static": c.in("P_N") * c.in("e") * mm, "T_per_top": t, "V_per": v, "u": b.Use(c.in("P_N"), c.in("e")*mm)}
	}
	return map[string]func(check) figures{
		"yield_lag_3/8_par":     func(c check) figures { z := dowel(c, 0); return figures{"Z_lb": z / pound, "Z_N": z} },
		"yield_lag_3/8_perp":    func(c check) figures { z := dowel(c, math.Pi/2); return figures{"Z_lb": z / pound, "Z_N": z} },
		"lat_rule_vs_yield_par": rule(false, dowel(along, 0)), "lat_rule_vs_yield_perp": rule(true, dowel(across, math.Pi/2)),
		"bracket_100kg": bracket, "bracket_150kg_300": bracket,
	}
}

func glueWork() map[string]func(check) figures {
	lap := func(c check) figures {
		l := Lap{c.in("Ga") * mpa, c.in("ta") * mm, c.in("E1") * mpa, c.in("t1") * mm, c.in("E2") * mpa, c.in("t2") * mm, c.in("L") * mm}
		return figures{"lam": math.Sqrt(l.Glue/l.Gap*(1/(l.E1*l.T1)+1/(l.E2*l.T2))) * mm, "peak": l.Peak()}
	}
	plate := Plate{Wide: 0.04, Long: 0.05, Sides: 2, Peak: 3, Shear: 9.4 * mpa}
	return map[string]func(check) figures{
		"epoxy_ultimate": func(check) figures { return one(EpoxyShear / mpa) },
		"plate_shear":    func(c check) figures { return one(plate.Stress(c.in("F")) / mpa) },
		"plate_u_walnut": func(c check) figures { return one(plate.Use(500, c.in("SF")/bumpShare)) },
		"lap_peak_L20":   lap, "lap_peak_L50": lap, "lap_peak_L100": lap,
		"peel_moment": func(c check) figures {
			return one(Peel(500, c.in("M_Nmm")/500*mm, c.in("w")*mm, c.in("L")*mm) / mpa)
		},
		// SeatUse against a strength of 2 MPa is the pressure in MPa.
		"bearing_plate_edge": func(c check) figures { return one(SeatUse(c.in("F"), c.in("t")*mm, c.in("l")*mm, 2*mpa)) },
	}
}
