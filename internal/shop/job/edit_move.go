package job

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Move puts a thing elsewhere, to a place or by a step: the edit "move". Points
// on a wall move along with the wall; a point moved by a step stays on its wall,
// one moved to a place comes off it. A room or obstacle is moved to a place by
// the centre of its outline and its foot, a wall by its start, an opening by its
// lower corner at the near side, along its wall. Of a run the corners are moved.
type Move struct {
	named
	ID ID          `json:"id"`
	To *geom.Point `json:"to_m,omitempty" min:"-2000" max:"2000"`
	By *geom.Point `json:"by_m,omitempty" min:"-4000" max:"4000"`
	On *OnWall     `json:"on,omitempty" doc:"of a point: onto a wall"`
}

// Apply moves the thing.
func (e *Move) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Move) verb() string { return "move" }

// movedKeys is what a move changes of each kind of thing.
func movedKeys(word string) []string {
	switch word {
	case "point":
		return []string{"at_m", "on"}
	case "room":
		return []string{"outline_m", "floor_m", "ceiling_m"}
	case "obstacle":
		return []string{"outline_m", "bottom_m", "top_m"}
	case "wall":
		return []string{"from_m", "to_m", "floor_m"}
	case "opening":
		return []string{"along_m", "sill_m"}
	case "line":
		return []string{"path_m"}
	}
	return nil
}

func (e *Move) do(d *draft) (Edit, error) {
	ways := 0
	for _, stated := range []bool{e.To != nil, e.By != nil, e.On != nil} {
		if stated {
			ways++
		}
	}
	if ways != 1 {
		return nil, refuse("no-place", "to_m", fmt.Sprintf("%d of to_m, by_m and on", ways), "one of them", "", e.ID)
	}
	keys := movedKeys(e.ID.Word())
	if keys == nil {
		return nil, refuse("not-to-move", "id", fmt.Sprintf("%q", brief(string(e.ID))), "a point, run, wall, opening, obstacle or room", "", e.ID)
	}
	return d.change(e.ID, keys, func(t any) error { return e.move(t, d) })
}

// move moves a copy of the thing.
func (e *Move) move(t any, d *draft) error {
	if p, ok := t.(*Point); ok {
		return e.point(p, d)
	}
	if e.On != nil {
		return refuse("not-to-move", "on", "a place on a wall", "to_m or by_m: only points stand on walls", "", e.ID)
	}
	switch t := t.(type) {
	case *Room:
		by := e.step(geom.Centre(t.Outline).At(float64(t.Floor)))
		t.Outline = shifted(t.Outline, by)
		t.Floor, t.Ceiling = t.Floor+unit.Length(by[2]), t.Ceiling+unit.Length(by[2])
	case *Obstacle:
		by := e.step(geom.Centre(t.Outline).At(float64(t.Bottom)))
		t.Outline = shifted(t.Outline, by)
		t.Bottom, t.Top = t.Bottom+unit.Length(by[2]), t.Top+unit.Length(by[2])
	case *Wall:
		by := e.step(t.From.At(float64(t.Floor)))
		t.From, t.To = t.From.Plus(by.Plan()), t.To.Plus(by.Plan())
		t.Floor += unit.Length(by[2])
	case *Opening:
		w, ok := d.thing(t.Wall).(*Wall)
		if !ok {
			return d.unknownThing("wall", t.Wall, "wall")
		}
		f := w.Frame()
		by := e.step(f.Out(float64(t.Along), float64(t.Sill), 0))
		along, up, _ := f.In(f.Out(float64(t.Along), float64(t.Sill), 0).Plus(by))
		t.Along, t.Sill = unit.Length(along), unit.Length(up)
	case *Run:
		if e.By == nil || len(t.Path) == 0 {
			return refuse("not-to-move", "id", fmt.Sprintf("%q", t.ID), "a run with corners, moved by by_m; its ends move with their points", "", t.ID)
		}
		path := make([]geom.Point, len(t.Path))
		for i, p := range t.Path {
			path[i] = p.Plus(*e.By)
		}
		t.Path = path
	}
	return nil
}

// step is the step of a thing whose own place is at.
func (e *Move) step(at geom.Point) geom.Point {
	if e.By != nil {
		return *e.By
	}
	return e.To.Minus(at)
}

func shifted(o []geom.Flat, by geom.Point) []geom.Flat {
	out := make([]geom.Flat, len(o))
	for i, p := range o {
		out[i] = p.Plus(by.Plan())
	}
	return out
}

// point moves a point.
func (e *Move) point(p *Point, d *draft) error {
	switch {
	case e.To != nil:
		to := *e.To
		p.At, p.On = &to, nil
	case e.On != nil:
		on := *e.On
		p.At, p.On = nil, &on
	case p.At != nil:
		to := p.At.Plus(*e.By)
		p.At = &to
	default:
		at, ok := placeOf(p, d)
		if !ok {
			return refuse("no-place", "by_m", "a point without a place", "to_m or on", "", p.ID)
		}
		w := d.thing(p.On.Wall).(*Wall) // placeOf found it
		along, up, off := w.Frame().In(at.Plus(*e.By))
		p.On = &OnWall{Wall: p.On.Wall, Along: tidy(along), Up: tidy(up), Off: tidy(off)}
	}
	return nil
}

// tidy rounds to a hundredth of a micrometre, which takes the last bits of
// turning into the wall's frame and back off the figures that people read.
func tidy(x float64) unit.Length {
	const grain = 1e8
	return unit.Length(float64(int64(x*grain+sign(x)*0.5)) / grain)
}

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}

// Words tells how far it goes.
func (e *Move) Words(before *Job) string {
	name := nameOf(before, e.ID)
	switch {
	case e.By != nil:
		return fmt.Sprintf("moved %s %s m", name, number(e.By.Length()))
	case e.On != nil:
		return fmt.Sprintf("moved %s onto %s", name, nameOf(before, e.On.Wall))
	case e.To != nil:
		d := begin(before)
		if p, ok := d.thing(e.ID).(*Point); ok {
			if at, ok := placeOf(p, d); ok {
				return fmt.Sprintf("moved %s %s m", name, number(at.Distance(*e.To)))
			}
		}
	}
	return "moved " + name
}

// Form writes the edit.
func (e *Move) Form() EditForm { return form("move", Move{ID: e.ID, To: e.To, By: e.By, On: e.On}) }
