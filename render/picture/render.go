package picture

import (
	"image"
	"math"
	"runtime"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/workers"
	"stabile/render/picture/cast"
)

// small is the number of pixels up to which a picture is made as a sketch.
const small = 480 * 360

// Samples of a pixel in which something changes, in squares of a side.
const (
	fine  = 4 // 16 samples
	rough = 2
)

// Render makes the picture, w by h pixels, on all cores. Every pixel is opaque.
func (s *Scene) Render(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	win := s.view.window(img.Rect.Dx(), img.Rect.Dy())
	f := newFrame(s, &win, img)
	f.each((*worker).look)
	f.each((*worker).finish)
	if s.beside != Nothing {
		s.writeHeight(img, &win)
	}
	return img
}

// A frame is a picture in the making: one sample for the middle of each pixel,
// and what it met.
type frame struct {
	*Scene
	win    *window
	img    *image.RGBA
	w, h   int
	light  []pixel
	mask   *mask
	side   int // of the square of samples where something changes
	tilesX int
	tilesY int
}

// A pixel is the light at its middle and what is seen there, but for a person: a
// face of a solid, or one of the names below. even is how bright it would be without the
// pattern of its surface, by which neighbours are compared: patterns are evened out
// to the size of a pixel as they are made.
type pixel struct {
	r, g, b, even float32
	what, face    int32
}

func (p *pixel) rgb() rgb { return rgb{float64(p.r), float64(p.g), float64(p.b)} }

// What is seen that is no solid.
const (
	theGround int32 = -1
	theTop    int32 = -2 // of a table or plinth
	theSide   int32 = -3 // of a plinth
	theWall   int32 = -4 // or trees
	theSky    int32 = -5
)

// tile is the side, in pixels, of the squares that are worked on as one.
const tile = 16

func newFrame(s *Scene, win *window, img *image.RGBA) *frame {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	f := &frame{
		Scene: s, win: win, img: img, w: w, h: h, light: make([]pixel, w*h), side: fine,
		tilesX: (w + tile - 1) / tile, tilesY: (h + tile - 1) / tile,
	}
	if s.sketch || w*h <= small {
		f.side = rough
	}
	if s.figure != nil {
		f.mask = s.figure.mask(win, img.Rect)
	}
	return f
}

// A worker works on one tile after another.
type worker struct {
	*frame
	among   []int32 // the solids that the tile may show
	empty   bool    // it shows nothing but a wall, trees or sky
	slight  bool    // some of them may slip between the middles of pixels
	grid    grid
	curtain curtain
	patch   patch
	edges   [tile * tile]bool
}

// each lets workers do every tile. No tile depends on another of the same round.
func (f *frame) each(do func(w *worker, x, y int)) {
	var next atomic.Int64
	workers.Do(runtime.GOMAXPROCS(0), func() {
		w := &worker{frame: f}
		for {
			i := int(next.Add(1)) - 1
			if i >= f.tilesX*f.tilesY {
				return
			}
			do(w, i%f.tilesX*tile, i/f.tilesX*tile)
		}
	})
}

// gather finds the solids that may be seen in a tile.
func (w *worker) gather(x, y int) {
	w.among, w.empty = w.among[:0], false
	w.grid.clear(x, y)
	w.curtain.known = [len(w.curtain.known)]bool{}
	w.spread(x, y)
	if w.win.parallel {
		for i := range w.world.Solids {
			w.among = append(w.among, int32(i))
		}
		return
	}
	mid := w.win.ray(float64(x)+(tile-1)/2.0, float64(y)+(tile-1)/2.0)
	cos, low := 1.0, 1.0
	for i := range 4 {
		c := w.win.ray(float64(x+i&1*tile)-0.5, float64(y+i>>1*tile)-0.5)
		cos, low = min(cos, r3.Dot(c.Along, mid.Along)), min(low, c.Along.Z)
	}
	cone := cast.Cone{From: mid.From, Along: mid.Along, Cos: cos, Sin: math.Sqrt(max(0, 1-cos*cos))}
	w.among = w.world.Among(&cone, w.among)
	w.empty = len(w.among) == 0 && low > 0 && w.stage.floor == 0
}

// look casts one ray through the middle of each pixel of a tile.
func (w *worker) look(x0, y0 int) {
	w.gather(x0, y0)
	for y := y0; y < min(y0+tile, w.h); y++ {
		for x := x0; x < min(x0+tile, w.w); x++ {
			var cache sky
			w.light[y*w.w+x] = w.sample(float64(x), float64(y), w.win.pixel, &cache)
		}
	}
}

// A sky keeps the openness of the sky over the solids that are seen in one
// pixel, over which it hardly changes.
type sky struct {
	solid [4]int32
	open  [4]float64
	n     int
}

// sample returns the light through a place of the picture, and what is seen
// there.
func (w *worker) sample(x, y, size float64, cache *sky) pixel {
	r := w.win.ray(x, y)
	var v sight
	w.sight(&r, &v)
	c, even := w.shadeAt(x, y, size, &r, &v, cache)
	return pixel{float32(c.r), float32(c.g), float32(c.b), float32(even), v.what, v.hit.Face}
}

// A sight is what a ray meets, but for a person: a solid, or the stage.
type sight struct {
	what int32
	hit  cast.Hit
	scenery
}

// sight finds what a ray meets.
func (w *worker) sight(r *cast.Ray, v *sight) {
	v.hit = w.world.MeetAmong(r, w.among)
	switch {
	case v.hit.Solid >= 0:
		v.what, v.t = v.hit.Solid, v.hit.T
		return
	case w.patch.only:
		w.stage.meetOnly(r, w.patch.what, &v.scenery)
	default:
		w.stage.meet(r, &v.scenery)
	}
	v.what = v.scenery.what
}

// shadeAt returns the light of what a ray meets.
func (w *worker) shadeAt(x, y, size float64, r *cast.Ray, v *sight, cache *sky) (c rgb, even float64) {
	if v.what >= 0 {
		return w.solidAt(r, &v.hit, size, cache)
	}
	return w.backdrop(x, y, r, &v.scenery, size)
}

// before returns the share of a pixel that the figure covers before what is met at
// a distance.
func (w *worker) before(x, y int, r *cast.Ray, t float64) float64 {
	share := w.mask.at(x, y)
	if share > 0 && w.figure.meet(r) >= t {
		return 0
	}
	return share
}

// overlay lays the figure over the light of a pixel.
func (w *worker) overlay(x, y int, c rgb) rgb {
	if w.mask.at(x, y) == 0 {
		return c
	}
	r := w.win.ray(float64(x), float64(y))
	var v sight
	w.sight(&r, &v)
	return w.figure.over(c, w.before(x, y, &r, v.t))
}

// solidAt shades where a ray has met a solid.
func (w *worker) solidAt(r *cast.Ray, hit *cast.Hit, size float64, cache *sky) (c rgb, even float64) {
	b := &w.world.Solids[hit.Solid]
	p := r.At(hit.T)
	sp := spot{
		p: p, n: b.Normal(p, hit.Face), v: r3.Scale(-1, r.Along),
		solid: hit.Solid, face: hit.Face, pixel: size * hit.T,
	}
	if w.win.parallel {
		sp.pixel = size
	}
	return w.shade(&sp, w.open(&sp, cache))
}

// open returns the openness of the sky at a spot, the same for all of a solid
// that is seen in one pixel.
func (w *worker) open(sp *spot, cache *sky) float64 {
	for i := range cache.n {
		if cache.solid[i] == sp.solid {
			return cache.open[i]
		}
	}
	open := w.world.Sky(sp.p, sp.n, sp.solid)
	if cache.n < len(cache.solid) {
		cache.solid[cache.n], cache.open[cache.n] = sp.solid, open
		cache.n++
	}
	return open
}

// exposure scales light to the tones.
const exposure = 0.74

// put writes a pixel. What falls between two of the 256 steps of a primary goes
// to one or the other by chance, so that slow gradients show no bands.
func (w *worker) put(x, y int, c rgb) {
	h := scatter(uint32(x)*0x8da6b343 ^ uint32(y)*0xd8163841 + w.seed)
	i := y*w.img.Stride + 4*x
	pix := w.img.Pix[i : i+4 : i+4]
	for k, v := range [3]float64{c.r, c.g, c.b} {
		dither := float32(0.5)
		if !w.options.Even {
			dither = float32(h>>(10*uint(k))&0x3ff) * (1.0 / 1024)
		}
		pix[k] = uint8(min(w.toneTable.of(exposure*v)*255+dither, 255))
	}
	pix[3] = 255
}
