package syntax_test

import (
	"fmt"
	"os"

	"stabile/param/source"
	"stabile/param/syntax"
)

func ExampleParse() {
	f := source.NewFile("moon.stabile", `
base pad { plate 24 in by 20 in, metal slab }
pst mast on pad { diameter 5 inn }
`)
	tree, mistakes := syntax.Parse(f)
	fmt.Println(len(tree.Statements), "statements")
	if err := mistakes.Print(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// 2 statements
	// moon.stabile:3:1: no statement starts with 'pst'
	//
	//   3 | pst mast on pad { diameter 5 inn }
	//     | ^^^
	//
	//   did you mean 'post'?
	//
	// moon.stabile:3:30: unknown unit 'inn'
	//
	//   3 | pst mast on pad { diameter 5 inn }
	//     |                              ^^^
	//
	//   did you mean 'in'?
}

func ExampleWord() {
	e, _ := syntax.ParseExpression(source.NewFile("--set", "low-carbon-steel"))
	fmt.Println(syntax.Word(e))
	// Output: low-carbon-steel true
}

func ExampleTidy() {
	f := source.NewFile("moon.stabile", `
adjust rise=36in from 24in to 60in # a dimension to play with
let crown =rise/3
post mast on pad { diameter 5 in,
  length rise, metal skin }
`)
	tidy, mistakes := syntax.Tidy(f)
	fmt.Print(string(tidy), len(mistakes), " mistakes")
	// Output:
	// adjust rise  = 36 in  from 24 in to 60 in  # a dimension to play with
	// let    crown = rise / 3
	// post mast on pad {
	//   diameter 5 in
	//   length   rise
	//   metal    skin
	// }
	// 0 mistakes
}
