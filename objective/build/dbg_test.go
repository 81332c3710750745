package build
import ("testing";"fmt")
func TestDbg(t *testing.T){
 s:=demo(t,"four.yaml")
 var c Clearance
 c.Gap=1e300
 s.w.ClearanceTo(&c)
 fmt.Println(c.Gap, s.model.PartWords(c.A), s.model.PartWords(c.B), c.Pose, s.w.clear.most, c.Pairs)
}
