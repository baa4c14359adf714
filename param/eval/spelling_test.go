package eval

import "testing"

// Both spellings of a word are understood, and mean the same.
func TestSpellings(t *testing.T) {
	british := mustEvaluate(t, `units inch
metal skin { alloy aluminium-3003, gauge 18 }
base pad { disc 1 m, metal skin }
post mast on pad { diameter 2, length 0.5 m, lean 3 deg toward 20 deg, metal skin }
post free on pad { at (6, 6), diameter 1, length 9, head disc, metal skin }
let x = mast.centre.z
ball bud on mast { diameter x / 2, halves, metal skin }
finish coat { galvanize }
shop { rates { labour 40 / 1 hr } }
`)
	american := mustEvaluate(t, `units inch
metal skin { alloy aluminum-3003, gage 18 }
base pad { disk 1 meter, metal skin }
post mast on pad { diameter 2, length 500 millimetres, lean 3 deg towards 20 deg, metal skin }
post free on pad { at (6, 6), diameter 1, length 9, head disk, metal skin }
let x = mast.center.z
ball bud on mast { diameter x / 2, halves, metal skin }
finish coat { galvanise }
shop { rates { labor 40 / 1 hr } }
`)
	for i, p := range british.Parts {
		q := american.Parts[i]
		switch {
		case p.Metal.Alloy != q.Metal.Alloy || p.Metal.Thickness != q.Metal.Thickness:
			t.Errorf("%s is of %+v and %+v", p.Name, p.Metal, q.Metal)
		case p.Ball != nil && !near(p.Ball.Radius, q.Ball.Radius):
			t.Errorf("%s is %v and %v across", p.Name, p.Ball.Radius, q.Ball.Radius)
		}
	}
	if british.Finish.Kind != american.Finish.Kind || british.Shop.Rates.Labour != american.Shop.Rates.Labour || british.Shop.Rates.Labour == 0 {
		t.Errorf("finish %v and %v, labour %v and %v", british.Finish.Kind, american.Finish.Kind, british.Shop.Rates.Labour, american.Shop.Rates.Labour)
	}
}
