package main

import (
	"fmt"
	"text/tabwriter"

	"evenswing/space/material"
)

type materialsCommand struct {
	Sources bool `help:"Print every figure with its source instead of the table."`
}

func (c *materialsCommand) Run(to *console) error {
	list := material.BuiltIn()
	if c.Sources {
		return printSources(to, list)
	}
	t := tabwriter.NewWriter(to.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "material\tkind\tdensity kg/m3\tE GPa\tbending MPa\tshear MPa\tyield MPa")
	for i := range list {
		m := &list[i]
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", m.Name, m.Kind, shown(m.Density, 1), shown(m.E, 1e9),
			shown(m.BendingStrength, 1e6), shown(m.ShearParallel, 1e6), shown(m.YieldStrength, 1e6))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(to.out, "\nMeans or typical values: wood and sheet goods vary by a fifth and more. `--sources` names where each")
	fmt.Fprintln(to.out, "figure is from; a rig file overrides with materials: {NAME: {density: ...}}.")
	return nil
}

func shown(p material.Property, unit float64) string {
	if !p.Given {
		return "-"
	}
	return fmt.Sprintf("%.4g", p.Value/unit)
}

func printSources(to *console, list []material.Material) error {
	for i := range list {
		m := &list[i]
		fmt.Fprintf(to.out, "%s (%s): %s\n", m.Name, m.Kind, m.Basis)
		for _, f := range material.Fields() {
			if p := m.Property(f.Key); p.Given {
				fmt.Fprintf(to.out, "  %-34s %12.6g %-6s %s (%s)%s\n", f.Words, p.Value, p.Unit, p.Source, p.Mark, remark(p.Note))
			}
		}
	}
	return nil
}

func remark(note string) string {
	if note == "" {
		return ""
	}
	return "; " + note
}
