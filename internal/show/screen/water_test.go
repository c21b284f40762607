package screen

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func exampleShop(t *testing.T, name string) *Shop {
	t.Helper()
	raw, ok := example.Read(name)
	if !ok {
		t.Fatal("no example " + name)
	}
	return shopOf(t, raw)
}

// The rows are those of the answer, in the units asked for: litres as such, temperatures
// in degrees Celsius.
func TestWaterSaysWhatTheStudySays(t *testing.T) {
	for _, e := range example.All() {
		s := exampleShop(t, e.Name)
		a, err := s.study.Wet(t.Context())
		if err != nil || a.Untold != "" {
			t.Fatal(e.Name, err, a.Untold)
		}
		w, err := s.Water(t.Context(), Ask{System: unit.Metric})
		whole(t, e.Name, w, err)
		for i, season := range a.Seasons {
			got := w.Seasons[i]
			if len(got.Places) != len(season.Gathered) || len(got.Outlets) != len(season.Outlets) || len(got.Dryers) != len(season.Dryers) {
				t.Fatalf("%s, %s: rows are missing", e.Name, season.Name)
			}
			for k, o := range season.Outlets {
				row := got.Outlets[k]
				dew := strings.TrimSuffix(row.Dew, " °C")
				if row.ID != string(o.ID) || row.Class != o.Class || !printedAs(dew, o.Dew.Celsius()) {
					t.Errorf("%s, %s: %+v of %+v", e.Name, season.Name, row, o)
				}
				met := !slices.ContainsFunc(o.Needs, func(n water.Need) bool { return !n.Met })
				if want := map[bool]State{true: Enough, false: Short}[met]; len(o.Needs) > 0 && row.State != want {
					t.Errorf("%s, %s: %s is %s, want %s", e.Name, season.Name, o.ID, row.State, want)
				}
			}
			wet := 0
			for _, l := range season.Lines {
				if l.Collects && l.Litres.High > 0 {
					wet++
				}
			}
			if wet != len(got.Lines) {
				t.Errorf("%s, %s: %d wet lines, want %d", e.Name, season.Name, len(got.Lines), wet)
			}
			litres, sum := 0.0, 0.0
			for _, g := range season.Gathered {
				litres += g.Likely
			}
			for _, p := range got.Places {
				var x float64
				if _, err := fmt.Sscanf(p.Figure, "%g L", &x); err != nil && p.Figure != "a trace" {
					t.Errorf("%s: %q", p.ID, p.Figure)
				}
				sum += x
			}
			if sum < 0.98*litres || sum > 1.02*litres {
				t.Errorf("%s, %s: rows come to %g L, the answer to %g", e.Name, season.Name, sum, litres)
			}
		}
	}
}

// The sentence of the boat shop: the tyres are fed from before the fine filter, in the
// warm season alone too wet; the lean-to freezes and the hall does not.
func TestWaterSentence(t *testing.T) {
	w, err := exampleShop(t, "boat-shop").Water(t.Context(), Ask{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1 of 7 outlets: outlet F, Trailer tyres at the gate", "39 °F in the warm season", "want class 4", "Receiver: ", "In the cold season water freezes in "} {
		if !strings.Contains(w.Sentence, want) {
			t.Errorf("%q lacks %q", w.Sentence, want)
		}
	}
	for _, l := range w.Seasons[0].Lines {
		if !l.Freezes || l.Stands != "21 °F" {
			t.Errorf("%+v", l)
		}
	}
	for _, n := range w.Notes {
		if strings.Contains(n, "point.") || strings.Contains(n, "zone.") {
			t.Errorf("an id in %q", n)
		}
	}
	ring, err := exampleShop(t, "ring-main").Water(t.Context(), Ask{})
	if err != nil || !strings.Contains(ring.Sentence, "3 °C all the year") || !strings.Contains(ring.Sentence, "None of it freezes") {
		t.Errorf("%q %v", ring.Sentence, err)
	}
}

// The chart leads from a compressor to the outlet asked for, each line on from the one
// before, and ends with the air of the outlet's row.
func TestWaterWayHangsTogether(t *testing.T) {
	for _, e := range example.All() {
		s := exampleShop(t, e.Name)
		for _, o := range s.job.Outlets {
			w, err := s.WaterTo(t.Context(), Ask{}, o.ID, 240, 100)
			if err != nil {
				t.Fatal(err)
			}
			for _, season := range w.Seasons {
				if len(season.Steps) < 3 || season.Outlet != string(o.ID) {
					t.Fatalf("%s: %d steps to %s", e.Name, len(season.Steps), season.Outlet)
				}
				if p := s.index.Point(job.ID(season.Steps[0].ID)); p == nil || p.Part.Compressor == nil {
					t.Errorf("%s: the way to %s begins at %s", e.Name, o.ID, season.Steps[0].ID)
				}
				row := season.Outlets[slices.IndexFunc(season.Outlets, func(r WaterRow) bool { return r.ID == string(o.ID) })]
				if last := season.Steps[len(season.Steps)-1]; last.Dew != row.Dew || last.Air != row.Air {
					t.Errorf("%s, %s: the way ends at %s and %s, the outlet has %s and %s", e.Name, o.ID, last.Air, last.Dew, row.Air, row.Dew)
				}
			}
			joined(t, s, o.ID)
			if rows := w.CSV(); len(rows) != 1+len(w.Seasons[0].Steps)+len(w.Seasons[1].Steps) || slices.ContainsFunc(rows, func(r []string) bool { return len(r) != len(rows[0]) }) {
				t.Errorf("%s: %d rows", e.Name, len(rows))
			}
		}
	}
	var missing *NotThere
	if _, err := joinery(t).WaterTo(t.Context(), Ask{}, "outlet.nowhere", 90, 66); !errors.As(err, &missing) {
		t.Errorf("%v", err)
	}
}

// joined says whether the elements of the way to an outlet share a node each with the
// next, none stands shut, and no way with fewer metres leads there: all ways of a walk
// that never turns back are tried.
func joined(t *testing.T, s *Shop, outlet job.ID) {
	t.Helper()
	m, err := s.study.Model(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	d := &damp{Shop: s, view: &view{model: m}}
	node, way, ok := d.wayTo(outlet)
	if !ok {
		t.Fatal("no way to", outlet)
	}
	metres := 0.0
	for _, p := range way {
		if from := p.element.From + p.element.To - p.to; from != node {
			t.Fatalf("%s: %s does not begin where the one before ends", outlet, p.element.ID)
		}
		node = p.to
		metres += 0.1 + float64(p.element.Length)
	}
	// Bellman and Ford's rounds over all elements, as a check on the search.
	far := map[int]float64{}
	for _, c := range m.Compressors() {
		far[c.Node] = 0
	}
	for range m.Nodes() {
		for n, ways := range d.open() {
			at, ok := far[n]
			for _, p := range ways {
				if was, seen := far[p.to]; ok && (!seen || at+0.1+float64(p.element.Length) < was) {
					far[p.to] = at + 0.1 + float64(p.element.Length)
				}
			}
		}
	}
	if diff := metres - far[node]; diff > 1e-9 || diff < -1e-9 {
		t.Errorf("%s: %g m, the shortest is %g", outlet, metres, far[node])
	}
}

// printedAs says whether a text is a number to the digits that it shows.
func printedAs(text string, x float64) bool {
	var got float64
	_, err := fmt.Sscanf(text, "%g", &got)
	return err == nil && got-x < 0.51 && x-got < 0.51
}

// mayBeEmpty are the texts that say something by being empty.
var mayBeEmpty = []string{"wants", "state", "outlet", "place", "tool", "id", "anchor", "title", "name"}

// sound fails on a text that is empty or tells of a number that is none.
func sound(t *testing.T, what string, v any, err error) {
	t.Helper()
	text := whole(t, what, v, err)
	for _, bad := range []string{"NaN", "Inf", "–", "%!"} {
		if at := bytes.Index(text, []byte(bad)); at >= 0 {
			t.Fatalf("%s: …%s", what, text[max(0, at-80):at+5])
		}
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		t.Fatal(err)
	}
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case string:
			if strings.TrimSpace(v) == "" && !slices.Contains(mayBeEmpty, key) {
				t.Fatalf("%s: %s is empty", what, key)
			}
		case []any:
			for _, x := range v {
				walk(key, x)
			}
		case map[string]any:
			for k, x := range v {
				walk(k, x)
			}
		}
	}
	walk("", tree)
}

// oddEdit is an edit that water or a year feel; not each of them fits.
func oddEdit(r *rand.Rand, j *job.Job) job.Edit {
	set := func(id job.ID, key string, value any) job.Edit {
		text, _ := json.Marshal(value)
		return &job.Change{ID: id, Key: key, Value: text}
	}
	point := &j.Net.Points[r.IntN(len(j.Net.Points))]
	switch r.IntN(8) {
	case 0:
		return &job.Remove{ID: point.ID}
	case 1:
		return &job.Remove{ID: j.Net.Runs[r.IntN(len(j.Net.Runs))].ID}
	case 2:
		return set(j.Building.Zones[r.IntN(len(j.Building.Zones))].ID, "winter_C", r.IntN(60)-40)
	case 3:
		return set("", "site.hot_C", r.IntN(60))
	case 4:
		return set("", "site.humidity", r.Float64())
	case 5:
		return set(point.ID, "part.pressure_dew_point_C", r.IntN(140)-90)
	case 6:
		return set(j.Tools[r.IntN(len(j.Tools))].ID, "share", r.Float64())
	}
	return handEdit(r, j)
}

// No job, however mistreated, gets an empty text or a number that is none.
func TestWaterAndCostOfBrokenShops(t *testing.T) {
	for _, e := range example.All() {
		r := rand.New(rand.NewPCG(5, 6))
		raw, _ := example.Read(e.Name)
		j, _ := job.Parse(raw)
		s := study.Of(j, catalog.Builtin())
		for done, tries := 0, 0; done < 4 && tries < 100; tries++ {
			if len(s.Job().Net.Runs) < 2 || len(s.Job().Outlets) == 0 {
				break
			}
			next, err := s.After(oddEdit(r, s.Job()))
			if err != nil {
				continue
			}
			s, done = next, done+1
			ask := Ask{System: unit.Systems()[done%3]}
			w, err := On(s, nil).Water(t.Context(), ask)
			sound(t, "water of "+e.Name, w, err)
			c, err := On(s, nil).Cost(t.Context(), ask)
			sound(t, "cost of "+e.Name, c, err)
		}
	}
	bare := On(study.Of(&job.Job{Version: job.Version, Title: "empty"}, catalog.Builtin()), nil)
	w, err := bare.Water(t.Context(), Ask{})
	sound(t, "water of nothing", w, err)
	c, err := bare.Cost(t.Context(), Ask{})
	sound(t, "cost of nothing", c, err)
	if w.Untold == "" || c.Untold == "" {
		t.Errorf("of nothing: %q, %q", w.Sentence, c.Sentence)
	}
}
