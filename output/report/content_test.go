package report

import (
	"encoding/xml"
	"strings"
	"testing"

	"evenswing/objective"
	"evenswing/output/drawing/sample"
	"evenswing/space"
)

// plain is what a page says, without tags and with single spaces.
func plain(t *testing.T, page *Page) string {
	t.Helper()
	said := tags(t, made(t, page), func(xml.StartElement) {})
	return strings.Join(strings.Fields(said), " ")
}

func says(t *testing.T, said string, wanted ...string) {
	t.Helper()
	for _, w := range wanted {
		if !strings.Contains(said, w) {
			t.Errorf("the page does not say %q", w)
		}
	}
}

func TestPageSaysWhatWasFound(t *testing.T) {
	said := plain(t, invented(3, false))
	says(t, said, "298,412 designs tried. 1,733 keep every limit, in 4 families. 3 are shown here",
		"300,000 evaluations, 8 islands, 6 epochs", "2026-03-01 10:20 UTC",
		"137438953472", "01.yaml", "03.yaml", "6.013 s", "6 s within 1 %", "+0.217 %", "2.0017", "99.3 %", "0.23°",
		"555 N (56.6 kg)", "turning moment of 118 N m", "hardest: strength, wall at 0.94 of what is allowed",
		"exchange: 4.1 %, not limited", "drift: not computed", "ladder + ladder with lintel: up to 4.1 % of the energy",
		"5 deg taken, none is written", "its two nearest modes are 4 % apart", "✓ keeps every limit")
	if strings.Contains(said, "What stands in the way") {
		t.Error("something stands in the way of designs that meet every limit")
	}
}

func TestCautionsAreThere(t *testing.T) {
	page := invented(2, false)
	said := plain(t, page)
	for _, c := range Cautions {
		says(t, said, c.About, c.Text)
	}
	says(t, said, "licensed", "Local codes", "board or plaster", "second hold", "This design holds lead")
	page.Sheets[0].Lead, page.Sheets[1].Lead = false, false
	if strings.Contains(plain(t, page), "This design holds lead") {
		t.Error("lead where there is none")
	}
}

func TestWhatStandsInTheWay(t *testing.T) {
	said := plain(t, failing())
	says(t, said, "None keeps every limit", "What stands in the way", "inflow, tray", "0.04 %", "none",
		"long_arm: 83 % of the best sit at its upper end, 27-1/2 in", "tray_mass: 41 % of the best sit at its lower end, 1 kg",
		"inflow, tray: 31 % instead of 20 %: 212 of the designs tried would then keep every limit",
		"slosh, lintel/ladder: left out: no help by itself", "✗ over a limit", "5/16 in")
}

func TestUndecidedIsNotNone(t *testing.T) {
	page := failing()
	page.Sheets[1].Meets = objective.NotKnown
	said := plain(t, page)
	says(t, said, "is not known: some limits were not computed", "? not every limit was computed")
	if strings.Contains(said, "None keeps every limit") {
		t.Error("an open verdict is given as a refusal")
	}
}

// TestFewerKeepThanTheSearchCounted: a design that the search took for good and the
// full motion refused is told at the head of the page.
func TestFewerKeepThanTheSearchCounted(t *testing.T) {
	page := invented(3, false)
	if said := plain(t, page); strings.Contains(said, "worked out, 3 of these") {
		t.Error("all keep every limit, and it is told as if some did not")
	}
	page.Sheets[2].Meets = objective.No
	says(t, plain(t, page), "With full motion, loads and tuning worked out, 2 of these keep every limit.")
	page.Sheets[0].Meets, page.Sheets[1].Meets = objective.No, objective.No
	says(t, plain(t, page), "With full motion, loads and tuning worked out, none of these does.")
}

func TestPageWithoutDesigns(t *testing.T) {
	says(t, plain(t, &Page{Rig: "Bare"}), "Bare", "0 designs tried", "Before anything hangs")
}

// mostBytes is what the whole page of ten designs may have; BenchmarkTenDesigns
// tells how long it takes.
const mostBytes = 5 << 20

func TestTenDesignsAreSmall(t *testing.T) {
	if html := made(t, invented(10, false)); len(html) > mostBytes {
		t.Errorf("%d bytes", len(html))
	}
}

func BenchmarkTenDesigns(b *testing.B) {
	for b.Loop() {
		html, err := HTML(invented(10, false))
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(html)), "bytes")
	}
}

func TestSamePageSameBytes(t *testing.T) {
	first, second := made(t, invented(4, false)), made(t, invented(4, false))
	if first != second {
		t.Error("two pages of one run differ")
	}
}

func TestWorstLimitedOthers(t *testing.T) {
	sheet := Sheet{Criteria: inventedCriteria("a", "b", "c")}
	if w := sheet.Worst(); w == nil || w.Kind != space.Strength {
		t.Fatalf("worst is %v", w)
	}
	limited, others := sheet.Limited(), sheet.Others()
	if len(limited) != 11 || len(others) != 4 {
		t.Fatalf("%d limited and %d others, want 11 and 4", len(limited), len(others))
	}
	for i := 1; i < len(limited); i++ {
		if limited[i].Utilisation.Value > limited[i-1].Utilisation.Value {
			t.Errorf("%v before %v", limited[i-1], limited[i])
		}
	}
	if others[0].Standing() != "not limited" || others[1].Standing() != notComputed {
		t.Errorf("%q and %q", others[0].Standing(), others[1].Standing())
	}
	if (&Sheet{}).Worst() != nil {
		t.Error("a sheet without criteria has a worst one")
	}
}

func TestHoldsLead(t *testing.T) {
	rig, design := sample.Stairwell(0.5, 12, 0)
	if !HoldsLead(rig, design) {
		t.Error("lead shot is not seen")
	}
	design.Pendulums[1].Drums[0].Charges[0].Of = 2
	if HoldsLead(rig, design) {
		t.Error("lead in a rig of steel")
	}
	rig.Materials[2].LeadContent.Value, rig.Materials[2].LeadContent.Given = 0.03, true
	if !HoldsLead(rig, design) {
		t.Error("leaded brass is not seen")
	}
}
