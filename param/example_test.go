package param_test

import (
	"fmt"
	"os"
	"testing/fstest"

	"stabile/param"
	"stabile/param/source"
)

// A ball of 240 mm on a tube of 60 mm outside and 57 mm inside rests on the
// inside edge, sqrt(120^2 - 28.5^2) = 116.567 mm over the end.
func ExampleLoad() {
	fsys := fstest.MapFS{"moon.stabile": {Data: []byte(`
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
base ground { feet }
post mast on ground { diameter 60, length 900, metal skin }
ball moon on mast { diameter 240, gores 10, metal skin }
`)}}
	d, err := param.Load(fsys, "moon.stabile", param.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f mm\n", d.Part("moon").Ball.Center.Z)
	// Output: 1016.567 mm
}

func ExampleEvaluate() {
	text := "units mm\nbase ground { feet }\npost mast on ground { diamter 60, length 900 }\n"
	_, list := param.Evaluate(source.NewFile("moon.stabile", text), param.Options{})
	list.Print(os.Stdout)
	// Output:
	// moon.stabile:3:23: a post has no 'diamter'
	//
	//   3 | post mast on ground { diamter 60, length 900 }
	//     |                       ^^^^^^^
	//
	//   did you mean 'diameter'?
}
