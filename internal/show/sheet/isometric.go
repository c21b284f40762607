package sheet

import (
	"context"
	"strings"

	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// isometricRatio is the smallest scale at which joints have room on an isometric drawing, 1 to
// this (tried on the examples).
const isometricRatio = 150

func isometricSheet() Sheet {
	return Sheet{
		Name: "isometric", Title: "Isometric, with joints and lengths", Audience: "who builds it", Needs: "a line on the drawing", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			if !m.drawn() {
				return nil, nil
			}
			given, err := m.given(ctx, true, true)
			if err != nil {
				return nil, err
			}
			return m.isometricBlocks(given), nil
		},
	}
}

// isometricBlocks are the leaves of the drawing: a shop that is whole has its signs below it.
func (m *Maker) isometricBlocks(given draw.Given) []page.Block {
	below := page.Drawings{
		Views: []page.View{{}}, NoScale: true, PerMetre: 1, Legend: m.legendOf("outlet", "cut", "joint"), Notes: isometricNotes(draw.IsometricSays{Rings: true}, []string{"1"}),
	}
	alone := page.Drawings{Views: []page.View{{}}}
	paper := draw.IsometricPaper{Most: 1000.0 / leastRatio, Working: 1000.0 / isometricRatio, Signs: m.isometricSigns, Whole: m.units, Open: m.units}
	paper.Whole.Width, paper.Whole.Height = below.Room(m.options.Paper, true)
	paper.Open.Width, paper.Open.Height = alone.Room(m.options.Paper, true)
	var blocks []page.Block
	for _, leaf := range draw.IsometricLeaves(given, paper) {
		d := page.Drawings{NoScale: true, PerMetre: 1, Notes: withoutRoom(leaf.Left)}
		if leaf.Whole {
			d = below
			d.Notes = isometricNotes(leaf.Says, leaf.Left)
		}
		d.Views = []page.View{{Draw: func(float64) scene.Scene { return leaf.Scene }}}
		blocks = append(blocks, page.Break{}, d)
	}
	return blocks
}

// isometricSigns are legend and notes for a corner of a drawing.
func (m *Maker) isometricSigns(says draw.IsometricSays) scene.Scene {
	const wide, size, step = 84.0, 2.6, 3.64
	s := *legend(m.keyOf("outlet", "cut", "joint"), wide)
	y := s.Min[1] - 1
	var items []scene.Item
	for _, note := range isometricNotes(says, nil) {
		for _, line := range page.Wrap(note, wide, size) {
			y -= step
			items = append(items, scene.Words("", line, scene.Point{0, y + 1}, scene.Point{}, size, "start", "ink"))
		}
	}
	s.Min[1], s.Layers = y, append(s.Layers, scene.Layer{ID: "notes", Title: "how it is read", Items: items})
	return s
}

// isometricNotes say how a drawing is read.
func isometricNotes(says draw.IsometricSays, left []string) []string {
	notes := []string{"All three directions to the same scale, not foreshortened. Heights are over the datum. A piece without its number here is in the lists, with the things that it joins."}
	for _, n := range []struct {
		said  bool
		words string
	}{
		{says.Broken, "Shortened where broken, lengths are written: “true” is from middle to middle of what is at the ends. Do not measure on this drawing."},
		{says.Parted, "A line that is cut off goes on at the same small letter on the part that is named there."},
		{says.Rings, "What is in a ring is drawn larger under its letter, with its joints."},
	} {
		if n.said {
			notes[0] += " " + n.words
		}
	}
	return append(notes, withoutRoom(left)...)
}

func withoutRoom(left []string) []string {
	if len(left) == 0 {
		return nil
	}
	return []string{"Without room on the drawing: " + strings.Join(left, "; ") + "."}
}
