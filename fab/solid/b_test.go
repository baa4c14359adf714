package solid
import ("testing";"math";"gonum.org/v1/gonum/spatial/r3")
func BenchmarkTouch(b *testing.B){
 l:=NewLobed(r3.Vec{},150,10,r3.Vec{Z:1},r3.Vec{X:1})
 l.Flatten(149.9)
 c:=l.Meet(Tube{Origin:r3.Vec{X:40,Z:100},Along:r3.Vec{Z:1},Zero:r3.Vec{X:1},Right:r3.Vec{Y:1},Inner:43,Outer:45})
 var sc [48][2]float64
 for i:=range sc { sc[i][0],sc[i][1]=math.Sincos(float64(i)*2*math.Pi/48)}
 for i:=0;i<b.N;i++ { c.Touch(sc[i%48][0],sc[i%48][1]) }
}
