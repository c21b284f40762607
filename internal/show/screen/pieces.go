package screen

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// Piece is a thing of the job as the tools of a page need it.
type Piece struct {
	ID    string          `json:"id"`
	What  string          `json:"what"`             // what its id begins with: "point", "line", "wall"
	Words string          `json:"words"`            // what people call it
	Thing json.RawMessage `json:"thing"`            // as in the job file
	At    *[3]float64     `json:"at_m,omitempty"`   // of a point that has one: its place in space
	Line  [][3]float64    `json:"line_m,omitempty"` // of a run that is drawn: its way in space, ends included
}

// thing is a piece before it is written.
type thing struct {
	id    job.ID
	words string
	of    any // pointer into the job
	line  []geom.Point
}

// Pieces lists the things that stand in the shop, and its tools and sets, in the
// order of the job's file.
func (s *Shop) Pieces() ([]Piece, error) {
	all, _, err := changed(nil, s.things())
	return all, err
}

// things lists them unwritten: of most, a page has all that there is to say.
func (s *Shop) things() []thing {
	j := s.job
	all := make([]thing, 0, len(j.Net.Points)+len(j.Net.Runs)+len(j.Outlets)+len(j.Tools)+64)
	add := func(id job.ID, name string, of any, line ...geom.Point) {
		if name == "" {
			name = s.named(id)
		}
		all = append(all, thing{id, name, of, line})
	}
	addBuilding(&j.Building, add)
	for i := range j.Net.Points {
		p := &j.Net.Points[i]
		if at, ok := s.index.Where(p); ok {
			add(p.ID, p.Name, p, at)
		} else {
			add(p.ID, p.Name, p)
		}
	}
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		add(r.ID, r.Name, r, s.index.Centreline(r)...)
	}
	for i := range j.Outlets {
		o := &j.Outlets[i]
		add(o.ID, "outlet "+markOf(*o, i)+", "+o.Name, o)
	}
	for i := range j.Tools {
		add(j.Tools[i].ID, j.Tools[i].Name, &j.Tools[i])
	}
	for i := range j.Work.Sets {
		add(j.Work.Sets[i].ID, j.Work.Sets[i].Name, &j.Work.Sets[i])
	}
	return all
}

// addBuilding adds what the shop is made of, in the order in which it is drawn.
func addBuilding(b *job.Building, add func(id job.ID, name string, of any, line ...geom.Point)) {
	for i := range b.Zones {
		add(b.Zones[i].ID, b.Zones[i].Name, &b.Zones[i])
	}
	for i := range b.Rooms {
		add(b.Rooms[i].ID, b.Rooms[i].Name, &b.Rooms[i])
	}
	for i := range b.Walls {
		add(b.Walls[i].ID, b.Walls[i].Name, &b.Walls[i])
	}
	for i := range b.Openings {
		add(b.Openings[i].ID, b.Openings[i].Name, &b.Openings[i])
	}
	for i := range b.Obstacles {
		add(b.Obstacles[i].ID, b.Obstacles[i].Name, &b.Obstacles[i])
	}
	if b.Underlay != nil {
		add("underlay", "picture of the floor plan", b.Underlay)
	}
}

// changed writes the things that are new or not as they were, and lists the ids gone.
func changed(had, now []thing) (pieces []Piece, gone []string, err error) {
	pieces, gone = []Piece{}, []string{}
	at := make(map[job.ID]int, len(had))
	for i := range had {
		at[had[i].id] = i
	}
	kept := make([]bool, len(had))
	for i := range now {
		t := &now[i]
		// Most stand where they stood before.
		k, ok := i, i < len(had) && had[i].id == t.id
		if !ok {
			k, ok = at[t.id]
		}
		if ok {
			kept[k] = true
			if t.same(&had[k]) {
				continue
			}
		}
		p, err := t.piece()
		if err != nil {
			return nil, nil, err
		}
		pieces = append(pieces, p)
	}
	for i := range had {
		if !kept[i] {
			gone = append(gone, string(had[i].id))
		}
	}
	return pieces, gone, nil
}

// same compares all that a piece tells. An edit copies no more of a job than it
// must, so that what it left alone is mostly the same pointers.
func (t *thing) same(o *thing) bool {
	return t.words == o.words && slices.Equal(t.line, o.line) && (t.of == o.of || reflect.DeepEqual(t.of, o.of))
}

// piece writes a thing.
func (t *thing) piece() (Piece, error) {
	raw, err := document.Encode(t.of)
	if err != nil {
		return Piece{}, fmt.Errorf("writing %s: %w", t.id, err)
	}
	p := Piece{ID: string(t.id), What: t.id.Word(), Words: t.words, Thing: raw}
	switch t.of.(type) {
	case *job.Point:
		if len(t.line) == 1 {
			p.At = (*[3]float64)(&t.line[0])
		}
	case *job.Run:
		for _, q := range t.line {
			p.Line = append(p.Line, q)
		}
	}
	return p, nil
}
