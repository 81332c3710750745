package main

import (
	"fmt"
	"os"
	"path/filepath"

	"evenswing/space"
)

type newCommand struct {
	File string `arg:"" help:"The rig file to write; it must not exist. The schema that its first line names for editors is written beside it, unless it is there."`
}

func (c *newCommand) Run(to *console) error {
	if err := writeNew(c.File, space.Starter()); err != nil {
		return err
	}
	fmt.Fprintf(to.err, "wrote %s: an invented rig to start from; change it, then: evenswing check %s\n", c.File, c.File)
	schema := filepath.Join(filepath.Dir(c.File), space.SchemaFile)
	if _, err := os.Stat(schema); err == nil {
		return nil
	}
	if err := writeNew(schema, space.Schema()); err != nil {
		return err
	}
	fmt.Fprintf(to.err, "wrote %s: what editors complete and explain it with\n", schema)
	return nil
}
