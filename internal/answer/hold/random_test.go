package hold

import (
	"math"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"

	"pgregory.net/rapid"
)

// Any line of square turns between any two parts is held as every answer is.
func TestAnyLine(t *testing.T) {
	shelf := catalog.Builtin()
	rapid.Check(t, func(rt *rapid.T) {
		stock := rapid.SampledFrom([]string{"copper-l", "steel-sch40", "pe-al-pe", "aluminium-metric", "nylon-metric", "hdpe-sdr11", "pvc"}).Draw(rt, "stock")
		row, _ := shelf.Stock(stock)
		size := rapid.SampledFrom(row.Sizes).Draw(rt, "size").Size
		kinds := rapid.SampledFrom([]string{"tee", "wall-block", "ball-valve", "cap", "joint", "flexible-link", "receiver", "union"})
		at := geom.Point{0, 0, 2}
		path := []geom.Point{at}
		axis := 0
		for range rapid.IntRange(1, 6).Draw(rt, "legs") {
			axis = (axis + rapid.IntRange(1, 2).Draw(rt, "turn")) % 3
			at[axis] += rapid.Float64Range(0.02, 7).Draw(rt, "leg") * rapid.SampledFrom([]float64{-1, 1}).Draw(rt, "way")
			path = append(path, at)
		}
		j := shopOf(stock, size, kinds.Draw(rt, "from"), kinds.Draw(rt, "to"), path...)
		warm := Temps{"line.a": unit.Celsius(rapid.Float64Range(-40, 90).Draw(rt, "air"))}
		a := Of(j, shelf, warm)
		wholeAnswer(rt, stock, j, a)
		for _, g := range a.Gaps {
			if !g.Bend {
				rt.Errorf("%s: %+v, and no bend in it", stock, g)
			}
		}
	})
}

// What is not there, or no number, is told or passed over and never a panic.
func TestBadInput(t *testing.T) {
	shelf := catalog.Builtin()
	path := []geom.Point{{0, 0, 2}, {5, 0, 2}}
	for name, spoil := range map[string]func(j *job.Job){
		"empty":            func(j *job.Job) { *j = job.Job{} },
		"no stock":         func(j *job.Job) { j.Net.Runs[0].Stock = "tin" },
		"no size":          func(j *job.Job) { j.Net.Runs[0].Size = "9" },
		"no kind":          func(j *job.Job) { j.Net.Points[0].Part.Kind = "thing" },
		"no point":         func(j *job.Job) { j.Net.Runs[0].To.Point = "point.gone" },
		"no place":         func(j *job.Job) { j.Net.Points[0].At = nil },
		"to itself":        func(j *job.Job) { j.Net.Runs[0].To = j.Net.Runs[0].From },
		"there and back":   func(j *job.Job) { j.Net.Runs[0].Path = []geom.Point{{9, 0, 2}} },
		"no number":        func(j *job.Job) { j.Net.Runs[0].Path = []geom.Point{{math.NaN(), 0, 2}} },
		"one place thrice": func(j *job.Job) { j.Net.Runs[0].Path = []geom.Point{{0, 0, 2}, {0, 0, 2}, {5, 0, 2}} },
		"far":              func(j *job.Job) { j.Net.Points[1].At = &geom.Point{1e6, 0, 2} },
		"a stated length":  func(j *job.Job) { j.Net.Runs[0].Length = new(unit.Length(7)) },
		"twice":            func(j *job.Job) { j.Net.Runs = append(j.Net.Runs, j.Net.Runs[0]) },
		"in the ground":    func(j *job.Job) { j.Net.Runs[0].Support = "buried" },
	} {
		j := shopOf("copper-l", "1/2", "tee", "cap", path...)
		spoil(j)
		a := Of(j, shelf, Temps{"line.a": unit.Temperature(math.NaN())})
		if len(a.Runs) != len(j.Net.Runs) {
			t.Errorf("%s: %d runs told", name, len(a.Runs))
		}
	}
	a := Of(shopOf("pvc", "1/2", "tee", "cap", path...), shelf, nil)
	if len(a.Runs[0].Unknown) == 0 || a.Runs[0].Horizontal.Known || len(a.Supports) == 0 {
		t.Errorf("no spacing of pvc is known, the ends ask all the same: %+v", a.Runs[0])
	}
}

// A ring of straight pieces that hardly turn has no end; a compressor that is piped
// rigidly is told.
func TestRingAndRigid(t *testing.T) {
	j := &job.Job{Version: job.Version}
	const n = 60 // of 6° each
	for i := range n {
		a := 2 * math.Pi * float64(i) / n
		id := job.ID("point." + string(rune('A'+i)))
		next := job.ID("point." + string(rune('A'+(i+1)%n)))
		j.Net.Points = append(j.Net.Points, job.Point{ID: id, At: &geom.Point{9 * math.Cos(a), 9 * math.Sin(a), 3}})
		j.Net.Runs = append(j.Net.Runs, job.Run{
			ID: "line." + job.ID(rune('A'+i)), From: job.End{Point: id}, To: job.End{Point: next}, Stock: "copper-l", Size: "1/2", Role: "ring",
		})
	}
	wholeAnswer(t, "ring", j, Of(j, catalog.Builtin(), nil))

	rigid := shopOf("copper-l", "1/2", "compressor", "tee", geom.Point{0, 0, 1}, geom.Point{4, 0, 1})
	if a := Of(rigid, catalog.Builtin(), nil); len(a.Links) != 1 || a.Links[0].There {
		t.Errorf("%+v", a.Links)
	}
	rigid.Net.Points[1].Part.Kind = "flexible-link"
	if a := Of(rigid, catalog.Builtin(), nil); len(a.Links) != 1 || a.Links[0].Part != "point.to" {
		t.Errorf("%+v", a.Links)
	}
}
