package space

import "testing"

func TestWrittenLengths(t *testing.T) {
	for text, want := range map[string][2]int{
		"":                                  {0, 0},
		"rig: [":                            {0, 0},
		"a: [3-1/2 in, 5/16\", 12 mm]":      {1, 2},
		"a: 350 to 700 mm":                  {1, 0},
		"g: 9.81 m/s2\na: 3 m2\nd: 7 g/cm3": {0, 0},
		"a: 60 x 35 mm # 2 in, 3 in":        {1, 0},
		"a: 2 * reach + 14 in - 1 ft":       {0, 2},
		"a: 2 min\nb: 3 inlets":             {0, 0},
		"a: 1/2\nb: 1 m\nc: 3'":             {1, 1},
		"a: &x 3 in\nb: *x":                 {0, 1},
	} {
		r := &Rig{Source: []byte(text)}
		if metric, inch := r.WrittenLengths(); [2]int{metric, inch} != want {
			t.Errorf("%q: %d metric, %d in inches, want %v", text, metric, inch, want)
		}
	}
}
