package route

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/geom"
	"dropleg/engine/num/mip"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// ReachWish asks where outlets hang so that a hose reaches what is worked on.
type ReachWish struct {
	Around  []job.ID    `json:"around,omitempty" doc:"obstacles that are worked on; left out, every bench, lift, hull and machine"`
	Hose    unit.Length `json:"hose_m,omitempty" min:"0" max:"100" doc:"left out, as long as most hoses of the shop"`
	Ceiling bool        `json:"ceiling,omitempty" doc:"outlets may hang from the structure too"`
}

// Reached is where outlets are proposed.
type Reached struct {
	Edit   job.Edit `json:"-"` // places them, without lines; nil for none
	Spots  []Spot   `json:"spots"`
	Missed []string `json:"missed"` // sides that no outlet reaches
	Words  []string `json:"words"`
	Proven bool     `json:"proven"` // no fewer outlets do, of the places that were tried
}

// Spot is one outlet.
type Spot struct {
	Name   string     `json:"name"`
	At     geom.Point `json:"at_m"`
	Wall   job.ID     `json:"wall,omitempty"`
	Covers []string   `json:"covers"` // sides
	Stands bool       `json:"stands"` // it is there already
}

// The practice of hoses, in metres: common practice, no source.
const (
	outletUp   = 1.10 // outlets on walls over the floor
	handUp     = 1.00 // the hand at work
	hoseUsual  = 7.5
	everySpot  = 0.5  // places on walls that are tried
	fromCorner = 0.3  // of outlets
	fromDoor   = 0.15 // of outlets
)

// What an outlet costs in the choice, against one on a wall; a metre of hose from it decides
// between places that reach the same.
const (
	onCeiling = 1.5
	aMetre    = 0.002
)

// Reach proposes the fewest outlets from which a hose reaches every side of what is worked
// on, going round what stands on the floor and keeping doors free. The error is a
// *job.Refusal, or that of ctx.
func Reach(ctx context.Context, s *study.Study, w ReachWish) (*Reached, error) {
	j := s.Job()
	if len(j.Building.Rooms) == 0 {
		return nil, refuse("no-room", "building.rooms", "no room is drawn", "draw the room first")
	}
	hose := float64(w.Hose)
	if hose == 0 {
		hose = usualHose(j)
	}
	work, err := workedOn(j, w.Around)
	if err != nil {
		return nil, err
	}
	f := floorOf(s.Index(), work)
	if len(f.sides) == 0 {
		return nil, refuse("nothing-to-reach", "building.obstacles", "nothing stands in the shop that is worked on from a side that is free", "place benches, lifts and machines first")
	}
	all := f.places(s.Index(), s.Catalog(), w.Ceiling)
	f.cover(all, hose)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	chosen, proven, err := fewest(ctx, f, all)
	if err != nil {
		return nil, err
	}
	return f.told(s, all, chosen, hose, proven)
}

// usualHose is the length that most hoses have, the shorter of several.
func usualHose(j *job.Job) float64 {
	n := map[float64]int{}
	best := hoseUsual
	for i := range j.Outlets {
		if h := j.Outlets[i].Hose; h != nil {
			l := float64(h.Length)
			if n[l]++; n[l] > n[best] || n[l] == n[best] && l < best {
				best = l
			}
		}
	}
	return best
}

// workedOn are the obstacles that hoses are led to.
func workedOn(j *job.Job, asked []job.ID) ([]*job.Obstacle, error) {
	var out []*job.Obstacle
	for i := range j.Building.Obstacles {
		o := &j.Building.Obstacles[i]
		if slices.Contains(asked, o.ID) || asked == nil && slices.Contains([]string{"bench", "lift", "hull", "machine"}, o.Kind) {
			out = append(out, o)
		}
	}
	for _, id := range asked {
		if !slices.ContainsFunc(out, func(o *job.Obstacle) bool { return o.ID == id }) {
			return nil, refuse("leads-nowhere", "around", fmt.Sprintf("there is no obstacle %q", string(id)), "name one that is drawn", id)
		}
	}
	return out, nil
}

// fewest chooses places so that every side that can be covered is.
func fewest(ctx context.Context, f *floor, all []place) (chosen []int, proven bool, err error) {
	p := mip.Problem{}
	for i := range all {
		c := mip.Column{Cost: 1, High: 1, Integer: true}
		switch {
		case all[i].stands != "":
			c.Cost = 0
		case all[i].overhead:
			c.Cost = onCeiling
		}
		if len(all[i].covers) == 0 {
			c.High = 0
		}
		c.Cost += aMetre * all[i].far
		p.Columns = append(p.Columns, c)
	}
	for k := range f.sides {
		row := mip.Row{Low: 1, High: 1e9}
		for i := range all {
			if slices.Contains(all[i].covers, k) {
				row.Entries = append(row.Entries, mip.Entry{Column: i, Value: 1})
			}
		}
		if f.sides[k].missed = row.Entries == nil; !f.sides[k].missed {
			p.Rows = append(p.Rows, row)
		}
	}
	r, err := mip.Solve(ctx, p, mip.Options{Nodes: 20000})
	if err != nil {
		return nil, false, fmt.Errorf("choosing outlets: %w", err)
	}
	if r.X == nil {
		return nil, false, fmt.Errorf("choosing outlets: %v: %w", r.Status, context.Cause(ctx))
	}
	for i, x := range r.X {
		if x > 0.5 {
			chosen = append(chosen, i)
		}
	}
	return chosen, r.Status == mip.Proven, nil
}

// told puts the choice into an edit and words.
func (f *floor) told(s *study.Study, all []place, chosen []int, hose float64, proven bool) (*Reached, error) {
	system := unit.System(s.Job().Site.Units)
	if system == "" {
		system = unit.Metric
	}
	long := func(m float64) string { return system.Listed(unit.Length(m)) }
	d := &draft{job: s.Job(), shelf: s.Catalog()}
	out := &Reached{Spots: []Spot{}, Missed: []string{}, Proven: proven}
	for _, i := range chosen {
		p := &all[i]
		spot := Spot{At: p.at, Wall: p.wall, Stands: p.stands != "", Name: p.stands}
		for _, k := range p.covers {
			spot.Covers = append(spot.Covers, f.sides[k].name)
		}
		if p.stands == "" {
			spot.Name = spotName(spot.Covers)
			if err := d.hangOutlet(p, spot.Name); err != nil {
				return nil, err
			}
		}
		out.Spots = append(out.Spots, spot)
	}
	if len(d.edits) > 0 {
		out.Edit = job.AllOf("placed "+several(len(d.edits)/2, "outlet"), d.edits...)
	}
	for _, x := range f.sides {
		if x.missed {
			out.Missed = append(out.Missed, x.name)
		}
	}
	out.Words = []string{
		fmt.Sprintf("A hose of %s, round what stands on the floor and not through a doorway; from an outlet on a wall it hangs to the floor, and %s of it go up to the hand.", long(hose), long(handUp)),
		fmt.Sprintf("Outlets on walls hang %s over the floor, clear of doors and corners. Ways are measured on squares of %s, which makes them seem up to a twelfth longer than they are.", long(outletUp), long(cell)),
	}
	if len(out.Missed) > 0 {
		out.Words = append(out.Words, "Not reached: "+strings.Join(out.Missed, "; ")+". A longer hose, or an outlet overhead, would.")
	}
	if proven {
		out.Words = append(out.Words, "No fewer outlets do, of the places that were tried.")
	}
	return out, nil
}

// spotName calls an outlet by the sides that it is for: "Hull, east and south side".
func spotName(covers []string) string {
	what, side, _ := strings.Cut(covers[0], ", ")
	sides := []string{strings.TrimSuffix(side, " side")}
	for _, c := range covers[1:] {
		if w, s, _ := strings.Cut(c, ", "); w == what {
			sides = append(sides, strings.TrimSuffix(s, " side"))
		}
	}
	return capital(what) + ", " + strings.Join(sides, " and ") + " side"
}

// hangOutlet places an outlet without a line.
func (d *draft) hangOutlet(p *place, name string) error {
	fixed := "wall"
	if p.overhead {
		fixed = "structure"
	}
	kind := ""
	for _, k := range d.shelf.Kinds() {
		if k.Has(catalog.Outlets) && k.FixesTo == fixed && !k.Has(catalog.Branches) && (kind == "" || k.Has(catalog.Collects)) {
			kind = k.Kind
		}
	}
	made, err := d.do(&fit.Plant{Kind: kind, At: at(p.at)})
	if err != nil {
		return err
	}
	_, err = d.do(&fit.Compose{Point: made[0], Name: &name})
	return err
}
