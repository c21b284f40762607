package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/sheet"
)

// walled is a room of four walls so many metres long and deep, with a line along its south wall
// and drops where they are told, in metres from the west wall.
func walled(wide, deep, high float64, units string, drops ...float64) string {
	wall := func(id, name string, x0, y0, x1, y1 float64) string {
		return fmt.Sprintf(`{"id": "wall.%s", "name": "%s", "from_m": [%g,%g], "to_m": [%g,%g], "height_m": %g, "thickness_m": 0.2}`, id, name, x0, y0, x1, y1, high)
	}
	points := []string{fmt.Sprintf(`{"id": "point.from", "at_m": [0.3,0.1,%g], "part": {"kind": ""}}`, high-0.4)}
	var runs, outlets []string
	last := `"point": "point.from"`
	for i, x := range drops {
		points = append(points,
			fmt.Sprintf(`{"id": "point.tee-%d", "at_m": [%g,0.1,%g], "part": {"kind": "tee", "size": "1"}}`, i, x, high-0.4),
			fmt.Sprintf(`{"id": "point.drop-%d", "at_m": [%g,0.1,1.2], "part": {"kind": "drop-elbow", "size": "1/2"}}`, i, x))
		runs = append(runs,
			fmt.Sprintf(`{"id": "line.main-%d", "from": {%s}, "to": {"point": "point.tee-%d", "port": "run-1"}, "stock": "copper-l", "size": "1", "role": "main"}`, i, last, i),
			fmt.Sprintf(`{"id": "line.drop-%d", "from": {"point": "point.tee-%d", "port": "branch"}, "to": {"point": "point.drop-%d", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "drop"}`, i, i, i))
		outlets = append(outlets, fmt.Sprintf(`{"id": "outlet.%d", "name": "Place %d", "mark": "%c", "point": "point.drop-%d", "port": "out"}`, i, i, 'A'+rune(i), i))
		last = fmt.Sprintf(`"point": "point.tee-%d", "port": "run-2"`, i)
	}
	return fmt.Sprintf(`{"dropleg": 1, "title": "Walled", "site": {"units": "%s"}, "building": {
		"rooms": [{"id": "room.a", "name": "Room", "outline_m": [[0,0],[%g,0],[%g,%g],[0,%g]], "floor_m": 0, "ceiling_m": %g}],
		"walls": [%s]}, "net": {"points": [%s], "runs": [%s]}, "outlets": [%s]}`, units, wide, wide, deep, deep, high,
		strings.Join([]string{wall("w", "West wall", 0, 0, 0, deep), wall("n", "North wall", 0, deep, wide, deep), wall("e", "East wall", wide, deep, wide, 0), wall("s", "South wall", wide, 0, 0, 0)}, ", "),
		strings.Join(points, ", "), strings.Join(runs, ", "), strings.Join(outlets, ", "))
}

// longHall is 200 by 40 m with drops close together and far apart; smallRoom 3 by 2 m.
func longHall(units string) string {
	return walled(200, 40, 6, units, 6, 13.25, 27.65, 30.95, 70.95, 71.85, 72.75, 80, 97.1, 118.8, 140.5, 178)
}

func smallRoom(units string) string { return walled(3, 2, 2.4, units, 0.8, 1.25, 2.4) }

// backed is a job with another room behind the south wall, so that the chain stands in the room.
func backed(raw string) string {
	return strings.Replace(raw, `"rooms": [`, `"rooms": [{"id": "room.b", "name": "Store", "outline_m": [[0,-6],[200,-6],[200,-0.2],[0,-0.2]], "floor_m": 0, "ceiling_m": 3}, `, 1)
}

// Of a hall in parts every leaf with the wall on it tells how long the whole wall is, and every
// stretch of the chain that it shows, also one that goes on beyond a match line; no leaf leads to
// one that there is not. In feet and inches as in metres, on every paper, nothing lies on
// something else or outside of the frame.
func TestChainsInParts(t *testing.T) {
	for _, units := range []string{"metric", "us"} {
		whole, cut := "200.00", "40.00"
		if units == "us" {
			whole, cut = `656'-2"`, `131'-2"`
		}
		for _, paper := range page.Papers() {
			chainsOn(t, units+" "+paper.Name, longHall(units), paper.Name, whole, cut)
		}
		chainsOn(t, units+", in the room", backed(longHall(units)), "a4", whole, cut)
	}
}

// chainsOn looks at the leaves of the plan of a job whose south wall is in parts.
func chainsOn(t *testing.T, where, raw, paper, whole, cut string) {
	t.Helper()
	m, all := made(t, raw, paper, "plan", "walls")
	plan := m.Leaves(all[0])
	names := map[string]bool{}
	for _, leaf := range plan[1:] {
		_, name, ok := strings.Cut(leafWords(leaf)[0], ", part ")
		names[name] = ok
	}
	stretches := 0
	for _, leaf := range plan[1:] {
		told := 0
		for _, w := range leafWords(leaf) {
			if to, ok := strings.CutPrefix(w, "match line, goes on on "); ok && !names[to] {
				t.Errorf("%s: no leaf %s", where, to)
			}
			if w == whole || strings.HasPrefix(w, whole+" from ") || strings.HasPrefix(w, whole+" to ") {
				told++
			}
			if strings.HasPrefix(w, cut+" from ") || strings.HasPrefix(w, cut+" to ") {
				stretches++
			}
		}
		if told != 1 {
			t.Errorf("%s: a leaf tells the whole %d times", where, told)
		}
	}
	if stretches < 2 {
		t.Errorf("%s: the stretch that is cut is told on %d leaves", where, stretches)
	}
	clearIn(t, where, m, all)
}

// A room of 3 by 2 m has its chain as well, on every paper, and says how long it is.
func TestChainsOfSmallRoom(t *testing.T) {
	for _, units := range []string{"metric", "us"} {
		for _, paper := range page.Papers() {
			m, all := made(t, smallRoom(units), paper.Name, "plan", "walls")
			words := texts(m.Leaves(all[0]))
			for _, w := range map[string][]string{"metric": {"0.80", "0.45", "1.15", "0.60", "3 × 2 m"}, "us": {`2'-7"`, `1'-6"`, `3'-9"`, `2'-0"`, `9'-10" × 6'-7"`}}[units] {
				if !strings.Contains(words, w+"\n") {
					t.Errorf("%s %s: no %s", units, paper.Name, w)
				}
			}
			clearIn(t, units+" "+paper.Name, m, all)
		}
	}
}

// leafWords are the texts of one leaf, its heading first.
func leafWords(leaf scene.Leaf) []string {
	all := strings.Split(texts([]scene.Leaf{leaf}), "\n")
	for i, w := range all {
		if strings.Contains(w, ", part ") {
			all[0], all[i] = all[i], all[0]
		}
	}
	return all
}

// clearIn says where words of sheets lie on words, or outside of the frame.
func clearIn(t *testing.T, where string, m *sheet.Maker, all []sheet.Made) {
	t.Helper()
	pdf, err := m.PDF(all)
	if err != nil {
		t.Fatal(err)
	}
	const edge = 8 * 72 / 25.4
	for i, p := range wordsOf(t, saved(t, "chains.pdf", pdf)).Pages {
		for _, pair := range overlaps(p.Words) {
			t.Errorf("%s, page %d: %q lies on %q", where, i+1, pair[0].Text, pair[1].Text)
		}
		for _, w := range p.Words {
			if w.X0 < edge || w.Y0 < edge || w.X1 > p.Width-edge || w.Y1 > p.Height-edge {
				t.Errorf("%s, page %d: %q is outside of the frame", where, i+1, w.Text)
			}
		}
	}
}
