package objective

import (
	"slices"

	"evenswing/objective/build"
	"evenswing/objective/motion"
	"evenswing/space"
)

// BuiltAccount is what a design takes to be built: loads, how it gives, and what to
// mind. A pointer that is nil stands for a figure that the file's data do not tell.
type BuiltAccount struct {
	Pendulums []BuiltPendulum `json:"pendulums"`
	Weight    float64         `json:"wall_weight_n"`
	PullOut   *float64        `json:"wall_pull_out_nm"`     // moment of the weights away from the wall
	Fixing    *float64        `json:"fixing_pull_n"`        // on one uppermost fixing, a doubled load
	Safety    float64         `json:"safety_factor"`        // on the strength of bars
	Loads     []LoadAccount   `json:"loads"`                // of every pivot, section, joint, face and fixing
	Sprung    bool            `json:"springing_in_periods"` // the periods told hold the springing of the bars
	Cautions  []string        `json:"cautions"`
	Lead      *string         `json:"lead"` // the caution of lead, where the rig may hold any
}

// BuiltPendulum is one pendulum of it. The shifts are relative changes of its own
// period; Spring is the springing of the bars in the swing, which the periods hold
// where BuiltAccount.Sprung.
type BuiltPendulum struct {
	Name     string   `json:"name"`
	Factor   float64  `json:"pivot_factor"` // largest load while swinging over the weight
	Side     float64  `json:"pivot_side_n"`
	Offset   *float64 `json:"edge_offset_m"` // of the weight from the edge's middle, along z
	Lean     *float64 `json:"lean_rad"`      // out of plane, if the edge let it
	Friction float64  `json:"friction_nm"`
	Sag      *float64 `json:"sag_m"`
	BySag    *float64 `json:"period_by_sag"`
	ByEdge   float64  `json:"period_by_edge"`
	ByBrace  float64  `json:"period_by_bracket"`
	Spring   *float64 `json:"period_by_springing"`
}

// Built tells of the candidate last scored; nil where it cannot exist or a number is
// none. It works everything out and allocates.
func (w *Workspace) Built() *BuiltAccount {
	if !w.Exists {
		return nil
	}
	c, d := &w.construction, w.Design()
	if !c.done {
		w.complete(d)
	}
	if !c.done {
		return nil
	}
	a := &BuiltAccount{Weight: c.strength.Hanging, Safety: c.b.SafetyFactor(), Loads: w.loads(), Sprung: c.sprung, Cautions: w.Cautions()}
	if slices.Contains(a.Cautions, leadCaution) {
		lead := leadCaution
		a.Lead = &lead
	}
	if c.strength.StandOffs {
		moment := c.strength.PullOut
		a.PullOut = &moment
	}
	if c.strength.Wall.Known {
		pull := c.strength.Pull
		a.Fixing = &pull
	}
	var edges, bracket, spring, radius [motion.Max]float64
	for i := range d.Pendulums {
		radius[i] = build.Rolls(&d.Pendulums[i])
	}
	build.EdgesTo(&edges, w.evaluator.forest, &w.rest, &w.modes, &radius)
	build.BracketTo(&bracket, &w.rest, &w.modes, d.BracketStiffness.Value)
	springs := c.b.SpringTo(&spring)
	for i := range d.Pendulums {
		own := w.modes.Own[i]
		p := w.builtPendulum(i, d)
		p.ByEdge, p.ByBrace = edges[own], bracket[own]
		if springs {
			p.Spring = &spring[own]
		}
		a.Pendulums = append(a.Pendulums, p)
	}
	return a
}

func (w *Workspace) builtPendulum(i int, d *space.Design) BuiltPendulum {
	c := &w.construction
	p := BuiltPendulum{
		Name: w.evaluator.rig.Pendulums[i].Name, Factor: c.pivots[i].Factor, Side: c.pivots[i].Side, Friction: w.friction(d, i),
	}
	if b := c.balances[i]; b.Known {
		p.Offset, p.Lean = &b.Off, &b.Tilt
	}
	if s := c.b.Sags()[i]; c.sagged && s.Known {
		p.Sag = &s.Most
		p.BySag = w.shiftBySag(i)
	}
	return p
}

// shiftBySag is what sag changes of the own period of pendulum i: against the modes
// of the rig as drawn.
func (w *Workspace) shiftBySag(i int) *float64 {
	var modes motion.Modes
	if !w.evaluator.forest.ModesTo(&modes, &w.construction.level) {
		return nil
	}
	shift := modes.Omega[modes.Own[i]]/w.modes.Omega[w.modes.Own[i]] - 1
	return &shift
}

const leadCaution = "Lead is poison: seal every face, wear gloves, wash before eating, raise no dust, melt none at home, keep children away."

// Cautions are what to mind beside every figure of load, wall or lead: those that
// hold for every rig, and lead's where the rig may hold any.
func (w *Workspace) Cautions() []string {
	list := []string{
		"Estimates, not an engineer's check: clear, straight, dry wood is assumed. Local codes and licensed practice come first.",
		"Fix to structure, never to board or plaster. Give every pendulum a second hold, such as a steel cable with little slack, and keepers at its pivot.",
		"Keep people, beds and pets from under it and out of its swing; lock it when left. Look over joints, screws and edges every month at first.",
	}
	for i := range w.evaluator.rig.Materials {
		if m := &w.evaluator.rig.Materials[i]; m.Name == "lead" {
			list = append(list, leadCaution)
		}
	}
	return list
}
