package frame_test
import ("testing";"math/rand/v2";"fmt";"stabile/fab/frame";"stabile/fab/frame/trial")
func TestZZ(t *testing.T){
 for _,c:=range [][2]uint64{{1237,9},{1140,3}} {
 rnd := rand.New(rand.NewPCG(c[0], c[1]))
 k:=4+rnd.IntN(26); if c[1]==3 { rnd = rand.New(rand.NewPCG(c[0], c[1])); k=3+rnd.IntN(30)}
 b := trial.Random(rnd, k)
 f,err := frame.New(b.Items())
 fmt.Println(err, len(f.Beams), f.Unknowns)
 for i,x:=range f.Beams { if x.Length<25 && x.A!=x.B { fmt.Println(i,f.Posts[x.Post].Part.Name,x.Length,x.Diameter, x.A,x.B) } }
 m,ok,_:=f.Modes(4); fmt.Println(ok); for _,v:=range m {fmt.Println(v.Frequency)}
 for _,s:=range []float64{9.0,9.229,9.3,20,40,60,60.93,60.96,62,65,70,80} { fmt.Print(s," ",f.Count(s),"; ") }
 fmt.Println()
 }
}
