package words

import (
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/rolling"
	"stabile/fab/sheets"
	"stabile/fab/shop"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestShopSentences holds sentences to what a foreman would say.
func TestShopSentences(t *testing.T) {
	slab := &design.Metal{Name: "slab", Alloy: "low-carbon-steel", Thickness: 9.525}
	thin := &design.Metal{Name: "thin", Alloy: "low-carbon-steel", Thickness: 25.4 * 5 / 64}
	shear := &design.Capacity{Alloy: "low-carbon-steel", Gauge: 16}
	for _, tt := range []struct {
		fact finding.Fact
		want string
	}{
		{sheets.TooThick{Metal: slab, Shear: shear}, "too thick for the shop to cut, 'slab' of 3/8 in: the shear takes 16 gauge low-carbon-steel at most; buy it cut to size, use a thinner gauge, or use a cutter"},
		{sheets.ForCutter{Metal: thin, Shear: shear, Kerf: 1.5875}, "'thin' of 5/64 in is cut with the cutter, since the shear takes 16 gauge low-carbon-steel at most; the kerf is 1/16 in"},
		{sheets.TooLarge{Metal: "skin", Width: 254, Length: 2540, SheetWidth: 1219.2, SheetLength: 2438.4, Shape: flat.Tube, Courses: 2}, "blank of 10 by 100 in, too large for every sheet of 'skin', the largest 48 by 96 in inside its trim: roll it in 2 courses (write courses 2), use a larger sheet, or buy the part"},
		{sheets.TooFew{Metal: "skin", Count: 1, Width: 254, Length: 508}, "no place for 1 piece of 10 by 20 in: there are not enough sheets of 'skin' at hand; buy more, or give another size"},
		{sheets.Narrow{Width: 12.7, Least: 19.05, Cuts: []sheets.CutAt{{Sheet: "skin 1", Number: 1}, {Sheet: "skin 2", Number: 4}}}, "blank down to 1/2 in wide, narrower than the 3/4 in that the shear's hold-downs grip, at cut 1 of sheet 'skin 1' and cut 4 of sheet 'skin 2': cut it by hand along a line, or leave it on a wider strip until last"},
		{shop.FilledUp{Missing: []shop.Missing{{Item: shop.Rolls}, {Item: shop.Sheets, Metal: "skin"}}}, "the shop leaves out what the plan needs; from a modest one worked by hand, by common practice, no source: the rolls, sheets of 'skin'"},
		{
			rolling.Refused{Piece: "gore", Why: []finding.Fact{rolling.TooTight{Outside: 50.8, Least: 76.2}}, Ways: []finding.Fact{rolling.OverPipe{Outside: 38.1}, rolling.BuyPipe{NPS: "2", Outside: 60.325}}},
			"gore: 2 in outside, and your rolls go no smaller in this metal than 3 in: bend it by mallet over a pipe or bar of 1-1/2 in outside, from which it springs back; or buy standard pipe NPS 2, 2.375 in outside (bought pipe 2 schedule 40 in the post)",
		},
		{rolling.Overload{Share: 1.001}, "needs 101 % of what the rolls are rated for"},
		{flat.BluntTips{Narrow: 3, Hole: 25.4, Welded: true}, "tips narrower than 0.118 in are cut off blunt, which leaves a hole up to 1 in across at each pole: fill it with weld, or give the ball 'caps'"},
		{assembly.Topples{From: 4, Until: 6, Base: true}, "half built, its centre of gravity is not over its footprint, and it falls: clamp or anchor the base down before step 4, and keep it so until step 6 is welded"},
		{assembly.ClosesHollow{Parts: []string{"mast", "moon"}, Least: 3}, "Closes 'mast' and 'moon': first drill a hole of 1/8 in or more out of sight, open until all is cold"},
		{assembly.HeavyLift{Mass: 30}, "It weighs up to 66.1 lb, above 51 lb: too heavy for one person: sling it or get help"},
	} {
		if got := In(quantity.Inch).Fact(tt.fact); got != tt.want {
			t.Errorf("%+v reads\n%q, want\n%q", tt.fact, got, tt.want)
		}
	}
}

// TestShopJoined: what is said once of several parts has the greatest figure.
func TestShopJoined(t *testing.T) {
	list := finding.Gather([]finding.Finding{
		{Level: finding.Note, Concern: finding.Work, Parts: []string{"moon"}, Fact: flat.Scallops{End: "head", Ball: "sun", Depth: 0.2}},
		{Level: finding.Note, Concern: finding.Work, Parts: []string{"star"}, Fact: flat.Scallops{End: "head", Ball: "sun", Depth: 0.5}},
		{Level: finding.Note, Concern: finding.Work, Parts: []string{"reed"}, Fact: flat.Slivers{Corners: 8, Width: 2}},
		{Level: finding.Note, Concern: finding.Work, Parts: []string{"leaf"}, Fact: flat.Slivers{Corners: 8, Width: 1}},
	})
	if len(list) != 2 || list[0].Fact != finding.Fact(flat.Scallops{End: "head", Ball: "sun", Depth: 0.5}) || len(list[0].Parts) != 2 || list[1].Fact != finding.Fact(flat.Slivers{Corners: 8, Width: 2}) {
		t.Errorf("%+v", list)
	}
}
