package report

import (
	"testing"

	"evenswing/output/workshop"
	"evenswing/space"
)

func TestLoadsStandByTheirPlace(t *testing.T) {
	list := loadGroups([]workshop.Load{{Where: "pivot 1", What: "a"}, {Where: "wall", What: "b"}, {Where: "pivot 1", What: "c"}})
	if len(list) != 2 || list[0].Where != "pivot 1" || len(list[0].Loads) != 2 || list[0].Loads[1].What != "c" || list[1].Loads[0].What != "b" {
		t.Errorf("%v", list)
	}
}

func TestEveryKindIsExplainedOnce(t *testing.T) {
	list := explained([]Criterion{{Kind: space.Period, Subject: "a"}, {Kind: space.Ratio}, {Kind: space.Period, Subject: "b"}})
	if list[0].Meaning != meaning(space.Period) || list[1].Meaning != meaning(space.Ratio) || list[2].Meaning != "" || list[2].Subject != "b" {
		t.Errorf("%v", list)
	}
}
