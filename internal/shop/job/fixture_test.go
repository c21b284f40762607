package job

import (
	"fmt"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// shop is a small shop that Validate finds nothing wrong with: a receiver, a
// main with a tee, and one drop with an outlet.
const shop = `{
  "dropleg": 1,
  "title": "Alder Lane Joinery",
  "site": {"altitude_m": 300, "hot_C": 32, "cold_C": -12},
  "building": {
    "zones": [{"id": "zone.hall", "climate": "heated"}, {"id": "zone.lean-to", "climate": "unheated", "winter_C": -5}],
    "rooms": [{"id": "room.hall", "outline_m": [[0, 0], [10, 0], [10, 6], [0, 6]], "floor_m": 0, "ceiling_m": 3.5, "zone": "zone.hall"}],
    "walls": [{"id": "wall.north", "from_m": [0, 6], "to_m": [10, 6], "height_m": 3.5, "thickness_m": 0.24}],
    "openings": [{"id": "opening.door", "wall": "wall.north", "kind": "door", "along_m": 7, "width_m": 1, "height_m": 2.1}],
    "obstacles": [{"id": "obstacle.bench", "kind": "bench", "outline_m": [[1, 4], [3, 4], [3, 5], [1, 5]], "top_m": 0.9}]
  },
  "net": {
    "points": [
      {"id": "point.compressor", "at_m": [0.5, 0.5, 0.8], "part": {"kind": "compressor", "compressor": {"cut_in_kPa_g": 600, "cut_out_kPa_g": 800}}},
      {"id": "point.receiver", "at_m": [1, 0.5, 0.8], "part": {"kind": "receiver", "volume_L": 270}},
      {"id": "point.tee", "on": {"wall": "wall.north", "along_m": 2, "up_m": 2.8, "off_m": 0.05}, "part": {"kind": "tee"}},
      {"id": "point.end", "on": {"wall": "wall.north", "along_m": 9, "up_m": 2.7, "off_m": 0.05}, "part": {"kind": "cap"}},
      {"id": "point.drop", "on": {"wall": "wall.north", "along_m": 2, "up_m": 1.1, "off_m": 0.05}, "part": {"kind": "drop-elbow"}}
    ],
    "runs": [
      {"id": "line.link", "from": {"point": "point.compressor"}, "to": {"point": "point.receiver", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "link"},
      {"id": "line.main-1", "from": {"point": "point.receiver", "port": "out"}, "to": {"point": "point.tee", "port": "run-1"}, "path_m": [[1, 0.5, 2.9], [1, 5.95, 2.85]], "stock": "copper-l", "size": "3/4", "role": "main"},
      {"id": "line.main-2", "from": {"point": "point.tee", "port": "run-2"}, "to": {"point": "point.end"}, "stock": "copper-l", "size": "3/4", "role": "main"},
      {"id": "line.drop", "from": {"point": "point.tee", "port": "branch"}, "to": {"point": "point.drop", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "drop"}
    ]
  },
  "outlets": [{
    "id": "outlet.bench", "name": "by the bench", "point": "point.drop", "port": "out",
    "hang": [{"id": "part.regulator", "kind": "filter-regulator", "set_kPa_g": 600}, {"kind": "coupler", "item": "industrial-1/4"}],
    "hose": {"id": "hose.bench", "item": "rubber-3/8", "length_m": 8, "plug": "industrial-1/4"},
    "tools": ["tool.sander"]
  }],
  "tools": [
    {"id": "tool.sander", "name": "orbital sander", "flow": {"m3_s": 0.006}, "at_kPa_g": 620, "least_kPa_g": 550, "not_with": ["tool.gun"]},
    {"id": "tool.gun", "name": "blow gun", "nozzle_mm": 2}
  ],
  "work": {"crew": 2, "sets": [{"id": "set.sand", "name": "sanding", "running": [{"tool": "tool.sander", "outlet": "outlet.bench"}]}]},
  "plans": [{"id": "plan.b", "name": "wider drop", "edits": [{"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}]}],
  "records": [{"id": "record.1", "when": "2026-03-14T09:30:00Z", "kind": "joint", "about": ["line.drop"], "found": "tight"}]
}`

// parsed is a text read, which must be in order.
func parsed(t testing.TB, text string) *Job {
	t.Helper()
	j, found := Parse([]byte(text))
	for _, f := range found {
		t.Fatalf("%+v", f)
	}
	return j
}

// encoded is a job written.
func encoded(t testing.TB, j *Job) string {
	t.Helper()
	b, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// large is a job of 2,000 elements: 900 points and 899 runs along a comb of
// mains, with outlets and tools, about as large as a factory hall's.
func large() *Job {
	j := &Job{Version: Version, Title: "Long Meadow Works"}
	j.Building.Rooms = []Room{{ID: "room.hall", Outline: []geom.Flat{{0, 0}, {400, 0}, {400, 100}, {0, 100}}, Ceiling: 8}}
	for i := range 900 {
		at := geom.Point{float64(i) * 0.4, float64(i%7) + 1, 3}
		p := Point{ID: ID(fmt.Sprintf("point.p-%d", i)), Name: fmt.Sprintf("place %d of the hall", i), At: &at, Part: Part{Kind: "tee", Size: "3/4", Note: "fixed to the purlin"}}
		j.Net.Points = append(j.Net.Points, p)
		if i == 0 {
			continue
		}
		length := []geom.Point{{at[0] - 0.2, at[1], 3.1}, {at[0] - 0.1, at[1], 3.2}}
		j.Net.Runs = append(j.Net.Runs, Run{
			ID: ID(fmt.Sprintf("line.l-%d", i)), Name: fmt.Sprintf("line %d of the hall", i), Path: length,
			From:  End{Point: ID(fmt.Sprintf("point.p-%d", i-1)), Port: "run-2"},
			To:    End{Point: p.ID, Port: "run-1"},
			Stock: "copper-l", Size: "3/4", Role: "main", State: "planned", Support: "hung",
		})
	}
	least := unit.GaugePressure(5.5e5)
	for i := range 100 {
		tool := ID(fmt.Sprintf("tool.t-%d", i))
		j.Tools = append(j.Tools, Tool{ID: tool, Name: fmt.Sprintf("sander %d", i), Least: &least, Flow: &Flow{Value: 0.006, Read: "13 cfm at 90 psi"}})
		j.Outlets = append(j.Outlets, Outlet{
			ID: ID(fmt.Sprintf("outlet.o-%d", i)), Name: fmt.Sprintf("outlet %d", i), Point: ID(fmt.Sprintf("point.p-%d", i*8)), Port: "branch",
			Hang: []Part{{Kind: "ball-valve", Size: "1/2"}, {Kind: "filter-regulator", Set: &least, Size: "1/2"}, {Kind: "coupler", Item: "industrial-1/4"}},
			Hose: &Hose{ID: ID(fmt.Sprintf("hose.h-%d", i)), Item: "rubber-3/8", Length: 10, Plug: "industrial-1/4"}, Tools: []ID{tool},
		})
	}
	return j
}
