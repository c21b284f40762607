package parts

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"dropleg/internal/shop/catalog"
)

// handRow is one row of the count by hand.
type handRow struct{ line, cut float64 }

// handCount reads the table of pieces in testdata/frame-garage-hand.md.
func handCount(t *testing.T) map[string]handRow {
	t.Helper()
	text, err := os.ReadFile("testdata/frame-garage-hand.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]handRow{}
	for line := range strings.SplitSeq(string(text), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) < 8 || !strings.HasPrefix(strings.TrimSpace(cells[1]), "line.") {
			continue
		}
		number := func(i int) float64 {
			x, err := strconv.ParseFloat(strings.TrimSpace(cells[i]), 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			return x
		}
		rows[strings.TrimSpace(cells[1])] = handRow{number(3), number(6)}
	}
	return rows
}

// TestFrameGarageByHand holds the take-off against testdata/frame-garage-hand.md,
// which was counted from the job's coordinates before the program was asked.
func TestFrameGarageByHand(t *testing.T) {
	a := Of(examples(t)["frame-garage.json"], catalog.Builtin())
	hand := handCount(t)
	if len(hand) != 24 || len(a.Pieces) != 24 {
		t.Errorf("%d pieces, %d in the count by hand, want 24", len(a.Pieces), len(hand))
	}
	bends, tight := 0, 0
	for _, p := range a.Pieces {
		want := hand[string(p.Run)]
		// The table is rounded to a micrometre, and its savings to a hundredth of a millimetre.
		if got := float64(*p.CentreToCentre); math.Abs(got-want.line) > 1e-6 {
			t.Errorf("%s: %.6f m along the centre-line, by hand %.6f", p.ID, got, want.line)
		}
		if got := float64(*p.Cut); math.Abs(got-want.cut) > 1e-5 {
			t.Errorf("%s: cut %.6f m, by hand %.6f", p.ID, got, want.cut)
		}
		for _, b := range p.Bends {
			bends++
			if b.Tight {
				tight++
			}
		}
	}
	if bends != 14 || tight != 4 {
		t.Errorf("%d bends, %d tight; by hand 14 and 4", bends, tight)
	}
	marks(t, a)
	kinds, states := map[string]int{}, map[State]int{}
	for _, j := range a.Joints {
		kinds[j.Kind]++
		states[j.State]++
	}
	for kind, want := range map[string]int{"compression": 48, "thread": 24, "socket": 5} {
		if kinds[kind] != want {
			t.Errorf("%d joints by %s, by hand %d", kinds[kind], kind, want)
		}
	}
	if len(a.Joints) != 77 || states[Existing] != 12 || states[Planned] != 65 {
		t.Errorf("%d joints, %v; by hand 77, 12 existing and 65 planned", len(a.Joints), states)
	}
	impliedByHand(t, a)
}

// impliedByHand holds adapters, the nipple and the labels against the count by hand.
func impliedByHand(t *testing.T, a *Answer) {
	t.Helper()
	implied := map[string]int{}
	for _, l := range a.Implied {
		word := strings.Fields(strings.TrimPrefix(l.Article, l.Stock+" "))[0]
		if l.Group == Label {
			word = l.Article
		}
		implied[string(l.State)+" "+word] += l.Pieces
		for _, end := range []string{" male", " female"} {
			if l.Group == Fitting && strings.HasSuffix(l.Article, end) {
				implied["all"+end] += l.Pieces
			}
		}
	}
	for what, want := range map[string]int{
		"existing adapter": 6, "planned adapter": 11, "planned nipple": 1, "all male": 11, "all female": 6,
		"planned outlet label": 5, "planned drop label": 5,
	} {
		if implied[what] != want {
			t.Errorf("%s: %d, by hand %d", what, implied[what], want)
		}
	}
}

// marks holds some places against the coordinates: the tee over the stand is 4 m along
// the north wall and 2.4 m up; main-1 bends 1 m above its filter-regulator, 100 mm
// before the corner, from the end of its pipe 18 mm up; its second bend is 4.09 m on,
// the first having saved 42.92 mm.
func marks(t *testing.T, a *Answer) {
	t.Helper()
	for _, p := range a.Pieces {
		switch p.ID {
		case "line.main-2/piece-1":
			want := Mark{"wall.north", 4, 2.4, 0.06}
			if m := p.From.Mark; m == nil || m.Wall != want.Wall || math.Abs(float64(m.Along-want.Along))+math.Abs(float64(m.Up-want.Up))+math.Abs(float64(m.Off-want.Off)) > 1e-9 {
				t.Errorf("%s begins at %+v, want %+v", p.ID, m, want)
			}
			if at := p.From.At; at == nil || math.Abs(at[0]-3.982) > 1e-9 {
				t.Errorf("%s begins at %v, want 18 mm from the tee", p.ID, at)
			}
		case "line.main-1/piece-1":
			if math.Abs(float64(p.Bends[0].Begins)-0.882) > 1e-5 || math.Abs(float64(p.Bends[1].Begins)-4.92908) > 1e-5 {
				t.Errorf("%s bends at %v and %v", p.ID, p.Bends[0].Begins, p.Bends[1].Begins)
			}
		}
	}
}
