package report

import (
	"math"
	"strconv"
	"strings"

	"stabile/param/quantity"
)

// unitOf returns the unit in which a report writes quantities of a dimension,
// and what one of it is in the coherent system of package quantity. A dimension
// without a unit of its own is in powers of metre, kilogram, second and radian,
// such as "kg m-1"; a plain number has the unit "".
func unitOf(d quantity.Dimension) (name string, scale float64) {
	const metre, newton = 1e3, 1e3
	switch d {
	case quantity.Number:
		return "", 1
	case quantity.Area:
		return "mm2", 1
	case quantity.Volume:
		return "mm3", 1
	case quantity.Moment:
		return "N m", newton * metre
	}
	for _, name := range [...]string{"mm", "deg", "kg", "N", "MPa", "m/s", "s", "kg/m3", "Hz"} {
		if u, ok := quantity.LookupUnit(name); ok && u.Dim == d {
			return u.Name, u.Scale
		}
	}
	var powers []string
	for _, p := range [...]struct {
		unit  string
		power int8
	}{{"kg", d.Mass}, {"m", d.Length}, {"s", d.Time}, {"rad", d.Angle}} {
		switch p.power {
		case 0:
		case 1:
			powers = append(powers, p.unit)
		default:
			powers = append(powers, p.unit+strconv.Itoa(int(p.power)))
		}
	}
	return strings.Join(powers, " "), math.Pow(metre, float64(d.Length))
}
