package design

import (
	"stabile/param/quantity"
	"stabile/param/source"
)

// A Design is a whole sculpture, resolved.
type Design struct {
	Title     string
	Source    *source.File
	Sources   []*source.File // Source, and then the files that it uses
	Variation string         // the named variation in force, or ""

	// Fingerprint is a short hash of what the sources say, the variation and what is
	// set. Comments, layout and revisions do not change it.
	Fingerprint string
	Revisions   []Revision // in order; the last is that of the papers

	Set        []string // the values that the caller set, such as "rise = 36 in"
	Variations []string // the names of all, in source order
	Units      quantity.System
	Adjust     []Adjustable
	Parts      []*Part // in source order; at most one is a base, and none where all stands on its own feet on the ground
	Joints     []Joint // in source order
	Rings      []*Ring // in source order
	Site       *Site   // nil where the design says none
	Finish     *Finish // nil where the design says none
	Shop       *Shop   // nil where the design says none
	Job        *Job    // nil where the design says none
	Require    []Requirement

	// Questions are what was asked of the design from outside of its text.
	Questions []Question

	// Sweeps are the values that were asked for of adjustable names.
	Sweeps []Sweep

	// TippingTarget is the greatest factor against tipping that a requirement
	// asks for; 0 where none does.
	TippingTarget float64

	Notes []Note // what the text requires that a reader should know
}

// Owner returns whose the papers are: the name of the design's shop, or "".
func (d *Design) Owner() string {
	if d.Shop == nil {
		return ""
	}
	return d.Shop.Name
}

// Base returns the part that is the base; nil where all stands on the ground itself, on
// pads or not.
func (d *Design) Base() *Part {
	for _, p := range d.Parts {
		if p.Base != nil && !p.Base.Pad {
			return p
		}
	}
	return nil
}

// Part returns the part of the given name, such as "mast" or "reed[2]", or nil.
func (d *Design) Part(name string) *Part {
	for _, p := range d.Parts {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// An Adjustable is a named value that may be changed within its range. Values
// are in coherent units (see package quantity). Step is zero where none is
// given.
type Adjustable struct {
	Name                  string
	Value, From, To, Step quantity.Quantity
}

// A Note is something that is sound but that the reader should know.
type Note struct {
	Part *Part // nil where it concerns the whole
	Text string
}
