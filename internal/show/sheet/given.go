package sheet

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/screen"
)

// strokes are the dashes by which lines of different stock are told apart, the first for the
// stock that comes first in the job (ISO 128 line forms, as far as they are easily told apart).
func strokes() [][]float64 {
	return [][]float64{nil, {4, 1.2}, {6, 1.2, 0.6, 1.2}, {1.6, 1}, {6, 1, 0.6, 1, 0.6, 1}, {9, 1.5}, {3, 0.8, 3, 0.8, 0.6, 0.8}}
}

// stocks are the stocks of the lines in the order in which they come.
func (m *Maker) stocks() []string {
	var all []string
	for i := range m.job.Net.Runs {
		if s := m.job.Net.Runs[i].Stock; !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return all
}

func (m *Maker) dashes() map[string][]float64 {
	all := strokes()
	out := map[string][]float64{}
	for i, s := range m.stocks() {
		out[s] = all[i%len(all)]
	}
	return out
}

// given is what the drawings to build from are made of; cuts and joints where they are asked for.
func (m *Maker) given(ctx context.Context, cuts, joints bool) (draw.Given, error) {
	g := draw.Given{Index: m.index, Shelf: m.study.Catalog(), Work: &draw.Work{Dashes: m.dashes()}}
	if !cuts && !joints {
		return g, nil
	}
	take, err := m.take(ctx)
	if err != nil {
		return g, err
	}
	for i := range take.Pieces {
		p := &take.Pieces[i]
		if cuts && p.State != parts.Stub && p.From.At != nil && p.To.At != nil && p.Cut != nil {
			g.Work.Cuts = append(g.Work.Cuts, draw.Cutting{Run: p.Run, A: *p.From.At, B: *p.To.At, Short: fmt.Sprintf("‹%d›", i+1), Words: fmt.Sprintf("‹%d› %s", i+1, m.marked(*p.Cut))})
		}
	}
	for i := range take.Joints {
		if k := &take.Joints[i]; joints && k.At != nil && k.State != parts.Stub {
			g.Work.Joints = append(g.Work.Joints, draw.Numbered{Number: k.Number, At: *k.At})
		}
	}
	return g, nil
}

// withSupports adds what holds the lines.
func (m *Maker) withSupports(ctx context.Context, g draw.Given) (draw.Given, error) {
	all, err := m.shop.Supports(ctx, screen.Ask{System: m.options.System})
	if err != nil {
		return g, err
	}
	g.Supports = all
	return g, nil
}

// key is one sign of a legend: a stroke or a mark, and what it says.
type key struct {
	stroke *scene.Stroke
	mark   []scene.Path
	words  string
}

// legend sets signs in rows, in mm of paper, so wide.
func legend(all []key, wide float64) *scene.Scene {
	const row, sample, size, gap = 5.0, 16.0, 2.6, 6.0
	s := scene.Scene{Title: "legend", Max: scene.Point{wide, 0}}
	var items []scene.Item
	x, y := 0.0, 0.0
	for _, k := range all {
		w := sample + 2 + scene.PrintWidth(k.words, size, false)
		if x > 0 && x+w > wide {
			x, y = 0, y-row
		}
		if k.stroke != nil {
			items = append(items, scene.Polyline("", k.words, *k.stroke, scene.Point{x, y - row/2}, scene.Point{x + sample, y - row/2}))
		}
		if k.mark != nil {
			items = append(items, scene.Item{Title: k.words, Mark: &scene.Mark{At: scene.Point{x + sample/2, y - row/2}, Parts: k.mark}})
		}
		items = append(items, scene.Words("", k.words, scene.Point{x + sample + 2, y - row/2 - size*0.35}, scene.Point{}, size, "start", "ink"))
		x += w + gap
	}
	s.Min[1] = y - row
	s.Layers = []scene.Layer{{ID: "legend", Title: "legend", Items: items}}
	return &s
}

// lineKeys are the strokes of the stocks, and of what stands and what is for later.
func (m *Maker) lineKeys() []key {
	var all []key
	dashes := m.dashes()
	for _, name := range m.stocks() {
		words := name
		if s, ok := m.study.Catalog().Stock(name); ok {
			words = s.Words
		}
		all = append(all, key{stroke: &scene.Stroke{Width: 0.8, Color: "line", Dash: dashes[name]}, words: words})
	}
	states := map[string]bool{}
	for i := range m.job.Net.Runs {
		states[m.job.Net.Runs[i].State] = true
	}
	if states["existing"] {
		all = append(all, key{stroke: &scene.Stroke{Width: 0.4, Color: "soft"}, words: "thin: stands already"})
	}
	if states["stub"] {
		all = append(all, key{stroke: &scene.Stroke{Width: 0.8, Color: "soft", Dash: []float64{2, 1.4}}, words: "grey, dashed: for later"})
	}
	return all
}

// keyOf adds what a drawing has besides lines.
func (m *Maker) keyOf(what ...string) []key {
	all := m.lineKeys()
	ink := &scene.Stroke{Width: 0.35, Color: "ink"}
	ring := []scene.Path{{D: "M-1.9 0A1.9 1.9 0 1 0 1.9 0A1.9 1.9 0 1 0 -1.9 0Z", Stroke: ink}}
	signs := map[string]key{
		"outlet": {mark: ring, words: "outlet with its mark"},
		"fall":   {mark: []scene.Path{{D: "M-5 0H5M2.8 0.8L5 0L2.8 -0.8Z", Fill: "ink", Stroke: &scene.Stroke{Width: 0.2, Color: "ink"}}}, words: "falls this way"},
		"clip":   {mark: []scene.Path{{D: "M0 -1.5V1.5M-4 0H4", Stroke: ink}}, words: "clip, sliding"},
		"fast":   {mark: []scene.Path{{D: "M-4 0H4M0 -1.5V1.5", Stroke: ink}, {D: "M-1.1 -1.1H1.1V1.1H-1.1Z", Fill: "ink"}}, words: "clip that holds fast"},
		"joint":  {mark: []scene.Path{{D: "M-3 -1.5H3A1.5 1.5 0 0 1 3 1.5H-3A1.5 1.5 0 0 1 -3 -1.5Z", Stroke: &scene.Stroke{Width: 0.2, Color: "ink"}}}, words: "numbers of joints"},
		"cut":    {words: "‹7› piece 7 with its length as it is cut"},
	}
	for _, w := range what {
		all = append(all, signs[w])
	}
	return all
}

// height words a height over the floor as a tape shows it.
func (m *Maker) height(metres float64) string {
	return strings.TrimPrefix(m.marked(unit.Length(metres)), "+")
}
