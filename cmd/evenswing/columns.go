package main

import (
	"fmt"
	"os"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/output/dataset"
)

type columnsCommand struct {
	Rig  string `arg:"" help:"The rig file, or the folder of a run: the columns depend on it."`
	JSON bool   `name:"json" help:"Print a JSON list."`
}

// columnLine is one column as it is printed.
type columnLine struct {
	Name string `json:"name"`
	Unit string `json:"unit"`
	Kind string `json:"kind"`
	Text string `json:"description"`
}

func (c *columnsCommand) Run(to *console) error {
	e, err := c.evaluator()
	if err != nil {
		return err
	}
	var list []columnLine
	names, texts := dataset.RowColumns()
	for i, name := range names {
		list = append(list, columnLine{name, "", "row", texts[i]})
	}
	for k, column := range e.FinalistColumns() {
		text := column.Text
		if k >= len(e.Columns()) {
			text += " (finalists only)"
		}
		list = append(list, columnLine{column.Name, column.Unit, column.Kind.String(), text})
	}
	if c.JSON {
		return printJSON(to.out, list)
	}
	t := tabwriter.NewWriter(to.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "column\tunit\tkind\twhat it is")
	for _, l := range list {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", l.Name, l.Unit, l.Kind, l.Text)
	}
	return t.Flush()
}

// evaluator makes the evaluator of a rig file or of a run.
func (c *columnsCommand) evaluator() (*objective.Evaluator, error) {
	if info, err := os.Stat(c.Rig); err == nil && info.IsDir() {
		_, e, err := openRun(c.Rig)
		return e, err
	}
	rig, err := readRig(c.Rig)
	if err != nil {
		return nil, err
	}
	return objective.New(rig), nil
}
