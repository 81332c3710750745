package workshop

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
)

// sheetTable writes rows as CSV. Text that a spreadsheet would run as a formula
// gets a sign before it that makes it text.
func sheetTable(rows [][]string) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for _, row := range rows {
		safe := make([]string, len(row))
		for i, text := range row {
			safe[i] = harmless(text)
		}
		_ = w.Write(safe) // a bytes.Buffer takes everything
	}
	w.Flush()
	return out.Bytes()
}

// harmless keeps numbers as they are.
func harmless(text string) string {
	if text == "" || !strings.ContainsAny(text[:1], "=+-@\t\r") {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	if lead := strings.TrimLeft(text, "-"); lead != "" && lead[0] >= '0' && lead[0] <= '9' && !strings.ContainsAny(text, "=+@(") {
		return text // a measure below nought, such as -3-1/2 in
	}
	return "'" + text
}

func mm(a Amount) string { return strconv.FormatFloat(1000*a.SI, 'f', 4, 64) }

func mmOf(a *Amount) string {
	if a == nil {
		return ""
	}
	return mm(*a)
}

func textOf(a *Amount) string {
	if a == nil {
		return ""
	}
	return plain(a.Text)
}

// plain is text with ordinary spaces, as spreadsheets want it.
func plain(text string) string { return strings.ReplaceAll(text, nbsp, " ") }

func kg(a Amount) string { return strconv.FormatFloat(a.SI, 'f', 5, 64) }

// PivotsCSV is the table of pivots, then pen and paper: places in mm, in the
// frame of what carries them (as drawn) and on the wall (at rest).
func (s *Sheet) PivotsCSV() []byte {
	rows := [][]string{{"number", "what", "carried_by", "own_x_mm", "own_y_mm", "wall_x_mm", "wall_y_mm", "z_mm", "edge_mm",
		"tilt_deg", "own_x", "own_y", "wall_x", "wall_y"}}
	for i := range s.Pivots {
		p := &s.Pivots[i]
		rows = append(rows, []string{strconv.Itoa(p.Number), "pivot of " + p.Pendulum, p.On, mm(p.Own.X), mm(p.Own.Y), mm(p.Wall.X), mm(p.Wall.Y),
			mmOf(p.Z), mmOf(p.Edge), strings.TrimSuffix(p.Tilt.Text, "°"), plain(p.Own.X.Text), plain(p.Own.Y.Text), plain(p.Wall.X.Text), plain(p.Wall.Y.Text)})
	}
	for i := range s.Marks {
		m := &s.Marks[i]
		rows = append(rows, []string{"", m.Name, m.On, mm(m.Own.X), mm(m.Own.Y), mm(m.Wall.X), mm(m.Wall.Y), "", "", "",
			plain(m.Own.X.Text), plain(m.Own.Y.Text), plain(m.Wall.X.Text), plain(m.Wall.Y.Text)})
	}
	return sheetTable(rows)
}

// CutsCSV is the cut list: sizes in mm and in the maker's units.
func (s *Sheet) CutsCSV() []byte {
	rows := [][]string{{"pendulum", "part", "piece", "count", "shape", "length_mm", "width_mm", "thick_mm", "hole_mm", "length", "width", "thick", "hole",
		"material", "each_kg", "openings", "pivots_on_it", "note"}}
	for i := range s.Cuts {
		c := &s.Cuts[i]
		shape := "rectangle"
		if c.Round {
			shape = "round"
		}
		rows = append(rows, []string{c.Pendulum, c.Part, c.Piece, strconv.Itoa(c.Count), shape, mm(c.Length), mm(c.Width), mm(c.Thick), mmOf(c.Hole),
			plain(c.Length.Text), plain(c.Width.Text), plain(c.Thick.Text), textOf(c.Hole), c.Material, kg(c.Each), c.openingWords(), c.markWords(), plain(c.Note)})
	}
	return sheetTable(rows)
}

func (c *Cut) openingWords() string {
	said := make([]string, len(c.Openings))
	for i := range c.Openings {
		said[i] = plain(c.Openings[i].Words)
	}
	return strings.Join(said, "; ")
}

func (c *Cut) markWords() string {
	said := make([]string, len(c.Marks))
	for i := range c.Marks {
		said[i] = plain(c.Marks[i].Words())
	}
	return strings.Join(said, "; ")
}

// Words says where a pivot is to be marked.
func (m *BarMark) Words() string {
	where := "on the middle line"
	if m.Across.SI > markSlack {
		where = m.Across.Text + " from the middle line towards the " + m.Edge
	}
	return m.Name + ": " + m.Along.Text + " from the " + m.End + ", " + where
}

// MetalCSV is the metal schedule.
func (s *Sheet) MetalCSV() []byte {
	rows := [][]string{{"pendulum", "in", "charge", "shape", "count", "across_mm", "width_mm", "height_mm", "thick_mm", "stack_mm", "level_mm",
		"each_kg", "mass_kg", "material", "lead", "over_drum_centre_mm", "own_x_mm", "own_y_mm", "wall_x_mm", "wall_y_mm", "mass"}}
	for i := range s.Metal {
		m := &s.Metal[i]
		each, lead := "", "no"
		if m.Each != nil {
			each = kg(*m.Each)
		}
		if m.Lead {
			lead = "yes"
		}
		rows = append(rows, []string{m.Pendulum, m.Part, m.Charge, m.Shape, strconv.Itoa(m.Count), mmOf(m.Across), mmOf(m.Width), mmOf(m.Height), mmOf(m.Thick),
			mmOf(m.Stack), mmOf(m.Level), each, kg(m.Mass), m.Material, lead, mmOf(m.OverCentre), mm(m.Own.X), mm(m.Own.Y), mm(m.Wall.X), mm(m.Wall.Y), plain(m.Mass.Text)})
	}
	return sheetTable(rows)
}
