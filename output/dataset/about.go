package dataset

import (
	"encoding/json"
	"fmt"

	"evenswing/objective"
	"evenswing/search"
)

// The keys of what every file says about itself.
const (
	keyRig     = "evenswing.rig"     // the rig file, as it was read
	keyPlan    = "evenswing.plan"    // search.Plan as JSON
	keyColumns = "evenswing.columns" // list of columnNote as JSON
	keyVersion = "evenswing.version" // of the program that wrote it
	keyCounts  = "evenswing.counts"  // Counts as JSON
)

// About is what a file says about where it comes from.
type About struct {
	Rig     []byte // the rig file
	Plan    search.Plan
	Version string // of the program
}

// columnNote describes a column in the file.
type columnNote struct {
	Name        string `json:"name"`
	Unit        string `json:"unit"`
	Description string `json:"description"`
	Kind        string `json:"kind"`
	Index       int    `json:"index"` // which unknown, subject or limit, by kind
}

var kindNames = map[objective.ColumnKind]string{
	objective.UnknownColumn:     "unknown",
	objective.FigureColumn:      "figure",
	objective.UtilisationColumn: "utilisation",
	objective.VerdictColumn:     "verdict",
}

// rowNotes describe the columns that every rig has.
var rowNotes = []columnNote{
	{Name: ColumnID, Description: "the candidate's number, unique in the run: epoch, island and number within the task", Kind: "row"},
	{Name: ColumnEpoch, Description: "epoch of the task that tried it", Kind: "row"},
	{Name: ColumnIsland, Description: "island of the task that tried it", Kind: "row"},
	{Name: ColumnStage, Description: "part of the search that asked for it; spread: even over the space", Kind: "row"},
	{Name: ColumnParentA, Description: "id of a candidate it was bred from; null where not known", Kind: "row"},
	{Name: ColumnParentB, Description: "id of the other candidate it was bred from; null where not known", Kind: "row"},
	{Name: ColumnMeets, Description: "keeps every limit that the rig file writes; null while one of them is not computed", Kind: "verdict"},
	{Name: ColumnExists, Description: "can be built and has a rest pose", Kind: "verdict"},
	{Name: ColumnReason, Description: "why it cannot exist; null where it can", Kind: "verdict"},
	{Name: ColumnLimit, Description: "the limit that is hardest to keep; null where nothing is limited", Kind: "verdict"},
}

// RowColumns describes the columns that every rig has: name and description,
// for a table of what a run's files hold.
func RowColumns() (names, descriptions []string) {
	for _, n := range rowNotes {
		names = append(names, n.Name)
		descriptions = append(descriptions, n.Description)
	}
	return names, descriptions
}

func (a About) metadata(l *Layout) (map[string]string, error) {
	notes := append([]columnNote(nil), rowNotes...)
	for _, c := range l.Columns {
		notes = append(notes, columnNote{c.Name, c.Unit, c.Text, kindNames[c.Kind], c.Index})
	}
	columns, err := json.Marshal(notes)
	if err != nil {
		return nil, err
	}
	plan, err := json.Marshal(a.Plan)
	if err != nil {
		return nil, err
	}
	return map[string]string{
		keyRig: string(a.Rig), keyPlan: string(plan), keyColumns: string(columns), keyVersion: a.Version,
	}, nil
}

// readColumns is the other way: the float columns of a file's note.
func readColumns(text string) ([]objective.Column, error) {
	var notes []columnNote
	if err := json.Unmarshal([]byte(text), &notes); err != nil {
		return nil, fmt.Errorf("its list of columns cannot be read: %w", err)
	}
	own := make(map[string]bool, len(rowNotes))
	for _, n := range rowNotes {
		own[n.Name] = true
	}
	kinds := make(map[string]objective.ColumnKind, len(kindNames))
	for k, name := range kindNames {
		kinds[name] = k
	}
	var columns []objective.Column
	for _, n := range notes {
		if !own[n.Name] {
			columns = append(columns, objective.Column{Name: n.Name, Unit: n.Unit, Text: n.Description, Kind: kinds[n.Kind], Index: n.Index})
		}
	}
	return columns, nil
}
