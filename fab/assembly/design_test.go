package assembly_test

import (
	"os"
	"path/filepath"
	"testing"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/param"
	"stabile/param/source"
)

// input takes what a plan is made from out of a job.
func input(j *fab.Job) assembly.Input {
	in := assembly.Input{Design: j.Design, Ties: j.Ties}
	if j.Design.Shop != nil {
		in.Welding = j.Design.Shop.Welding
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		it := assembly.Item{
			Part: p.Part, Mass: p.Mass, Low: p.Low, High: p.High, CG: p.CG,
			Seams: p.Seams, Blanks: p.Blanks, Rims: p.Body.Rims,
		}
		for _, w := range p.Welds {
			it.Joints = append(it.Joints, assembly.Joint{With: w.With, At: w.At, Length: w.Length})
		}
		in.Items = append(in.Items, it)
	}
	return in
}

// build evaluates a text and works it out.
func build(t testing.TB, text string) *fab.Job {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("any.stabile", text), param.Options{})
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	j, wrong := fab.Build(d, fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return j
}

// examples returns the designs of the examples folder, worked out, by name.
func examples(t testing.TB) map[string]*fab.Job {
	t.Helper()
	names, err := filepath.Glob("../../examples/*.stabile")
	if err != nil || len(names) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	jobs := make(map[string]*fab.Job)
	for _, name := range names {
		d, err := param.Load(os.DirFS("../../examples"), filepath.Base(name), param.Options{})
		if err != nil {
			t.Fatal(err)
		}
		j, wrong := fab.Build(d, fab.Everything)
		if len(wrong) > 0 {
			t.Fatal(wrong.Err())
		}
		jobs[filepath.Base(name)] = j
	}
	return jobs
}
