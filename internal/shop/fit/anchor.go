package fit

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Anchor is where a line begins or ends: at a point, on a run, or loose.
type Anchor struct {
	Point job.ID       `json:"point,omitempty"`
	Port  string       `json:"port,omitempty" doc:"of the part at the point; left out, the one that fits"`
	Run   job.ID       `json:"run,omitempty" doc:"a tee is cut in there"`
	Along *unit.Length `json:"along_m,omitempty" min:"0" max:"5000" doc:"from the run's From end"`
	Place *Place       `json:"place,omitempty" doc:"a loose end"`
}

// held is an anchor worked out before anything is cut, so that two anchors on one
// run mean the run as the hand saw it.
type held struct {
	spot
	anchor Anchor
	node   *node // nil where it is yet to be made
	path   string
}

// hold works an anchor out.
func (s *sketch) hold(a Anchor, path string) (held, error) {
	h := held{anchor: a, path: path}
	ways := 0
	for _, given := range []bool{a.Point != "", a.Run != "", a.Place != nil} {
		if given {
			ways++
		}
	}
	if ways != 1 {
		return h, refuse("no-place", path, "the line needs one place here", "give one of point, run with along_m, and place")
	}
	var err error
	switch {
	case a.Point != "":
		if h.node = s.byPoint[a.Point]; h.node == nil {
			return h, s.noSuch("point", a.Point, path+".point")
		}
		if !h.node.placed {
			return h, refuse("no-place", path+".point", called(h.node.Name, a.Point)+" has no place in the drawing", "place it first", a.Point)
		}
		h.at = h.node.where
	case a.Run != "":
		if a.Along == nil {
			return h, refuse("no-place", path+".along_m", "it is not said where on the run", "give along_m, from the run's From end")
		}
		h.at, err = s.placeOn(a.Run, float64(*a.Along), path)
	default:
		h.spot, err = a.Place.find(s.ix, path+".place")
	}
	return h, err
}

// land gives the end of a new line at an anchor: cuts the run, joins the point or
// makes a loose end. like is the new line.
func (s *sketch) land(h held, atTo bool, like job.Run) (job.End, error) {
	n := h.node
	switch {
	case h.anchor.Run != "":
		n = s.cutAt(h.anchor.Run, h.at, idOf("point", roleWord(like.Role)+" tee", "tee"), like.State)
	case n == nil:
		n = s.addPoint(idOf("point", roleWord(like.Role)+" end", "end"), h.spot, job.Part{Kind: s.plain().Kind}, like.State)
	}
	if n == nil {
		return job.End{}, s.noSuch("run", h.anchor.Run, h.path+".run")
	}
	if k := s.kind(&n.Part); shaped(k) {
		if h.anchor.Port != "" {
			if _, ok := k.Port(h.anchor.Port); !ok {
				return job.End{}, refuse("no-such-port", h.path+".port", called(n.Name, n.ID)+" has no port "+brief(h.anchor.Port), "leave it out", n.ID)
			}
		}
		return job.End{Point: n.ID}, nil // makeTrue names the port
	}
	port, err := s.port(n, h.anchor.Port, atTo, like.Role, h.path)
	return job.End{Point: n.ID, Port: port}, err
}

// runNear is a run at an anchor, whose stock and size a new line takes that states none.
func (s *sketch) runNear(hs ...held) *job.Run {
	for _, h := range hs {
		if h.anchor.Run != "" {
			return s.byRun[h.anchor.Run]
		}
		if h.node != nil {
			if ends := s.ends(h.node.ID); len(ends) > 0 {
				return ends[0].run
			}
		}
	}
	return nil
}

// roleWord is the word for a line of a role in ids.
func roleWord(role string) string {
	if role == "" {
		return "line"
	}
	return role
}

// tidyPath rounds the places of a path.
func tidyPath(path []geom.Point) []geom.Point {
	for i := range path {
		path[i] = tidyPoint(path[i])
	}
	return path
}
