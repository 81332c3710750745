package quantity

import "testing"

func TestParseRange(t *testing.T) {
	for text, want := range map[string]Range{
		"350 to 700 mm":          {0.35, 0.7, 0, Length, "mm", 0.001, false},
		"-60 to 60 mm":           {-0.06, 0.06, 0, Length, "mm", 0.001, false},
		"−60 to -20 mm":          {-0.06, -0.02, 0, Length, "mm", 0.001, false},
		"1/4 in to 2 in":         {0.00635, 0.0508, 0, Length, "in", 0.0254, false},
		"4 to 24 by 1":           {4, 24, 1, Number, "", 1, true},
		"12 to 24 mm by 3 mm":    {0.012, 0.024, 0.003, Length, "mm", 0.001, true},
		"12 to 24 mm by 3":       {0.012, 0.024, 0.003, Length, "mm", 0.001, true},
		"1 to 2 m by 5 cm":       {1, 2, 0.05, Length, "m", 1, true},
		"0 to 4 kg":              {0, 4, 0, Mass, "kg", 1, false},
		"0 to 4 lb":              {0, 1.81436948, 0, Mass, "lb", 0.45359237, false},
		"12 mm to 24":            {0.012, 0.024, 0, Length, "mm", 0.001, false},
		"3-1/2 to 5-1/4 in":      {0.0889, 0.13335, 0, Length, "in", 0.0254, false},
		`6' to 7' 2"`:            {1.8288, 2.1844, 0, Length, "'", 0.3048, false},
		`1' to 2' by 3"`:         {0.3048, 0.6096, 0.0762, Length, "'", 0.3048, true},
		"10 cm to 1 m":           {0.1, 1, 0, Length, "m", 1, false},
		"0.1 to 0.4 by 0.3":      {0.1, 0.4, 0.3, Number, "", 1, true},
		"0.7 to 0.8 by 0.1":      {0.7, 0.8, 0.1, Number, "", 1, true},
		"  1  to\t2 kg  by 1 g ": {1, 2, 0.001, Mass, "kg", 1, true},
		"10 to 50 %":             {0.1, 0.5, 0, Number, "%", 0.01, false},
	} {
		if got, err := ParseRange(text); err != nil || got != want {
			t.Errorf("ParseRange(%q) = %+v, %v, want %+v", text, got, err, want)
		}
		if !LooksLikeRange(text) {
			t.Errorf("%q does not look like a range", text)
		}
	}
}

func TestParseRangeErrors(t *testing.T) {
	for _, c := range []struct {
		text    string
		at, len int
		says    string
	}{
		{"5 to 3 mm", 0, 9, "“5” to “3 mm” runs downwards: swap the two ends"},
		{"4 to 4", 0, 6, "is empty"},
		{"1 to 1.00000001 kg", 0, 18, "is empty"},
		{"4 to 8 by 0", 10, 1, "the step “0” must be more than 0"},
		{"4 to 8 by -1", 10, 2, "must be more than 0"},
		{"4 to 8 by 5", 10, 1, "larger than the whole range"},
		{"4 to 8 mm by 2 kg", 13, 4, "the step: “2 kg” is a mass, but a length"},
		{"4 mm to 8 kg", 0, 12, "from a length to a mass; both ends must be of one kind"},
		{"0 mm to 8 deg", 0, 13, "from a length to an angle"},
		{"to 8", 0, 0, "nothing is written here"},
		{"4 to", 4, 0, "nothing is written here"},
		{"4 to 8 mm by", 12, 0, "nothing is written here"},
		{"a to b", 0, 1, "“a” does not begin with a number"},
		{"4 to b mm", 5, 4, "“b mm” does not begin with a number"},
		{"1e39 to 1e40", 0, 4, "too large"},
		{"3,5 to 4,5 mm", 0, 3, "has a comma"},
		{"3 to 4,5 mm", 5, 3, "write 4.5 mm, with a point"},
		{"1 to 2 to 3", 7, 2, "makes a range"},
		{"4..8", 0, 4, "write its ends with the word to between them"},
		{"010 to 20 mm", 0, 3, "write 10"},
		{"1 to 20 mmm", 8, 3, "did you mean mm?"},
		{"3-1/2 to 5", 0, 5, "a mixed number without a unit"},
		{"3-5/4 to 5 in", 0, 5, "its fraction is not less than 1"},
	} {
		_, err := ParseRange(c.text)
		checkError(t, "ParseRange", c.text, err, c.at, c.len, c.says)
	}
}

func TestLooksLikeRange(t *testing.T) {
	for text, want := range map[string]bool{
		"steel or lead": false, "tower + 3 mm": false, "0.6 * long_arm": false, "": false, "lotto": false,
		"to": true, "5 to": true, `6"to 8"`: true, `6" to 8"`: true, "up to 5": true, "auto to_do": false,
	} {
		if got := LooksLikeRange(text); got != want {
			t.Errorf("LooksLikeRange(%q) = %v", text, got)
		}
	}
}
