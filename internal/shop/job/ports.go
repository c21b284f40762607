package job

import (
	"fmt"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// user is what takes a port of a part: a run's end or an outlet.
type user struct {
	id   ID
	path string // of its port
	port string
}

// ports checks that each port named is there and taken once, and that no more
// joins a part than it has ports.
func (v *validator) ports(known *shelves) {
	at := map[ID][]user{}
	for i := range v.job.Net.Runs {
		r := &v.job.Net.Runs[i]
		path := fmt.Sprintf("net.runs[%d] (%s)", i, r.ID)
		at[r.From.Point] = append(at[r.From.Point], user{r.ID, path + ".from.port", r.From.Port})
		at[r.To.Point] = append(at[r.To.Point], user{r.ID, path + ".to.port", r.To.Port})
	}
	for i := range v.job.Outlets {
		o := &v.job.Outlets[i]
		at[o.Point] = append(at[o.Point], user{o.ID, fmt.Sprintf("outlets[%d] (%s).port", i, o.ID), o.Port})
	}
	for i := range v.job.Net.Points {
		p := &v.job.Net.Points[i]
		if kind := known.kind(p.Part.Kind); kind != nil {
			names := make([]string, 0, len(kind.Ports))
			for _, port := range kind.Ports {
				names = append(names, port.ID)
			}
			v.portsAt(p, at[p.ID], names, fmt.Sprintf("net.points[%d] (%s)", i, p.ID))
		}
	}
}

// portsAt checks the users of one point's part.
func (v *validator) portsAt(p *Point, users []user, names []string, path string) {
	free := map[string]bool{}
	for _, n := range names {
		free[n] = true
	}
	unnamed := 0
	taken := map[string]ID{}
	for _, u := range users {
		_, exists := free[u.port]
		switch {
		case u.port == "":
			unnamed++
		case !exists:
			v.note("no-such-port", Fault, document.Problem{
				Path: u.path, Read: fmt.Sprintf("%q", brief(u.port)),
				Want: "a port of " + string(p.ID) + ": " + listed(names), Nearest: unit.Nearest(brief(u.port), names),
			}, u.id, p.ID)
		case taken[u.port] != "":
			v.note("port-twice", Fault, document.Problem{
				Path: u.path, Read: fmt.Sprintf("%q, which %s takes", u.port, taken[u.port]),
				Want: "a free port of " + string(p.ID), Nearest: firstFree(names, taken),
			}, u.id, p.ID, taken[u.port])
		default:
			taken[u.port] = u.id
		}
	}
	if left := len(names) - len(taken); unnamed > left {
		v.note("too-many-joined", Fault, document.Problem{
			Path: path + ".part.kind", Read: fmt.Sprintf("%d joined to a part of %d ports: %s", len(users), len(names), whoJoins(users)),
			Want: fmt.Sprintf("a kind with at least %d ports", len(users)),
		}, p.ID)
	}
}

func firstFree(names []string, taken map[string]ID) string {
	for _, n := range names {
		if taken[n] == "" {
			return n
		}
	}
	return ""
}

func whoJoins(users []user) string {
	var ids []string
	for _, u := range users {
		ids = append(ids, string(u.id))
	}
	return listed(ids)
}

// listed names the first dozen.
func listed(names []string) string {
	if len(names) > 12 {
		return strings.Join(names[:12], ", ") + ", …"
	}
	return strings.Join(names, ", ")
}

// nearestSize is the size nearest to what was read: sizes are short, so that
// what was meant mostly differs in a sign such as the inch's.
func nearestSize(read string, sizes []string) string {
	bare := strings.TrimSpace(strings.NewReplacer("in", "", `"`, "", "mm", "", "inch", "").Replace(read))
	for _, s := range sizes {
		if s == bare || strings.TrimSpace(strings.TrimSuffix(s, " mm")) == bare {
			return s
		}
	}
	return unit.Nearest(brief(read), sizes)
}
