package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Split puts a new point on a run and so makes two of it: the edit "split". The
// part from the run's From end keeps the id, the rest is a new run.
type Split struct {
	named
	Run   ID           `json:"run"`
	Along *unit.Length `json:"along_m,omitempty" above:"0" doc:"from the From end; or:"`
	Near  *geom.Point  `json:"near_m,omitempty" doc:"where the run passes nearest to this place"`
	Part  *Part        `json:"part,omitempty" doc:"what sits at the new point; left out, a plain joint"`
	In    string       `json:"in,omitempty" doc:"its port towards the From end"`
	Out   string       `json:"out,omitempty" doc:"its port towards the To end"`
	Point ID           `json:"point,omitempty" doc:"id of the new point; left out, the first free one"`
	Rest  ID           `json:"rest,omitempty" doc:"id of the new run; left out, the first free one"`
}

// Apply splits the run.
func (e *Split) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Split) verb() string { return "split" }

func (e *Split) do(d *draft) (Edit, error) {
	r, ok := d.thing(e.Run).(*Run)
	if !ok {
		return nil, d.unknownThing("run", e.Run, "line")
	}
	was := *r
	point, rest, first, err := e.cut(d, was)
	if err != nil {
		return nil, err
	}
	// Pieces of the edit are edits themselves, so that each is checked and undone
	// as any other.
	parts := []Edit{AddOf(point), AddOf(rest)}
	parts = append(parts, first...)
	back := make([]Edit, 0, len(parts))
	for _, p := range parts {
		inverse, err := p.do(d)
		if err != nil {
			return nil, err
		}
		back = append(back, inverse)
	}
	slices.Reverse(back)
	return AllOf("", back...), nil
}

// cut works out the new point, the rest, and the edits that shorten the run.
func (e *Split) cut(d *draft, r Run) (*Point, *Run, []Edit, error) {
	if (e.Along == nil) == (e.Near == nil) {
		return nil, nil, nil, refuse("no-place", "along_m", "both or none of along_m and near_m", "one of them", "", r.ID)
	}
	p := &Point{ID: e.Point, State: r.State}
	if e.Part != nil {
		p.Part = *e.Part
	}
	if p.ID == "" {
		_, stem, _ := strings.Cut(string(r.ID), ".")
		p.ID = freshID(ID("point."+stem), d.taken)
	}
	rest := r
	if rest.ID = e.Rest; rest.ID == "" {
		rest.ID = freshID(r.ID, d.taken)
	}
	rest.From = End{Point: p.ID, Port: e.Out}
	edits := []Edit{&Connect{Run: r.ID, End: "to", Point: p.ID, Port: e.In}}
	var err error
	if r.Length != nil {
		edits, err = e.cutStated(r, &rest, edits)
	} else {
		edits, err = e.cutDrawn(d, r, p, &rest, edits)
	}
	return p, &rest, edits, err
}

// cutStated shares a stated length out.
func (e *Split) cutStated(r Run, rest *Run, edits []Edit) ([]Edit, error) {
	if e.Along == nil || *e.Along >= *r.Length || *e.Along <= 0 {
		return nil, refuse("off-run", "along_m", "a place that is not within the run", "along_m between 0 and "+number(float64(*r.Length)), "", r.ID)
	}
	left := *r.Length - *e.Along
	rest.Length = &left
	return append([]Edit{change(r.ID, "length_m", float64(*e.Along))}, edits...), nil
}

// cutDrawn shares a drawn way out and places the point.
func (e *Split) cutDrawn(d *draft, r Run, p *Point, rest *Run, edits []Edit) ([]Edit, error) {
	from, _ := d.thing(r.From.Point).(*Point)
	to, _ := d.thing(r.To.Point).(*Point)
	a, ok1 := placeOf(from, d)
	b, ok2 := placeOf(to, d)
	if !ok1 || !ok2 {
		return nil, refuse("no-place", "run", fmt.Sprintf("%q, an end of which has no place", r.ID), "a run with a drawing or a stated length", "", r.ID)
	}
	line := append(append([]geom.Point{a}, r.Path...), b)
	along, total := 0.0, geom.Length(line)
	if e.Along != nil {
		along = float64(*e.Along)
	} else if hit, ok := geom.NearestOnPath(*e.Near, line); ok {
		along = hit.Along
	}
	if along <= geom.Tiny || along >= total-geom.Tiny {
		return nil, refuse("off-run", "along_m", number(along)+" m from the From end", "a place within the run's "+number(total)+" m, not at its ends", "", r.ID)
	}
	first, second := geom.Split(line, along)
	at := first[len(first)-1]
	p.At = &at
	rest.Path = inside(second)
	return append(edits, change(r.ID, "path_m", inside(first))), nil
}

// inside is the corners of a line without its ends, and without those that the
// ends fall upon.
func inside(line []geom.Point) []geom.Point {
	var out []geom.Point
	for _, p := range line[1 : len(line)-1] {
		if p.Distance(line[0]) > geom.Tiny && p.Distance(line[len(line)-1]) > geom.Tiny {
			out = append(out, p)
		}
	}
	return out
}

// change is the edit that sets one key of a run to a value made in Go.
func change(id ID, key string, value any) Edit {
	raw, err := document.Encode(value)
	if list, ok := value.([]geom.Point); err != nil || ok && len(list) == 0 {
		raw = []byte("null")
	}
	return &Change{ID: id, Key: key, Value: json.RawMessage(raw)}
}

// Words tells what is split where.
func (e *Split) Words(before *Job) string {
	if e.Along != nil {
		return fmt.Sprintf("split %s at %s m", nameOf(before, e.Run), number(float64(*e.Along)))
	}
	return "split " + nameOf(before, e.Run)
}

// Form writes the edit.
func (e *Split) Form() EditForm {
	c := *e
	c.Edit = ""
	return form("split", c)
}
