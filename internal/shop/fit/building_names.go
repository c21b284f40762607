package fit

import (
	"encoding/json"
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// near is how far apart two edges of the building may lie and still be meant as
// one, in metres: more than a tape measure errs, less than any wall is thick.
const near = 0.02

// names gives fresh ids for the several things of one gesture.
type names struct {
	ix   *job.Index
	made map[job.ID]bool
}

func newNames(ix *job.Index) *names { return &names{ix: ix, made: map[job.ID]bool{}} }

// fresh is an id that neither the job nor this gesture has.
func (n *names) fresh(stem job.ID) job.ID {
	id := n.ix.FreshID(stem)
	for k := 2; n.made[id]; k++ {
		id = n.ix.FreshID(job.ID(fmt.Sprintf("%s-%d", stem, k)))
	}
	n.made[id] = true
	return id
}

// set is the edit that gives a key of a thing a value made in Go; nil takes it away.
func set(id job.ID, key string, value any) job.Edit {
	raw, err := json.Marshal(value)
	if err != nil { // a number that is none: refused when it is applied
		raw = json.RawMessage(`"no number"`)
	}
	return &job.Change{ID: id, Key: key, Value: raw}
}

// tidyFlat rounds a place of the plan, see grain.
func tidyFlat(f geom.Flat) geom.Flat { return geom.Flat{float64(tidy(f[0])), float64(tidy(f[1]))} }

// compass is where a direction of the plan points, y being north: "north-east".
func compass(d geom.Flat) string {
	words := [...]string{"east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east"}
	turn := math.Atan2(d[1], d[0]) / (2 * math.Pi) * float64(len(words))
	return words[(int(math.Round(turn))+2*len(words))%len(words)]
}
