package main

import (
	"fmt"

	"evenswing/space"
)

type newCommand struct {
	File string `arg:"" help:"The rig file to write; it must not exist."`
}

func (c *newCommand) Run(to *console) error {
	if err := writeNew(c.File, space.Starter()); err != nil {
		return err
	}
	fmt.Fprintf(to.err, "wrote %s: an invented rig to start from; change it, then: evenswing check %s\n", c.File, c.File)
	return nil
}
