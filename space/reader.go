package space

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"evenswing/space/formula"
	"evenswing/space/material"
)

// reader holds what is known of a rig while its file is read.
type reader struct {
	*source
	mistakes Mistakes
	rig      *Rig
	formulas *formula.Builder
	stock    []material.Material // built in and the file's own
	used     map[string]int      // stock name -> index into rig.Materials
	spoilt   map[string]bool     // materials whose density has a mistake of its own
	tables   map[*Unknown][]int  // materials of the options of choices
	inputs   []formula.Reg       // by unknown; a choice: its index
	bodies   []body              // by pendulum
	writes   []pointedWrite
	picks    []pointedPick
	words    uses
	values   []string      // names of values, in file order
	own      []ownMaterial // materials that the file gives figures for
	held     []heldName    // joints
	cuts     []stockCut    // charges of plates
}

// body is what the file says of one pendulum.
type body struct {
	entry
	section section
	points  map[string]position
	parts   map[string]entry
	hung    bool // what it hangs from is known
}

// pointedWrite is a number of the template that a formula moves.
type pointedWrite struct {
	reg formula.Reg
	to  *float64
}

// pointedPick is a material of the template that a choice decides.
type pointedPick struct {
	unknown int
	table   []int // by option: index into Rig.Materials
	to      *int
}

// Keys of the file as a whole, in the order in which a maker reads them.
var rigKeys = []string{"rig", "gravity", "unknowns", "values", "materials", "pendulums", "release",
	"paper", "pen", "wall", "room", "stock", "targets", "limits", "matters", "tolerances", "score_power"}

func newRig(file string, data []byte) *Rig {
	rig := &Rig{File: file, Source: append([]byte(nil), data...)}
	for c := range rig.Matters {
		rig.Matters[c] = 1
	}
	return rig
}

// readRig reads the file's sections: names first, so that a formula may use
// what stands further down.
func (r *reader) readRig(root spot) {
	r.used = map[string]int{}
	r.tables = map[*Unknown][]int{}
	r.spoilt = map[string]bool{}
	r.words = newUses()
	top := r.section(root, rigKeys)
	r.readName(top)
	r.nameBodies(top)
	r.readUnknowns(top)
	r.readValues(top)
	r.readMaterials(top)
	r.readGravity(top)
	r.readPendulums()
	r.readRelease(top)
	r.readPaper(top)
	r.readPen(top)
	r.readWall(top)
	r.readRoom(top)
	r.readStock(top)
	r.readTargets(top)
	r.readLimits(top)
	r.readMatters(top)
	r.readTolerances(top)
	r.readPower(top)
	r.checkWorkedOut()
}

func (r *reader) readName(top section) {
	e, ok := top.at["rig"]
	if !ok || e.empty() {
		r.rig.Name = defaultName(r.file)
		r.assume("rig", "named "+quoted(r.rig.Name)+" after the file")
		return
	}
	name, ok := r.text(e.spot, "the rig's name")
	if ok && r.fitName(e.spot, name) {
		r.rig.Name = name
	}
}

// fitName refuses a name that cannot be shown.
func (r *reader) fitName(at spot, name string) bool {
	switch {
	case strings.TrimSpace(name) == "":
		r.wrong(at, 0, "a name must not be empty", "", "write a name")
	case utf8.RuneCountInString(name) > maxName:
		r.wrong(at, 0, fmt.Sprintf("a name of %d characters", utf8.RuneCountInString(name)), fmt.Sprintf("at most %d characters", maxName), "shorten it")
	case strings.IndexFunc(name, func(c rune) bool { return !unicode.IsPrint(c) }) >= 0:
		r.wrong(at, 0, "a name with a character that cannot be shown", "any printable text", "remove the character")
	default:
		return true
	}
	return false
}

// assume notes a default that was taken.
func (r *reader) assume(where, text string) {
	r.rig.Assumed = append(r.rig.Assumed, Note{where, text})
}

// finish turns what was read into the rig's template and program.
func (r *reader) finish() {
	rig := r.rig
	rig.program = newProgram(r)
	rig.order = orderSearched(rig.Unknowns)
	rig.doubts = r.doubts()
}
