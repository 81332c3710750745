package main

import (
	"fmt"
	"text/tabwriter"

	"evenswing/objective"
	"evenswing/output/dataset"
)

type columnsCommand struct {
	Rig  string `arg:"" help:"The rig file; the columns depend on it."`
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
	rig, err := loadRig(c.Rig, nil)
	if err != nil {
		return err
	}
	var list []columnLine
	names, texts := dataset.RowColumns()
	for i, name := range names {
		list = append(list, columnLine{name, "", "row", texts[i]})
	}
	e := objective.New(rig)
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
