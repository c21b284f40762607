package sheet

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
)

func dropsSheet() Sheet {
	return Sheet{
		Name: "drops", Title: "Drop legs", Audience: "who builds it", Needs: "an outlet with a place in the room",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			given, err := m.given(ctx, false, false)
			if err != nil {
				return nil, err
			}
			var shelf page.Shelf
			for _, group := range m.likeDrops(take) {
				s := draw.Detail(given, m.units, group[0], m.dropTitle(group), m.dropNotes(take, group))
				shelf = append(shelf, page.Chart{Scene: s, Scale: 1})
			}
			if len(shelf) == 0 {
				return nil, nil
			}
			return []page.Block{
				page.Paragraph("Seen from before the wall, not to scale: lengths and heights are as written, heights over the floor to the middle of the line. ‹7› is piece 7 of the cut list, with its length as it is cut; j 12 is joint 12."),
				shelf,
			}, nil
		},
	}
}

// likeDrops are the drops in groups of those that are built alike, in the order of their first.
func (m *Maker) likeDrops(take *parts.Answer) [][]draw.Drop {
	var order []string
	groups := map[string][]draw.Drop{}
	for i := range m.job.Outlets {
		o := &m.job.Outlets[i]
		if _, ok := m.index.Where(m.index.Point(o.Point)); !ok {
			continue
		}
		d := draw.DropOf(m.index, o)
		if len(d.Runs) == 0 {
			continue
		}
		sign := m.signature(take, &d)
		if groups[sign] == nil {
			order = append(order, sign)
		}
		groups[sign] = append(groups[sign], d)
	}
	out := make([][]draw.Drop, len(order))
	for i, sign := range order {
		out[i] = groups[sign]
	}
	return out
}

// signature is the same for drops that are built alike: parts, sizes, heights and cut lengths.
func (m *Maker) signature(take *parts.Answer, d *draw.Drop) string {
	var b strings.Builder
	at, _ := m.index.Where(m.index.Point(d.Outlet.Point))
	for _, id := range d.Points {
		pt := m.index.Point(id)
		p, _ := m.index.Where(pt)
		fmt.Fprintf(&b, "%s %s %.0f;", pt.Part.Kind, pt.Part.Size, math.Round(100*(p[2]-at[2])))
	}
	for _, r := range d.Runs {
		fmt.Fprintf(&b, "%s %s %s", r.Stock, r.Size, r.State)
		for _, p := range take.ByThing[string(r.ID)].Pieces {
			if p.Cut != nil {
				fmt.Fprintf(&b, " %.3f", float64(*p.Cut))
			}
		}
	}
	for _, h := range d.Outlet.Hang {
		fmt.Fprintf(&b, "/%s %s %s", h.Kind, h.Item, h.Size)
	}
	floor := 0.0
	if r := m.index.RoomAt(at); r != nil {
		floor = float64(r.Floor)
	}
	fmt.Fprintf(&b, "%.0f", math.Round(100*(at[2]-floor)))
	return b.String()
}

// dropTitle names the outlets of a group.
func (m *Maker) dropTitle(group []draw.Drop) string {
	var marks []string
	var numbers []int
	for _, d := range group {
		marks = append(marks, m.mark(d.Outlet.ID))
		if n, err := strconv.Atoi(marks[len(marks)-1]); err == nil {
			numbers = append(numbers, n)
		}
	}
	if len(numbers) == len(marks) {
		marks = []string{draw.Ranges(numbers)}
	}
	if len(group) == 1 {
		return "Outlet " + marks[0] + ", " + group[0].Outlet.Name
	}
	return "Outlets " + strings.Join(marks, ", ") + ", built alike"
}

func (m *Maker) mark(id job.ID) string {
	for i := range m.job.Outlets {
		if m.job.Outlets[i].ID == id {
			return draw.OutletMark(m.job.Outlets[i], i)
		}
	}
	return ""
}

// dropNotes are the words about the parts of a drop; joints and pieces of the first of a group.
func (m *Maker) dropNotes(take *parts.Answer, group []draw.Drop) []draw.Note {
	d := group[0]
	alone := len(group) == 1
	numbers := pieceNumbers(take)
	var notes []draw.Note
	for _, id := range d.From {
		notes = append(notes, draw.Note{ID: id, Words: "from the line, " + m.partWords(take, id, alone)})
	}
	for _, id := range d.Points {
		words := m.partWords(take, id, alone)
		if id == d.Outlet.Point {
			words = m.outletWords(d.Outlet, words)
		}
		notes = append(notes, draw.Note{ID: id, Words: words})
	}
	for _, r := range d.Runs {
		words := m.stockWords(r.Stock, r.Size)
		var cuts []string
		for _, p := range take.ByThing[string(r.ID)].Pieces {
			switch {
			case p.Cut == nil:
			case alone:
				cuts = append(cuts, "‹"+strconv.Itoa(numbers[p.ID])+"› "+m.marked(*p.Cut))
			default:
				cuts = append(cuts, m.marked(*p.Cut))
			}
		}
		if len(cuts) > 0 {
			words += ": " + strings.Join(cuts, ", ")
		}
		notes = append(notes, draw.Note{ID: r.ID, Words: words})
	}
	return notes
}

// partWords are kind and size of a part with its joints.
func (m *Maker) partWords(take *parts.Answer, id job.ID, joints bool) string {
	pt := m.index.Point(id)
	words := "joint"
	if kind, ok := m.study.Catalog().Kind(pt.Part.Kind); ok {
		words = kind.Name("en")
	}
	if pt.Part.Size != "" {
		words += " " + parts.SizeWords(pt.Part.Size)
	}
	if set := m.settings(pt); set != "" {
		words += ", " + set
	}
	var numbers []int
	for _, k := range take.ByThing[string(id)].Joints {
		numbers = append(numbers, k.Number)
	}
	if joints && len(numbers) > 0 {
		words += "; j " + draw.Ranges(numbers)
	}
	return words
}

// outletWords adds what hangs at the outlet.
func (m *Maker) outletWords(o *job.Outlet, words string) string {
	for _, h := range o.Hang {
		name := h.Kind
		if kind, ok := m.study.Catalog().Kind(h.Kind); ok {
			name = kind.Name("en")
		}
		words += "; " + strings.TrimSpace(name+" "+or(h.Item, h.Size))
	}
	if o.Hose != nil {
		words += "; hose " + m.options.System.Listed(o.Hose.Length) + ", " + o.Hose.Item
	}
	return words
}
