package param

import (
	"cmp"
	"io/fs"
	"slices"
	"strings"
	"unicode"

	"stabile/param/design"
	"stabile/param/eval"
	"stabile/param/source"
	"stabile/param/stock"
	"stabile/param/syntax"
)

// MaxSource is the greatest size in bytes of the texts of a design together.
const MaxSource = 4 << 20

// Options are what the caller sets.
type Options struct {
	// Set gives adjustable names new values, each as "name=value". They go
	// over the values of the text and of the variation.
	Set []string

	// Variation is the title of the variation to be worked out; "" for none.
	Variation string

	// Ask is what is asked of the design over what its text says.
	Ask []Question

	// Sweep reports what values adjustable names are to take, each as "NAME",
	// "NAME from least to most step size" or "NAME values count". The design says
	// in Sweeps what they come to. SweepFrom is by what name diagnostics speak of
	// these texts; "" for --each.
	Sweep     []string
	SweepFrom string

	// Alloys are those that a metal may be of; nil for the house's.
	Alloys stock.Table

	// Files is where the files stand that a design uses, by names relative to
	// the same folder as its own name. Load takes its own file system where this
	// is nil; Evaluate then reads no other file.
	Files fs.FS

	// Outside opens a file that a design uses from outside of its own folder and
	// those within it: an absolute path, or one relative to the root of Files,
	// such as "../garage.stabile". Where it is nil such a file is a mistake.
	Outside func(name string) (fs.File, error)
}

// A Question is an expression that a caller asks of a design: a condition to be
// held, or a number to be known. From is by what name diagnostics speak of its
// text: the flag that it comes from.
type Question struct {
	From, Text string
	Condition  bool
}

// settingsFile is the name by which diagnostics speak of the texts in
// Options.Set: the flag that they come from.
const settingsFile = "--set"

// Load reads a design. What is wrong with the text or the options is a
// *source.Error; a file that cannot be read is an error that wraps the one of
// the file system.
func Load(fsys fs.FS, name string, o Options) (*design.Design, error) {
	t, err := Read(fsys, name, o)
	if err != nil {
		return nil, err
	}
	return t.Design(o)
}

// eachFile is the like for Options.Sweep.
const eachFile = "--each"

// Evaluate parses and works out a text, with those that it uses. The design is
// nil when the list, which is sorted, is not empty.
func Evaluate(f *source.File, o Options) (*design.Design, source.List) {
	return parse(f, o).evaluate(o)
}

// evaluate works the text out.
func (t *Text) evaluate(o Options) (*design.Design, source.List) {
	last := len(t.files) - 1
	if last < 0 {
		return nil, t.wrong
	}
	list := slices.Clone(t.wrong)
	options := eval.Options{Variation: o.Variation, Used: t.files[:last], Alloys: o.Alloys, Said: t.said, Partial: len(list) > 0}
	for _, d := range list {
		options.Unread = append(options.Unread, d.Span)
	}
	var wrong source.List
	for _, s := range o.Set {
		if a, ok := setting(s, &wrong); ok {
			options.Set = append(options.Set, a)
		}
	}
	for _, q := range o.Ask {
		f := source.NewFile(q.From, q.Text)
		x, mistakes := syntax.ParseExpression(f)
		wrong = append(wrong, mistakes...)
		if len(mistakes) == 0 {
			options.Questions = append(options.Questions, eval.Question{Source: f, Value: x, Condition: q.Condition})
		}
	}
	for _, text := range o.Sweep {
		sweep, mistakes := syntax.ParseSweep(source.NewFile(cmp.Or(o.SweepFrom, eachFile), text))
		wrong = append(wrong, mistakes...)
		if len(mistakes) == 0 {
			options.Sweeps = append(options.Sweeps, sweep)
		}
	}
	d, more := eval.Evaluate(t.files[last], options)
	list = append(append(list, wrong...), more...)
	if len(list) > 0 {
		list.Sort()
		return nil, list
	}
	return d, nil
}

// setting reads "name=value". The value is parsed with the name blanked out
// before it, so that its place in the text is that in the whole.
func setting(text string, list *source.List) (syntax.Assignment, bool) {
	f := source.NewFile(settingsFile, text)
	whole := source.Span{File: f, To: len(text)}
	name, value, ok := strings.Cut(text, "=")
	if !ok || strings.TrimSpace(name) == "" || strings.TrimSpace(value) == "" || strings.ContainsAny(text, "\n\r") {
		list.Add(whole, "write it as name=value, such as rise=54in", "this is not a setting")
		return syntax.Assignment{}, false
	}
	f.Text = strings.Repeat(" ", len(name)+1) + value
	x, wrong := syntax.ParseExpression(f)
	f.Text = text
	if len(wrong) > 0 {
		*list = append(*list, wrong...)
		return syntax.Assignment{}, false
	}
	word := strings.TrimSpace(name)
	from := len(name) - len(strings.TrimLeftFunc(name, unicode.IsSpace))
	at := source.Span{File: f, From: from, To: from + len(word)}
	return syntax.Assignment{Name: syntax.Name{Text: word, At: at}, Value: x}, true
}
