package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/shell"
	"stabile/param/design"
)

// sideAt returns what the wall of a post is checked for where the end of another is welded to
// its side, without a load: it is a cylinder, EN 13445-3 16.5.
func sideAt(p, host *design.Part, end int) Shell {
	h := host.Post
	at := p.Post.Ends[end].At
	along := r3.Dot(r3.Sub(at, h.Ends[design.Foot].At), h.Direction)
	out := r3.Sub(at, r3.Add(h.Ends[design.Foot].At, r3.Scale(along, h.Direction)))
	if r3.Norm(out) < 1e-6*h.DiameterAt(along) {
		// The end lies on the axis: the wall is met the way that the post comes from.
		in := p.Post.Inward(end)
		out = r3.Sub(in, r3.Scale(r3.Dot(in, h.Direction), h.Direction))
	}
	if r3.Norm(out) == 0 {
		out = p.Post.Inward(end)
	}
	s := Shell{Ball: host, With: p, Where: ends[end], out: r3.Unit(out), soft: shell.Springs{Rotational: 1, Axial: 1}}
	if host.Metal == nil || p.Metal == nil || !(host.Metal.Thickness > 0) || !(p.Metal.Thickness > 0) {
		s.Gap = PostWallAtJoint
		return s
	}
	t := host.Metal.Thickness
	own, _ := Yield(host.Metal)
	tube, _ := Yield(p.Metal)
	j := shell.Joint{
		Radius: h.DiameterAt(along)/2 - t/2, Wall: t, Diameter: p.Post.Ends[end].Diameter - p.Metal.Thickness, Tube: p.Metal.Thickness,
		Strength: own / shell.Safety, TubeStrength: tube / shell.Safety, Single: true,
	}
	s.Seamed = sideSeamed(p, h, along, j)
	if s.Seamed {
		j.Strength *= shell.Seam
	}
	// A ring as wide as the post that it meets is held at half of it, which is on the safe side.
	j.Diameter = min(j.Diameter, 2*j.Radius)
	s.Joint, s.along = j, along
	s.holed()
	c, err := s.Joint.Capacity()
	if err != nil {
		s.Gap = PostWallAtJoint
		return s
	}
	s.Capacity = c
	s.half = math.Asin(min(1, j.Diameter/2/j.Radius))
	if !c.Decides() || math.Abs(r3.Dot(p.Post.Direction, s.out)) < math.Cos(oblique) {
		s.Gap = PostWallAtJoint
	}
	return s
}

// sideSeamed reports whether the seam of a post lies in the joint of a branch on it, or nearer
// than the clearance; so it counts where the branch's place round the post is not given.
func sideSeamed(p *design.Part, host *design.Post, along float64, j shell.Joint) bool {
	if host.Bought != nil {
		return false // no seam that the shop welds
	}
	if p.Post.Between || p.Post.Ends[design.Foot].With == nil || p.Post.Ends[design.Foot].With.Post != host {
		return true
	}
	apart := math.Abs(math.Remainder(p.Post.AlongBear-host.Seam, 2*math.Pi))
	return apart*host.DiameterAt(along)/2 < j.Diameter/2+j.Clearance()
}
