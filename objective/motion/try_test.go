package motion
import ("testing";"math/rand/v2";"math")
func TestTry(t *testing.T){
	rng := rand.New(rand.NewPCG(91, 92))
	for trial := 0; trial < 64; trial++ {
		n := 1 + trial%Max
		r := randomRig(t, rng, n)
		var b Bands
		r.modes.BandsTo(&b, nil)
		var l Losses
		var from [Max]float64
		for i := 0; i < n; i++ {
			l.Damper[i] = 0.02 * r.rest.J[i] * rng.Float64()
			from[i] = 0.03 * rng.NormFloat64()
		}
		r.d.Damp(&l)
		if trial!=13&&trial!=38&&trial!=42{continue}
		until := 12 * b.SlowPeriod()
		var ws [5]Workspace
		y:=r.d.start(&from)
		per0 := max(fastSlow, 2*int(math.Ceil(0.5*fastCycle*r.d.fastest()/b.Base)))
		for q,f:=range []int{1,2,4}{ t.Log(ws[q].skim(&r.d,&b,&y,until,per0*f)) }
		ws[3].track(&r.d,&b,&y,until,1e-11)
		t.Log(trial,per0,r.d.omega[:n],b.Base, ws[3].slow.per)
		for q:=0;q<3;q++{ t.Log(q,amplitudesDiffer(&ws[q].slow,&ws[3].slow)) }
		t.Log("1 vs 2",amplitudesDiffer(&ws[0].slow,&ws[1].slow),amplitudesDiffer(&ws[1].slow,&ws[2].slow))
	}
}
