package fit

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// branches says whether a port is a branch of its part, as the law of tees counts it.
func branches(p catalog.Port) bool { return strings.HasPrefix(p.ID, "branch") }

// assign gives the lines at a fitting their ports. Ports that are good stay.
func (s *sketch) assign(k catalog.Kind, ends []end, hung []*job.Outlet) {
	if s.portsGood(k, ends, hung) {
		return
	}
	ends = slices.Clone(ends)
	var through, aside []string
	for _, p := range k.Ports {
		if branches(p) {
			aside = append(aside, p.ID)
		} else {
			through = append(through, p.ID)
		}
	}
	if steps(k) {
		s.largerFirst(ends)
		if k.Ports[0].Size != "" {
			slices.Reverse(through)
		}
	} else {
		if a, b, _, known := s.straightest(ends); known && len(ends) > 2 {
			pair := []end{ends[a], ends[b]}
			ends = append(pair, slices.DeleteFunc(ends, func(e end) bool { return e == pair[0] || e == pair[1] })...)
		}
		if len(ends) >= 2 && !ends[0].atTo && ends[1].atTo {
			ends[0], ends[1] = ends[1], ends[0]
		}
		if len(ends) == 1 && !ends[0].atTo { // a line that begins here leaves by the far port
			slices.Reverse(through)
		}
	}
	names := append(through, aside...)
	for i, e := range ends {
		e.at().Port = names[i]
	}
	for i, o := range hung {
		o.Port = names[len(ends)+i]
	}
}

// portsGood says whether the lines at a fitting have each a port of their own, and
// where it branches the branch is none of the two that are most nearly in line.
func (s *sketch) portsGood(k catalog.Kind, ends []end, hung []*job.Outlet) bool {
	seen := map[string]bool{}
	good := func(port string) bool {
		p, ok := k.Port(port)
		if !ok || port == "" && len(k.Ports) > 1 || seen[p.ID] {
			return false
		}
		seen[p.ID] = true
		return true
	}
	for _, e := range ends {
		if !good(e.at().Port) {
			return false
		}
	}
	for _, o := range hung {
		if !good(o.Port) {
			return false
		}
	}
	if steps(k) && len(ends) == 2 {
		sorted := slices.Clone(ends)
		s.largerFirst(sorted)
		large, _ := k.Port(sorted[0].at().Port)
		return large.Size == ""
	}
	if len(k.Ports) < 3 || len(ends) < 3 {
		return true
	}
	a, b, turn, known := s.straightest(ends)
	if !known || turn > 45 {
		return true
	}
	isBranch := func(e end) bool {
		p, _ := k.Port(e.at().Port)
		return branches(p)
	}
	return isBranch(ends[a]) == isBranch(ends[b])
}

// largerFirst puts two ends in the order of their bores, the larger first.
func (s *sketch) largerFirst(ends []end) {
	slices.SortStableFunc(ends, func(a, b end) int {
		x, _ := s.shelf.Size(a.run.Stock, a.run.Size)
		y, _ := s.shelf.Size(b.run.Stock, b.run.Size)
		switch {
		case x.Bore > y.Bore:
			return -1
		case x.Bore < y.Bore:
			return 1
		}
		return 0
	})
}

// freePorts lists the ports of a part at a point that nothing is joined to. Ends that
// name none are settled as the model settles them: by "out" and "in", else the first free.
func (s *sketch) freePorts(n *node) []catalog.Port {
	k := s.kind(&n.Part)
	taken := map[string]bool{}
	var unnamed []string
	note := func(port, want string) {
		if port == "" {
			unnamed = append(unnamed, want)
			return
		}
		taken[port] = true
	}
	for _, e := range s.ends(n.ID) {
		note(e.at().Port, wanted(e.atTo))
	}
	for _, o := range s.outletsAt(n.ID) {
		note(o.Port, wanted(false))
	}
	for _, want := range unnamed {
		if p, ok := choose(k.Ports, taken, want); ok {
			taken[p.ID] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(k.Ports), func(p catalog.Port) bool { return taken[p.ID] })
}

// wanted is the port by which air comes to the end of a run, or leaves at its start.
func wanted(atTo bool) string {
	if atTo {
		return "in"
	}
	return "out"
}

// choose is the port called as wanted, else the first free one that air passes by.
func choose(ports []catalog.Port, taken map[string]bool, want string) (best catalog.Port, ok bool) {
	for _, p := range ports {
		switch {
		case taken[p.ID]:
		case p.ID == want:
			return p, true
		case !ok && !aside(p):
			best, ok = p, true
		}
	}
	return best, ok
}

// port finds the port by which a new line is joined to what is no fitting: the one
// asked for, else the one that its direction wants, else any free one. A drip line
// goes to the drain.
func (s *sketch) port(n *node, asked string, atTo bool, role, path string) (string, error) {
	k := s.kind(&n.Part)
	free := s.freePorts(n)
	var names []string
	for _, p := range free {
		names = append(names, p.ID)
	}
	if asked != "" {
		if slices.Contains(names, asked) {
			return asked, nil
		}
		if _, ok := k.Port(asked); !ok || len(k.Ports) == 0 {
			return "", refuse("no-such-port", path+".port", fmt.Sprintf("%s has no port %q", called(n.Name, n.ID), brief(asked)), freeWords(names), n.ID)
		}
		return "", refuse("port-taken", path+".port", fmt.Sprintf("the port %q of %s is taken", asked, called(n.Name, n.ID)), freeWords(names), n.ID)
	}
	if role == "drip" {
		for _, p := range free {
			if p.ID == "drain" {
				return p.ID, nil
			}
		}
	}
	if p, ok := choose(free, nil, wanted(atTo)); ok {
		return p.ID, nil
	}
	return "", s.noPort(n, k, path)
}

func freeWords(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "free is " + either(names)
}

// noPort refuses a line at a part that has no free end, and names the line beside it.
func (s *sketch) noPort(n *node, k catalog.Kind, path string) error {
	near := ""
	for _, e := range s.ends(n.ID) {
		if way := s.way(e.run); way != nil {
			near = "cut it into " + called(e.run.Name, e.run.ID) + ", the line beside it"
			break
		}
	}
	return refuse("no-free-port", path, fmt.Sprintf("%s %s has no free end", k.Name("en"), called(n.Name, n.ID)), near, n.ID)
}
