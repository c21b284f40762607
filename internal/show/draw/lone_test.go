package draw

import (
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Plant that was just placed, and that no line leads to yet, is drawn in every view
// that is to scale: else it could not be connected.
func TestLonePlant(t *testing.T) {
	corners := []geom.Flat{{0, 0}, {0, 6}, {9, 6}, {9, 0}}
	j := &job.Job{Version: job.Version, Title: "a room", Net: job.Net{Points: []job.Point{
		{ID: "point.compressor", At: &geom.Point{1, 1.5, 0.9}, Part: job.Part{Kind: "compressor"}},
		{ID: "point.drain", At: &geom.Point{5, 1.5, 0.4}, Part: job.Part{Kind: "drain-cock"}},
	}}}
	j.Building.Rooms = []job.Room{{ID: "room.shop", Name: "Shop", Outline: corners, Ceiling: 3}}
	for i, from := range corners {
		j.Building.Walls = append(j.Building.Walls, job.Wall{ID: job.ID("wall." + string(rune('a'+i))), From: from, To: corners[(i+1)%4], Height: 3, Thickness: 0.2})
	}
	given := Given{Index: job.NewIndex(j), Shelf: catalog.Builtin()}
	sheet := Sheet{Width: 220, Height: 110}
	for name, view := range map[string]View{
		"plan": Plan(given, sheet), "elevation": Elevation(given, sheet, ""), "isometric": Isometric(given, sheet),
	} {
		parts := view.Scene.Layers[slices.IndexFunc(view.Scene.Layers, func(l scene.Layer) bool { return l.ID == "parts" })].Items
		for _, id := range []string{"point.compressor", "point.drain"} {
			if name == "elevation" && id == "point.drain" {
				continue // a fitting waits for a closer look there
			}
			if !slices.ContainsFunc(parts, func(i scene.Item) bool { return i.ID == id && i.Mark != nil }) {
				t.Errorf("%s: %s is not drawn", name, id)
			}
		}
	}
}
