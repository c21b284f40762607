package catalog

import (
	"strings"

	"dropleg/engine/cite"
)

// Mates says whether a plug goes into a socket: "yes", "no", or "looks-like"
// (seems to, and may let go). The same profile and size mate. Else a row of the
// shelf answers, also turned round unless it says yes. A pair that nobody lists
// is taken not to mate. Unknown ids are "no" with no source.
func (c *Catalog) Mates(socket, plug string) (answer string, ref cite.Ref) {
	s, okS := c.Coupler(socket)
	p, okP := c.Coupler(plug)
	if !okS || !okP {
		return "no", cite.Ref{}
	}
	if s.Coupler == p.Coupler && !s.SocketOnly {
		return "yes", s.Ref
	}
	if p.SocketOnly {
		return "no", p.Ref
	}
	for _, m := range c.shelf.Mates {
		if c.means(m.Socket, s) && c.means(m.Plug, p) {
			return m.Mates, m.Ref
		}
	}
	for _, m := range c.shelf.Mates {
		if m.Mates != "yes" && c.means(m.Socket, p) && c.means(m.Plug, s) {
			return m.Mates, m.Ref
		}
	}
	return "no", cite.Ref{Source: "common-practice", Place: "profiles and sizes that differ are taken not to mate", How: cite.Recalled}
}

// means says whether a name of a row stands for the coupler: its id or another
// name of it, or its profile with "-*".
func (c *Catalog) means(name string, k Coupler) bool {
	if profile, any := strings.CutSuffix(name, "-*"); any {
		return k.Profile == profile
	}
	return c.couplerID(name) == k.Coupler
}
