package sheet

import (
	"context"
	"fmt"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

func diagramSheet() Sheet {
	return Sheet{
		Name: "diagram", Title: "Flow diagram", Audience: "who builds it and who looks after it", Needs: "something in the net", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			if len(m.job.Net.Points) == 0 {
				return nil, nil
			}
			given, err := m.given(ctx, false, false)
			if err != nil {
				return nil, err
			}
			names, order := m.codes()
			given.Work.Names = names
			view := page.View{Draw: func(perMetre float64) scene.Scene { return draw.Diagram(given, m.at(perMetre)).Scene }}
			return []page.Block{
				page.Drawings{
					Views: []page.View{view}, NoScale: true, Least: 80, Legend: m.legendOf("outlet"),
					Notes: []string{"Not to scale. Symbols after ISO 1219-1; framed codes in the manner of ISO 1219-2, circuit and component: circuit 0 is the supply, the others are outlets in their order. A dot is a joint, a bridge is none."},
				},
				page.Break{},
				page.Heading("Components by their codes"), m.components(names, order),
			}, nil
		},
	}
}

// codes gives every part with a symbol its code: circuit 0 is what several outlets share, circuit
// n what serves the n-th outlet alone. Order is that of the codes.
func (m *Maker) codes() (names map[job.ID]string, order []job.ID) {
	circuit := m.circuits()
	names = map[job.ID]string{}
	for n := range len(m.job.Outlets) + 1 {
		count := 0
		for i := range m.job.Net.Points {
			pt := &m.job.Net.Points[i]
			kind, ok := m.study.Catalog().Kind(pt.Part.Kind)
			if !ok || circuit[pt.ID] != n || !draw.HasSymbol(kind) {
				continue
			}
			count++
			names[pt.ID] = fmt.Sprintf("%d.%d", n, count)
			order = append(order, pt.ID)
		}
	}
	return names, order
}

// circuits says which outlet each point serves alone, counted from 1; 0 for what is shared: the
// way from an outlet back to the first point that a main passes.
func (m *Maker) circuits() map[job.ID]int {
	own := func(r *job.Run) bool { return r.Role == "drop" || r.Role == "drip" }
	shared := map[job.ID]bool{}
	for i := range m.job.Net.Runs {
		if r := &m.job.Net.Runs[i]; !own(r) {
			shared[r.From.Point], shared[r.To.Point] = true, true
		}
	}
	out := map[job.ID]int{}
	for n := range m.job.Outlets {
		for queue := []job.ID{m.job.Outlets[n].Point}; len(queue) > 0; queue = queue[1:] {
			id := queue[0]
			if shared[id] || out[id] != 0 {
				continue
			}
			out[id] = n + 1
			for _, e := range m.index.Ends(id) {
				if own(e.Run) {
					queue = append(queue, e.Other())
				}
			}
		}
	}
	return out
}

// components lists the parts by their codes with what their plates say.
func (m *Maker) components(names map[job.ID]string, order []job.ID) page.Table {
	t := page.Table{Columns: []page.Head{{Words: "code", Right: true}, {Words: "what"}, {Words: "called"}, {Words: "size"}, {Words: "settings", Wide: true}}}
	for _, id := range order {
		pt := m.index.Point(id)
		kind, _ := m.study.Catalog().Kind(pt.Part.Kind)
		t.Rows = append(t.Rows, page.Row{Cells: []string{names[id], kind.Name("en"), m.shop.Named(id), pt.Part.Size, m.settings(pt)}})
	}
	return t
}

// settings are what a part is set to, or holds.
func (m *Maker) settings(pt *job.Point) string {
	var words []string
	part := &pt.Part
	if part.Set != nil {
		words = append(words, "set to "+m.plain(unit.KindGauge, float64(*part.Set)))
	}
	if part.Volume != nil {
		words = append(words, m.plain(unit.KindVolume, float64(*part.Volume)))
	}
	if c := part.Compressor; c != nil {
		if c.Power != nil {
			words = append(words, m.plain(unit.KindPower, float64(*c.Power)))
		}
		if c.CutIn != nil && c.CutOut != nil {
			words = append(words, "cuts in at "+m.plain(unit.KindGauge, float64(*c.CutIn))+", out at "+m.plain(unit.KindGauge, float64(*c.CutOut)))
		}
	}
	if part.Shut {
		words = append(words, "stands shut")
	}
	return strings.Join(words, ", ")
}
