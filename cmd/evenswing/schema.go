package main

import "evenswing/space"

type schemaCommand struct{}

// Run prints the JSON Schema of rig files.
func (schemaCommand) Run(to *console) error {
	_, err := to.out.Write(space.Schema())
	return err
}
