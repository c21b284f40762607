package start

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// draft is a job that gestures are made to.
type draft struct {
	job   *job.Job
	shelf *catalog.Catalog
}

// do makes a gesture and gives the ids that it made.
func (d *draft) do(g fit.Gesture) ([]job.ID, error) {
	e, made, err := g.Edit(job.NewIndex(d.job), d.shelf)
	if err != nil {
		return nil, err
	}
	after, _, err := e.Apply(d.job)
	if err != nil {
		return nil, fmt.Errorf("drawing the first plan: %w", err)
	}
	d.job = after
	return made, nil
}

// place puts a part at a place.
func (d *draft) place(kind, item, name string, at fit.Place, figures job.Part) (job.ID, error) {
	made, err := d.do(&fit.Plant{Kind: kind, Item: item, Name: name, At: &at, Figures: fit.Figures(figures)})
	if err != nil {
		return "", err
	}
	return made[0], nil
}

// pen is what lines are drawn with.
type pen struct{ stock, size, role string }

// line draws a line between two ports.
func (d *draft) line(p pen, from, to fit.Anchor, via ...geom.Point) ([]job.ID, error) {
	g := &fit.Line{From: from, To: to, Stock: p.stock, Size: p.size, Role: p.role}
	for i := range via {
		g.Via = append(g.Via, fit.Place{At: &via[i]})
	}
	return d.do(g)
}

func at(p geom.Point) fit.Place { return fit.Place{At: &p} }

func port(point job.ID, name string) fit.Anchor { return fit.Anchor{Point: point, Port: name} }

// room draws the room with its walls and doors into a new job.
func (b *brief) room() (*draft, *round) {
	title := b.Title
	if title == "" {
		title = b.Room.Name
	}
	d := &draft{shelf: b.shelf, job: &job.Job{
		Version: job.Version, Title: title, Site: job.Site{Units: b.Units, Cold: b.Room.Cold}, Net: job.Net{Points: []job.Point{}, Runs: []job.Run{}},
	}}
	g := &fit.Room{
		Name: b.Room.Name, Outline: b.Room.Outline, Ceiling: b.Room.Height, Climate: b.Room.Climate,
		Walls: &fit.RoomWalls{Thickness: *b.Room.Thickness, MadeOf: b.Room.MadeOf},
	}
	if len(g.Outline) == 0 {
		g.Corner, g.Size = &geom.Flat{}, &geom.Flat{float64(b.Room.Width), float64(b.Room.Depth)}
	}
	if _, err := d.do(g); err != nil {
		b.take("room", err)
		return nil, nil
	}
	r := roundOf(d.job)
	for i := range b.Room.Doors {
		b.door(d, r, i)
	}
	return d, roundOf(d.job)
}

// take files what a gesture was refused for under a key of the answers.
func (b *brief) take(path string, err error) {
	for _, f := range findings(err) {
		f.Path = path
		b.bad = append(b.bad, f)
	}
}

// door sets a door into its wall.
func (b *brief) door(d *draft, r *round, i int) {
	a := b.Room.Doors[i]
	path := fmt.Sprintf("room.doors[%d]", i)
	wide, high := doorWide, doorHigh
	if a.Kind == "" {
		a.Kind = "door"
	}
	if a.Kind == "gate" {
		wide, high = gateWide, gateHigh
	}
	if a.Width > 0 {
		wide = float64(a.Width)
	}
	if a.Height > 0 {
		high = float64(a.Height)
	}
	_, long, ok := r.find(a.Wall, 0)
	if !ok {
		b.refuse(path+".wall", fmt.Sprintf("%q", short(a.Wall)), "a wall of the room", nearestOf(a.Wall, r.words()))
		return
	}
	tries := []float64{(long - wide) / 2, fromCorn, long - wide - fromCorn}
	if a.Along != nil {
		tries = []float64{float64(*a.Along)}
	}
	var first error
	for _, along := range tries {
		_, err := d.do(&fit.Opening{
			Wall: job.ID("wall." + fold(a.Wall)), Kind: a.Kind, Along: length(max(0, along)), Width: length(wide), Height: length(min(high, float64(b.Room.Height))),
		})
		if err == nil {
			return
		}
		if first == nil {
			first = err
		}
	}
	b.take(path, first)
}
