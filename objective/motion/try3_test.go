package motion
import ("testing";"math/rand/v2";"time";"math")
func TestTry3(t *testing.T){
 mk:=&chainMaker{rng:rand.New(rand.NewPCG(1,2)),targets:[]float64{1,1,2,2},detune:0.003}
 t0:=time.Now()
 var hist [8]int
 shown:=0
 for time.Since(t0)<4*time.Second {
  s:=mk.guess()
  if s==nil {continue}
  var r,trial [Max]float64
  if !s.misses(&r){continue}
  r0:=length(&r,s.n)
	damping := 1e-3
	end:=0
	var rounds int
	for rounds = 0; rounds < 60 && length(&r, s.n) > 1e-5; rounds++ {
		kept := s.free
		if !s.stepTowards(&r, damping) { end=1;break }
		if s.misses(&trial) && length(&trial, s.n) < length(&r, s.n) {
			r = trial
			damping *= 0.3
			continue
		}
		s.free = kept
		if damping = damping*5 + 1e-6; damping > 1e3 { end=2;break }
	}
	if end==0 && rounds==60 {end=3}
	hist[end]++
	if shown<12 {shown++; t.Log(end,rounds,r0,length(&r,s.n),math.Exp(s.free[0]),math.Exp(s.free[4]), s.mass[:4],damping)}
 }
 t.Log(hist)
}
