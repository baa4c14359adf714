package sheet

import (
	"fmt"
	"math"

	"stabile/param/quantity"
)

// A Scale is the ratio of a length on paper to the real one.
type Scale struct {
	Name   string  // "1:5", "2:1"
	Factor float64 // 0.2, 2
}

// FullSize is the scale 1:1.
func FullSize() Scale { return Scale{"1:1", 1} }

// ChooseScale returns the largest scale of the series at which something w
// wide and h high, in mm, goes into an area on paper. Work in millimetres has
// the series of ISO 5455 (1:1, 1:2, 1:5, 1:10 and tenfold of these); work in
// inches has the inches to the foot of a draughtsman's scale (6, 3, 1-1/2, 1,
// 3/4, 1/2 and so on, which are 1:2, 1:4, 1:8, 1:12, 1:16, 1:24): common
// practice. Enlargements end at 10:1 and 8:1.
func ChooseScale(w, h, areaWidth, areaHeight float64, system quantity.System) Scale {
	room := math.Inf(1)
	if w > 0 {
		room = areaWidth / w
	}
	if h > 0 {
		room = min(room, areaHeight/h)
	}
	for i := greatestStep; ; i-- {
		s := step(i, system)
		if s.Factor <= room*(1+scaleSlack) || i < -maxSteps {
			return s
		}
	}
}

// scaleSlack lets a thing that fills its area exactly have it, where rounding
// made it a hair larger: a micrometre on a metre of paper.
const scaleSlack = 1e-6

// maxSteps ends the search for an area of nothing; three steps are a factor of
// ten or eight.
const maxSteps = 60

// greatestStep is the largest enlargement: 10:1, or 8:1 in inches.
const greatestStep = 3

// step returns the i'th scale of the series, 0 being full size and less being
// smaller.
func step(i int, system quantity.System) Scale {
	n := max(i, -i)
	var ratio float64
	switch {
	case system != quantity.Inch:
		ratio = [...]float64{1, 2, 5}[n%3] * math.Pow(10, float64(n/3))
	case i > 0, n < 3:
		ratio = math.Pow(2, float64(n))
	default: // 1:8, 1:12 and from there twice and twice again
		ratio = [...]float64{8, 12}[(n-3)%2] * math.Pow(2, float64((n-3)/2))
	}
	if i > 0 {
		return Scale{fmt.Sprintf("%.0f:1", ratio), ratio}
	}
	return Scale{fmt.Sprintf("1:%.0f", ratio), 1 / ratio}
}
