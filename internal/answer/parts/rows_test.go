package parts

import (
	"fmt"
	"math"
	"testing"

	"dropleg/engine/cite/citetest"
	"dropleg/internal/shop/catalog"
)

// line is a job of one run of so many metres between two parts of a kind, by ports.
func line(t *testing.T, units, stock, size, kind, out, in string, metres float64, path string) *Answer {
	t.Helper()
	text := fmt.Sprintf(`{"dropleg": 1, "title": "line", "site": {"units": %q}, "net": {"points": [
	 {"id": "point.a", "at_m": [0, 0, 0], "part": {"kind": %q}}, {"id": "point.b", "at_m": [%v, 0, 0], "part": {"kind": %q}}],
	 "runs": [{"id": "line.a", "from": {"point": "point.a", "port": %q}, "to": {"point": "point.b", "port": %q}, %s
	 "stock": %q, "size": %q, "role": "main"}]}}`, units, kind, metres, kind, out, in, path, stock, size)
	return Of(read(t, []byte(text)), catalog.Builtin())
}

// TestTakeOutsOfTheTable cuts a line between two fittings of each row of takeouts.csv
// (ASME B16.3, centre to end less thread make-up; solder: socket depth of a trade
// sheet; the file marks all as recalled) and holds what is missing from the line
// against the row. The rows are rounded to 0.01 mm; two of them.
func TestTakeOutsOfTheTable(t *testing.T) {
	const rounding = 2 * 0.005e-3
	ports := map[string][2]string{"elbow-90": {"out", "in"}, "elbow-45": {"out", "in"}, "tee": {"run-2", "run-1"}}
	stocks := map[string]string{"threaded_mi_150": "steel-sch40", "copper_solder": "copper-l"}
	names := map[string][]string{"elbow90_or_tee": {"elbow-90", "tee"}, "elbow45": {"elbow-45"}, "elbow90": {"elbow-90"}}
	tried, left := 0, 0
	for _, row := range citetest.Rows(t, "piping/takeouts.csv") {
		stock, size := stocks[row["family"]], row["size"]
		if _, ok := catalog.Builtin().Size(stock, size); !ok {
			left++ // no pipe of that size on the shelf
			continue
		}
		off := row.Number(t, "takeout_mm") * 1e-3
		for _, kind := range names[row["fitting"]] {
			tried++
			p := line(t, "us", stock, size, kind, ports[kind][0], ports[kind][1], 2, "").Pieces[0]
			if got := 2 - float64(*p.Cut); math.Abs(got-2*off) > rounding+1e-9 {
				t.Errorf("%s %s %s: %.5f m off the line, want twice %.5f m", stock, kind, size, got, off)
			}
			if want := row.Number(t, "insertion_in") * 0.0254; math.Abs(float64(p.From.Insertion)-want) > 0.005*0.0254+1e-9 {
				t.Errorf("%s %s %s: goes in %v m, want %.5f m", stock, kind, size, p.From.Insertion, want)
			}
		}
		if row["fitting"] == "coupling_length" {
			tried++
			// The column holds the gap between the two pipes in the coupling.
			a := line(t, "us", stock, size, "elbow-90", "out", "in", 8, "")
			if len(a.Pieces) != 2 {
				t.Errorf("%s %s: 8 m in %d pieces, sold in 6.4 m", stock, size, len(a.Pieces))
				continue
			}
			gap := 8 - float64(*a.Pieces[0].Cut+*a.Pieces[1].Cut+a.Pieces[0].From.TakeOut+a.Pieces[1].To.TakeOut)
			if math.Abs(gap-off) > rounding+1e-9 {
				t.Errorf("%s coupling %s: gap %.5f m, want %.5f m", stock, size, gap, off)
			}
		}
	}
	if tried < 35 || left > 2 {
		t.Errorf("%d rows tried, %d left out", tried, left)
	}
}

// TestThreadsOfTheTable holds what a threaded joint needs against npt.csv (ASME
// B1.20.1 table 2: hand-tight engagement and three turns; ISO 7-1: gauge length and
// useful thread), whose millimetres are rounded to 0.01, pitches to 0.001.
func TestThreadsOfTheTable(t *testing.T) {
	useful := map[string]float64{}
	for _, row := range citetest.Rows(t, "piping/npt.csv") {
		if row["thread"] == "ISO7_R_useful" {
			useful[row["size"]] = row.Number(t, "L2_or_useful_thread_mm")
		}
	}
	tried := 0
	for _, row := range citetest.Rows(t, "piping/npt.csv") {
		size := row["size"]
		units, stock, in := "us", "steel-sch40", 0.0
		switch row["thread"] {
		case "NPT":
			in = row.Number(t, "makeup_mm")
		case "ISO7_R":
			units, stock, in = "metric", "steel-en10255", useful[size]
		default:
			continue
		}
		if _, ok := catalog.Builtin().Size(stock, size); !ok {
			continue
		}
		tried++
		turns := (in - row.Number(t, "L1_or_gauge_len_mm")) / row.Number(t, "pitch_mm")
		// An elbow of the threaded stock: its port is a female thread, the pipe a male one.
		for _, j := range line(t, units, stock, size, "elbow-90", "out", "in", 2, "").Joints {
			if math.Abs(float64(j.Needs.Engagement)*1e3-in) > 0.015 {
				t.Errorf("%s %s: goes in %.3f mm, want %.3f mm", row["thread"], size, float64(j.Needs.Engagement)*1e3, in)
			}
			// Tenths of a turn are shown; the table's rounding is another 0.03 of the finest pitch.
			if math.Abs(j.Needs.Turns-turns) > 0.05+0.03 {
				t.Errorf("%s %s: %v turns past hand tight, want %.2f", row["thread"], size, j.Needs.Turns, turns)
			}
			if row["thread"] == "NPT" && j.Needs.Turns != 3 {
				t.Errorf("NPT %s: %v turns, the table says three", size, j.Needs.Turns)
			}
			if j.Kind != "thread" || j.Needs.Seal == "" {
				t.Errorf("%s %s: joined by %q, sealed by %q", row["thread"], size, j.Kind, j.Needs.Seal)
			}
		}
	}
	if tried < 14 {
		t.Errorf("only %d rows tried", tried)
	}
}
