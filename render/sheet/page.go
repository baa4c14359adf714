package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// The margins of ISO 5457, in mm: the left one is for filing. The sizes of
// ASME have the same here, so that all go into one binder.
const (
	filingMargin = 20
	margin       = 10
)

// air is kept between the frame or the title block and what is drawn.
const air = 4

// A Page is a sheet with a title block in the making. Draw on its Sheet within
// Free, then let Finish draw frame and block, which say how many sheets
// there are.
type Page struct {
	*ink.Sheet
	Paper Paper

	// Block may be changed until Finish, but for what its height depends on: its
	// caution, its tolerances and, of a strip, all of its texts (see SetSubtitle).
	Block Block

	// Free is the area above the title block. Beside is what is left of it,
	// to the block's left; it is empty where the block is as wide as the frame.
	Free, Beside r2.Box

	bare bool
}

// NewBare returns a page of a set that gets neither frame nor block, such as
// one whose whole area is a pattern.
func NewBare(paper Paper, name, title string) *Page {
	return &Page{
		Sheet: &ink.Sheet{Name: name, Title: title, Width: paper.Width, Height: paper.Height},
		Paper: paper,
		bare:  true,
	}
}

// NewPage returns an empty page. Its name is the drawing's number and the name
// of its file; its title for readers is the block's subtitle.
func NewPage(paper Paper, name string, block Block) *Page {
	title := block.Subtitle
	if title == "" {
		title = block.Title
	}
	block.name = name
	p := &Page{
		Sheet: &ink.Sheet{Name: name, Title: title, Width: paper.Width, Height: paper.Height},
		Paper: paper,
		Block: block,
	}
	p.setRoom()
	return p
}

// SetSubtitle changes the subtitle of the block, and Free where the block grows by it.
func (p *Page) SetSubtitle(text string) {
	p.Block.Subtitle = text
	p.setRoom()
}

// setRoom works out what the block leaves free.
func (p *Page) setRoom() {
	frame := p.Frame()
	area := p.Block.area(frame)
	p.Free = Box(frame.Min.X+air, area.Max.Y+air, frame.Max.X-air, frame.Max.Y-air)
	p.Beside = r2.Box{}
	if area.Min.X > frame.Min.X {
		p.Beside = Box(frame.Min.X+air, frame.Min.Y+air, area.Min.X-air, area.Max.Y)
	}
}

// Frame returns the frame of the page.
func (p *Page) Frame() r2.Box {
	return Box(filingMargin, margin, p.Paper.Width-margin, p.Paper.Height-margin)
}

// Finish returns the sheets of a set, each that is not bare with its frame and
// title block, numbered in order. The pages are left as they were.
func Finish(pages []*Page) []*ink.Sheet {
	sheets := make([]*ink.Sheet, len(pages))
	for i, p := range pages {
		s := *p.Sheet
		s.Items = nil
		if !p.bare {
			drawFrame(&s, p.Frame())
			p.Block.draw(&s, p.Frame(), p.Name, fmt.Sprintf("%d/%d", i+1, len(pages)))
		}
		s.Add(p.Items...)
		sheets[i] = &s
	}
	return sheets
}

func corners(b r2.Box) []r2.Vec {
	return []r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
}
