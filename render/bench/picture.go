package bench

import (
	"image/png"
	"math"
	"net/http"
	"strconv"
	"strings"

	"stabile/param/quantity"
	"stabile/render/picture"
)

// Sides of a picture on the page, in pixels.
const (
	leastSide = 16
	mostSide  = 1800
)

// picture answers with the picture of a design that was worked out.
func (s *Server) picture(w http.ResponseWriter, r *http.Request) {
	id := strings.TrimSuffix(r.PathValue("id"), ".png")
	worked := s.jobs.find(id)
	if worked == nil || worked.seen() == nil {
		http.Error(w, "there is no such picture any more", http.StatusNotFound)
		return
	}
	ask := r.URL.Query()
	number := func(name string, otherwise, least, most float64) float64 {
		x, err := strconv.ParseFloat(ask.Get(name), 64)
		if err != nil || !quantity.Finite(x) {
			return otherwise
		}
		return max(least, min(most, x))
	}
	wide, high := int(number("w", 480, leastSide, mostSide)), int(number("h", 480, leastSide, mostSide))
	o := picture.Options{Round: true, Beside: picture.Fitting, Sketch: ask.Get("fast") != ""}
	if ask.Get("beside") == "none" {
		o.Beside = picture.Nothing
	}
	from := number("from", 300, -3600, 3600) * math.Pi / 180
	o.From = &from
	select {
	case s.busy <- struct{}{}:
		defer func() { <-s.busy }()
	case <-r.Context().Done():
		return
	}
	_, err := s.guarded(func() (*result, error) {
		scene, err := picture.New(worked.seen(), o)
		if err != nil {
			return nil, err
		}
		img := scene.Render(wide, high)
		w.Header().Set("Content-Type", "image/png")
		w.Header().Set("Cache-Control", "private, max-age=600") // a design that was worked out does not change
		e := png.Encoder{CompressionLevel: png.BestSpeed}
		return nil, e.Encode(w, img)
	})
	if err != nil && w.Header().Get("Content-Type") == "" {
		http.Error(w, "no picture: "+err.Error(), http.StatusUnprocessableEntity)
	}
}
