package page

import (
	"dropleg/internal/show/scene"
)

// View is one drawing to scale, made anew for each scale that is tried: texts and symbols keep
// their size on paper, and what has no room at one scale has at another.
type View struct {
	Title string
	Draw  func(perMetre float64) scene.Scene
	// Key draws the whole where it comes in parts: a key to them, with less on it. Nil: Draw.
	Key func(perMetre float64) scene.Scene
}

// Drawings are views at one scale, the largest usual one at which each has room on a leaf.
type Drawings struct {
	Views []View
	// Least bounds the scale: none larger than 1 to Least.
	Least float64
	// Working is the smallest scale to work from, 1 to Working: where a leaf would take a
	// smaller one, the drawing comes in tiles as well. 0: never.
	Working float64
	NoScale bool // it is not to scale
	// PerMetre is the scale at which they are laid out already, mm to the metre; 0: not yet.
	PerMetre float64
	// Legend is laid under them in its own size, one unit of it to the mm; nil for none.
	Legend *scene.Scene
	Notes  []string
}

// pad is about a drawing for what hangs over its edge, mm.
const pad = 7

// mostTiles is how many tiles a drawing comes in at most; a vast one takes a smaller scale.
const mostTiles = 30

func (d Drawings) onto(c *composer) {
	if len(d.Views) == 0 {
		return
	}
	under := d.under(c.right() - c.left())
	w, h := c.right()-c.left(), c.top()-c.bottom()-under-1
	scale, drawn := d.fit(c.stamp.Inches, w, h)
	tiled := d.Working > 0 && scale.Ratio > d.Working
	tilings := make([]tiling, len(drawn))
	for i := range drawn {
		if key := d.Views[i].Key; tiled && key != nil {
			drawn[i] = key(scale.PerMetre())
		}
		c.view(d.Views[i].Title, &drawn[i], scale, under)
		if tiled {
			tilings[i] = c.tiling(&d.Views[i], &drawn[i], d)
			c.mark(&drawn[i], scale, tilings[i])
		}
	}
	if d.Legend != nil {
		Chart{Scene: *d.Legend, Scale: 1}.onto(c)
	}
	for _, note := range d.Notes {
		c.note(note)
	}
	for i := range d.Views {
		if tiled {
			c.tiles(&d.Views[i], tilings[i])
		}
	}
}

// Room is how wide and high, in mm, a drawing may be on a leaf with the notes of these.
func (d *Drawings) Room(p Paper, wide bool) (w, h float64) {
	w, h = Room(p, wide)
	return w - 2*pad, h - d.under(w) - 1 - 2*pad
}

// under is how high the notes below the drawings are on a leaf so wide, mm.
func (d *Drawings) under(wide float64) float64 {
	sum := 0.0
	if d.Legend != nil {
		sum += d.Legend.Max[1] - d.Legend.Min[1] + 2
	}
	for _, note := range d.Notes {
		sum += float64(len(wrap(note, wide, smallType, false))) * smallType * lineHeight
	}
	if len(d.Views) == 1 && d.Views[0].Title == "" {
		return sum
	}
	return sum + headType*lineHeight + 1
}

func (c *composer) note(text string) {
	for _, line := range wrap(text, c.right()-c.left(), smallType, false) {
		c.need(smallType * lineHeight)
		c.write(line, c.left(), c.y-smallType, smallType, "start", false)
		c.y -= smallType * lineHeight
	}
}

// fit finds the scale and draws at it: what is drawn may be larger than what was measured at
// another scale, and then the next one is tried.
func (d *Drawings) fit(inches bool, w, h float64) (Scale, []scene.Scene) {
	if d.PerMetre > 0 {
		return Scale{noScale, 1000 / d.PerMetre}, d.draw(d.PerMetre)
	}
	first := d.draw(20)
	wide, high := 0.0, 0.0
	for i := range first {
		wide, high = max(wide, first[i].Max[0]-first[i].Min[0]), max(high, first[i].Max[1]-first[i].Min[1])
	}
	if d.NoScale {
		return d.filling(wide, high, w, h)
	}
	all := Scales(inches)
	for i, s := range all {
		k := s.PerMetre()
		if s.Ratio < d.Least || i+1 < len(all) && (wide*k*0.8+2*pad > w || high*k*0.8+2*pad > h) {
			continue
		}
		drawn, fits := d.draw(k), true
		for n := range drawn {
			fits = fits && (drawn[n].Max[0]-drawn[n].Min[0])*k+2*pad <= w && (drawn[n].Max[1]-drawn[n].Min[1])*k+2*pad <= h
		}
		if fits || i+1 == len(all) {
			return s, drawn
		}
	}
	return all[len(all)-1], first
}

// filling is the scale at which drawings that are not to scale fill their room.
func (d *Drawings) filling(wide, high, w, h float64) (Scale, []scene.Scene) {
	k := min((w-2*pad)/max(wide, 0.1), (h-2*pad)/max(high, 0.1), 1000/max(d.Least, 1))
	for range 6 {
		drawn, over := d.draw(k), 1.0
		for i := range drawn {
			over = max(over, ((drawn[i].Max[0]-drawn[i].Min[0])*k)/(w-2*pad), ((drawn[i].Max[1]-drawn[i].Min[1])*k)/(h-2*pad))
		}
		if over < 1.001 {
			return Scale{noScale, 1000 / k}, drawn
		}
		k /= over
	}
	return Scale{noScale, 1000 / k}, d.draw(k)
}

// noScale stands in the title block for a scale.
const noScale = "none"

func (d *Drawings) draw(perMetre float64) []scene.Scene {
	out := make([]scene.Scene, len(d.Views))
	for i := range d.Views {
		out[i] = d.Views[i].Draw(perMetre)
	}
	return out
}

// view lays one drawing in the middle, its title over it.
func (c *composer) view(title string, s *scene.Scene, scale Scale, under float64) {
	k := scale.PerMetre()
	wide, high := (s.Max[0]-s.Min[0])*k, (s.Max[1]-s.Min[1])*k
	c.need(high + 2*pad + under)
	c.now().scale = scale.Words
	if title != "" {
		c.flow(title, headType, true)
	}
	x := max((c.left()+c.right()-wide)/2, c.left())
	c.now().laid = append(c.now().laid, scene.Laid{
		Scene: *s, Scale: k, At: scene.Point{x - s.Min[0]*k, c.y - pad - s.Max[1]*k},
	})
	c.y -= high + 2*pad
}
