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
