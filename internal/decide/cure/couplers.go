package cure

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// swap is all couplers that have to change together so that everything still
// mates: a socket, the plugs that go into it, the other sockets they go into.
type swap struct {
	edits   []job.Edit
	sockets map[job.ID]bool // outlets whose socket of this place is in it
	count   int             // halves
	blocked bool            // a half that cannot be changed by an edit
}

// couplers proposes, for the coupler at the wall, the one at the hose's end and
// both, the next larger body of the profile, or a profile that lets more through.
func (b *Bench) couplers(got *flow.Tool) []*proposal {
	var wall, end *proposal
	for i := range got.Path {
		s := &got.Path[i]
		e := &b.model.Elements()[s.Element]
		if e.Thing != model.ThingCoupler || e.Item == "" || float64(s.Loss) < least {
			continue
		}
		atEnd := e.Leg == "end" || e.Tool != ""
		p := b.larger(e, float64(s.Loss), atEnd)
		switch {
		case p == nil:
		case atEnd:
			end = p
		default:
			wall = p
		}
	}
	var all []*proposal
	for _, p := range []*proposal{wall, end} {
		if p != nil {
			all = append(all, p)
		}
	}
	if wall != nil && end != nil && keyOf(wall.edits) != keyOf(end.edits) {
		both := joined(wall, end)
		both.guess = wall.guess + end.guess
		all = append(all, both)
	}
	return all
}

// larger proposes the best next coupler for one place.
func (b *Bench) larger(e *model.Element, loss float64, atEnd bool) *proposal {
	row, ok := b.shelf.Coupler(e.Item)
	outlet := b.idx.Outlet(e.Outlet)
	if !ok || outlet == nil {
		return nil
	}
	next, ok := b.nextCoupler(row)
	if !ok {
		return nil
	}
	var s swap
	words := "coupler of the " + next.Words + " instead of the " + row.Words
	if next.Profile == row.Profile {
		words = "coupler of the " + next.Body + " body instead of the " + row.Body
	}
	if atEnd {
		s = b.endSwap(outlet, next.Coupler)
		words += ", tool end" + at(b.idx, outlet.ID)
		if n := len(s.sockets); n > 1 {
			words += fmt.Sprintf(" and %d more that share its tools", n-1)
		}
	} else {
		s = b.wallSwap(outlet, next.Coupler)
		words += ", wall end" + at(b.idx, outlet.ID)
	}
	if s.blocked || len(s.edits) == 0 {
		return nil
	}
	var touches []int
	for i := range b.model.Elements() {
		if x := &b.model.Elements()[i]; x.Thing == model.ThingCoupler && s.sockets[x.Outlet] {
			touches = append(touches, i)
		}
	}
	ratio := float64(row.C) / float64(next.C)
	return &proposal{
		words: words, edits: s.edits, place: string(e.ID) + "/" + e.Leg, guess: loss * (1 - ratio*ratio),
		price: b.priceOf(amount{next.Coupler, float64(s.count), 0}), touches: touches,
	}
}

// nextCoupler is the next body of the same profile that lets more through; else
// the profile of the same body that lets most through.
func (b *Bench) nextCoupler(row catalog.Coupler) (catalog.Coupler, bool) {
	rows := slices.DeleteFunc(b.shelf.Couplers(), func(k catalog.Coupler) bool { return k.SocketOnly || k.C <= 1.2*row.C })
	slices.SortStableFunc(rows, func(x, y catalog.Coupler) int { return cmp.Compare(x.C, y.C) })
	for _, k := range rows {
		if k.Profile == row.Profile {
			return k, true
		}
	}
	var best catalog.Coupler
	for _, k := range rows {
		if k.Body == row.Body && k.C > best.C && !strings.Contains(k.Note, "obsolete") {
			best = k
		}
	}
	return best, best.Coupler != ""
}

// wallSwap changes the socket at the wall and the plug of the hose in it.
func (b *Bench) wallSwap(o *job.Outlet, to string) swap {
	s := swap{sockets: map[job.ID]bool{o.ID: true}}
	if i := len(o.Hang) - 1; i >= 0 && b.isCoupler(&o.Hang[i]) {
		s.edits = append(s.edits, Set(o.ID, fmt.Sprintf("hang[%d].item", i), to))
		s.count++
		if o.Hang[i].C != nil {
			s.blocked = true
		}
	}
	if o.Hose != nil && o.Hose.Plug != "" {
		s.edits = append(s.edits, Set(o.Hose.ID, "plug", to))
		s.count++
	}
	return s
}

// endSwap changes the sockets that tools go into at an outlet, the plugs of
// those tools, and so on to every outlet where one of them is used.
func (b *Bench) endSwap(o *job.Outlet, to string) swap {
	s := swap{sockets: map[job.ID]bool{o.ID: true}}
	tools := map[job.ID]bool{}
	queue := []*job.Outlet{o}
	for n := 0; n < len(queue); n++ {
		b.swapSocket(queue[n], to, &s)
		for _, id := range queue[n].Tools {
			t := b.idx.Tool(id)
			if t == nil || tools[id] {
				continue
			}
			tools[id] = true
			if t.Plug != "" {
				s.edits = append(s.edits, Set(id, "plug", to))
				s.count++
			}
			for i := range b.job.Outlets {
				other := &b.job.Outlets[i]
				if slices.Contains(other.Tools, id) && !s.sockets[other.ID] {
					s.sockets[other.ID] = true
					queue = append(queue, other)
				}
			}
		}
	}
	return s
}

// swapSocket changes the socket that tools go into at an outlet.
func (b *Bench) swapSocket(o *job.Outlet, to string, s *swap) {
	switch last := len(o.Hang) - 1; {
	case o.Hose != nil && o.Hose.Socket != "":
		s.edits = append(s.edits, Set(o.Hose.ID, "socket", to))
		s.count++
	case o.Hose == nil && last >= 0 && b.isCoupler(&o.Hang[last]):
		s.edits = append(s.edits, Set(o.ID, fmt.Sprintf("hang[%d].item", last), to))
		s.count++
		s.blocked = s.blocked || o.Hang[last].C != nil
	}
}

func (b *Bench) isCoupler(p *job.Part) bool {
	k, _ := b.shelf.Kind(p.Kind)
	return k.Law.Name == "coupler"
}
