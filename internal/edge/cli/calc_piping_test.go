package cli

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/cite/citetest"
)

// figure runs a command and compares; recalled rows are told, never failed.
func figure(t *testing.T, name, how string, args []string, key string, want, allowed float64) {
	t.Helper()
	got, err := calcFigure(append([]string{"calc", "--json"}, args...), key)
	switch off := math.Abs(got - want); {
	case err == nil && off <= allowed:
	case how == "memory":
		t.Logf("%s: recalled %v, here %v (%v)", name, want, got, err)
	case err != nil:
		t.Errorf("%s: %v", name, err)
	default:
		t.Errorf("%s (%s): %s is %.6g, want %.6g, allowed %.2g", name, strings.Join(args, " "), key, got, want, allowed)
	}
}

// sizeWords are the words that name a row's size: its size, and its designation
// where that is one ("20 x 2.0", "1216", "DN20"). A size of which several walls are
// sold is named by the designation alone.
func sizeWords(r map[string]string, walls int) []string {
	var words []string
	if walls == 1 {
		words = append(words, r["size"])
	}
	if strings.ContainsAny(r["designation"], "0123456789") {
		words = append(words, r["designation"])
	}
	return words
}

// leastWalls are sizes whose rows state the least wall of the standard; the
// catalogue has the typical bore, which the rows of pe_al_pe_typical give.
func leastWalls(r map[string]string) bool {
	return r["stock"] == "pe_al_pe" && slices.Contains([]string{"1/2", "5/8", "3/4", "1"}, r["size"])
}

// TestLineRows puts every stock and size of the table to calc, by all its names.
// The rows are rounded to 0.01 mm, or to 0.001 in and that in millimetres.
func TestLineRows(t *testing.T) {
	rows, walls := citetest.Rows(t, "piping/pipe_dimensions.csv"), map[string]int{}
	for _, r := range rows {
		walls[r["stock"]+" "+r["size"]]++
	}
	held := 0
	for _, r := range rows {
		for _, size := range sizeWords(r, walls[r["stock"]+" "+r["size"]]) {
			name := r["row"] + " " + r["stock"] + " " + size
			args := []string{"line", "stock=" + r["stock"], "size=" + size}
			if _, err := calcFigure(append([]string{"calc", "--json"}, args...), "bore_m"); err != nil {
				t.Errorf("%s: %v", name, err) // a recalled row may differ, but has to be found
				continue
			}
			for column, key := range map[string]string{"od_mm": "outside_m", "wall_mm": "wall_m", "id_mm": "bore_m"} {
				if r[column] == "" || leastWalls(r) {
					continue
				}
				held++
				figure(t, name, r["how"], args, key, r.Number(t, column)/1e3, 0.03e-3)
			}
		}
	}
	t.Logf("%d figures of %d rows held", held, len(rows))
}

func TestThreadRows(t *testing.T) {
	for _, r := range citetest.Rows(t, "piping/npt.csv") {
		kind, ok := map[string]string{"NPT": "npt", "ISO7_R": "r"}[r["thread"]]
		if !ok {
			continue
		}
		args := []string{"thread", "kind=" + kind, "size=" + r["size"]}
		name := r["row"] + " " + r["thread"] + " " + r["size"]
		figure(t, name, r["how"], args, "threads_per_inch", r.Number(t, "tpi"), 0)
		for column, key := range map[string]string{"E1_or_gauge_dia_mm": "pitch_diameter_m", "L1_or_gauge_len_mm": "hand_tight_m"} {
			if r[column] != "" {
				figure(t, name, r["how"], args, key, r.Number(t, column)/1e3, 0.011e-3)
			}
		}
	}
}

func TestRatingRows(t *testing.T) {
	held := 0
	for _, r := range citetest.Rows(t, "piping/ratings.csv") {
		if r["stock"] != "pe_al_pe" || r["temp_c"] == "" {
			continue
		}
		held++
		figure(t, r["row"], r["how"], []string{"line", "stock=pe_al_pe", "size=3/4", "temp=" + r["temp_c"] + "C"},
			"rating_Pa_g", r.Number(t, "pressure_kpa")*1e3, 1e3)
	}
	if held == 0 {
		t.Error("no rating was found")
	}
	// checks.csv rows 115, 119, 120: between points, lowest governs.
	figure(t, "checks 115", "computed", []string{"line", "stock=pe_al_pe", "size=3/4", "temp=71C"}, "rating_Pa_g", 862.5e3, 1e3)
	figure(t, "checks 120", "computed", []string{"line", "stock=copper_L", "size=3/4", "temp=150F"}, "rating_Pa_g", 400*psi, 0.6*psi)
	// checks.csv rows 117 and 118: beyond the table, and a plastic that shatters.
	for _, args := range [][]string{{"line", "stock=pe_al_pe", "size=3/4", "temp=90C"}, {"line", "stock=pvc", "size=1/2"}} {
		if _, err := calcFigure(append([]string{"calc", "--json"}, args...), "rating_Pa_g"); err == nil || !strings.Contains(err.Error(), "refused") || !strings.Contains(err.Error(), "status 2") {
			t.Errorf("%v: want it refused with status 2, got %v", args, err)
		}
	}
}

// worked are rows of checks.csv in words, and how they are put to calc.
var worked = []struct {
	topic, inputs string
	args          string
	key           string
	per           float64
}{
	{"expansion", `^(?:copper|pvc|pex plain); length (\S+) (ft|m); rise (\S+) (F|K); alpha (\S+) per ([FK])$`, "growth|alpha=$5 $6|length=$1$2|dt=$3$4", "growth_m", 0},
	{"expansion offset", `OD (\S+) in; growth (\S+) in$`, "growth|alpha=1e-3|length=$2 in|dt=1000|od=$1in|leg_constant=88.6", "leg_m", 0.0254},
	{"expansion offset", `^copper .*OD (\S+) in; growth (\S+) in$`, "growth|material=copper|alpha=1e-3|length=$2 in|dt=1000|od=$1in", "leg_m", 0.0254},
	{"expansion leg plastic", `OD (\S+) in; growth (\S+) in; C=(\S+)$`, "growth|alpha=1e-3|length=$2 in|dt=1000|od=$1in|leg_constant=$3", "leg_m", 0.0254},
	{"pressure drop", `^Sch 40 steel 1/2 in; (\S+) scfm; (\S+) psig inlet; 100 ft`, "pipe|bore=0.622in|length=100ft|roughness=0.045mm|p=$2psig|flow=$1scfm68h", "pressure_drop_Pa", psi},
	{"pressure drop", `^Sch 40 steel 3/4 in; (\S+) scfm; (\S+) psig inlet; 100 ft`, "pipe|bore=0.824in|length=100ft|roughness=0.045mm|p=$2psig|flow=$1scfm68h", "pressure_drop_Pa", psi},
	{"pressure drop", `^Sch 40 steel 1 in; (\S+) scfm; (\S+) psig inlet; 100 ft`, "pipe|bore=1.049in|length=100ft|roughness=0.045mm|p=$2psig|flow=$1scfm68h", "pressure_drop_Pa", psi},
	{"leak orifice", `^hole (\S+) in; (\S+) psig; coefficient (\S+)$`, "leak|bore=$1in|cd=$3|p=$2psig|temp=70F", "free_air_m3_s", 0},
}

func TestWorkedRows(t *testing.T) {
	held := map[string]int{}
	for _, r := range refRows(t, "piping/checks.csv") {
		for _, w := range worked {
			pattern := regexp.MustCompile(w.inputs)
			match := pattern.FindStringSubmatch(r.inputs)
			if r.quantity != w.topic || match == nil {
				continue
			}
			held[w.topic]++
			text := w.args
			for i, m := range match {
				text = strings.ReplaceAll(text, "$"+strconv.Itoa(i), m)
			}
			per := w.per
			switch {
			case w.topic == "leak orifice":
				// Table: cfm at 70 °F, 14.696 psia, 0.07494 lb/ft3; free air here: 1.18836 kg/m3.
				per = cfm * 1.2004 / 1.18836
			case per == 0:
				per = map[string]float64{"in": 0.0254, "mm": 1e-3}[r.unit]
			}
			allowed := r.allowed(t)
			text = strings.NewReplacer(" K|", " 1/K|", " F|", " 1/°F|").Replace(text)
			figure(t, "checks "+r.id, r.how, strings.Split(text, "|"), w.key, r.want*per, allowed*per*1.0001)
		}
	}
	for _, w := range worked {
		if held[w.topic] == 0 {
			t.Errorf("no row of %s was found", w.topic)
		}
	}
	t.Log(held)
}
