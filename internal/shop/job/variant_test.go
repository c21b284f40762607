package job

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// An alternative is the job with its edits, however they came to it, and holds no
// alternatives of its own.
func TestVariant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := randomJob(t)
		v, left := Variant(j, "plan.a")
		if v == nil || left != nil || len(v.Plans) > 0 {
			t.Fatalf("an empty alternative: %v", left)
		}
		for range rapid.IntRange(0, 12).Draw(t, "edits") {
			step := randomPlain(t, v)
			after, _, err := WithinOf("plan.a", step).Apply(j)
			alone, _, errAlone := step.Apply(v)
			if err == nil && errAlone != nil {
				t.Fatalf("the alternative takes what does not fit it: %v", errAlone)
			}
			if err != nil {
				continue
			}
			j, v = after, alone
			got, left := Variant(j, "plan.a")
			if left != nil || mustEncode(t, got) != mustEncode(t, v) {
				t.Fatalf("the alternative is\n%s\nits edits give\n%s\n%v", mustEncode(t, got), mustEncode(t, v), left)
			}
		}
		adoption, left := Adoption(j, "plan.a")
		adopted, inverse, err := adoption.Apply(j)
		if err != nil || left != nil {
			t.Fatalf("adopted: %v, %v", err, left)
		}
		back, _, err := inverse.Apply(adopted)
		if err != nil || mustEncode(t, back) != mustEncode(t, j) {
			t.Fatalf("taken back: %v", err)
		}
		adopted.Retired = unretire(adopted.Retired, "plan.a")
		if mustEncode(t, adopted) != mustEncode(t, v) {
			t.Fatalf("adopted\n%s\nthe alternative was\n%s", mustEncode(t, adopted), mustEncode(t, v))
		}
	})
}

// What no longer fits is left out and told; the rest stays, and the job can be used.
func TestVariantLeavesOut(t *testing.T) {
	j := parsed(t, shop)
	for _, form := range []string{
		`{"edit": "within", "plan": "plan.b", "step": {"edit": "set", "id": "hose.bench", "key": "length_m", "value": 5}}`,
		`{"edit": "within", "plan": "plan.b", "step": {"edit": "set", "id": "tool.gun", "key": "nozzle_mm", "value": 3}}`,
		`{"edit": "remove", "id": "hose.bench"}`,
	} {
		var err error
		if j, _, err = edit(t, form).Apply(j); err != nil {
			t.Fatal(err)
		}
	}
	v, left := Variant(j, "plan.b")
	if len(left) != 1 || left[0].Path != "plans[0] (plan.b).edits[1].id" || left[0].Severity != Caution {
		t.Errorf("left out: %+v", left)
	}
	if text := encoded(t, v); !strings.Contains(text, `"nozzle_mm": 3`) || v.Net.Runs[3].Size != "3/4" || v.Outlets[0].Hose != nil {
		t.Errorf("the alternative is\n%s", text)
	}
	adoption, left := Adoption(j, "plan.b")
	adopted, _, err := adoption.Apply(j)
	if err != nil || len(left) != 1 || len(adopted.Plans) > 0 || adopted.Net.Runs[3].Size != "3/4" {
		t.Errorf("adopted: %v, %v", err, left)
	}
	if v, left := Variant(j, "plan.c"); v != nil || len(left) != 1 || left[0].Nearest != "plan.b" {
		t.Errorf("no such alternative: %v", left)
	}
}

// A step that does not fit is refused also while another is left out.
func TestWithinAfterLeftOut(t *testing.T) {
	j := parsed(t, shop)
	j.Plans[0].Edits = append(j.Plans[0].Edits, (&Remove{ID: "tool.none"}).Form())
	step := &Change{ID: "line.drop", Key: "slope", Value: json.RawMessage("0.02")}
	after, _, err := WithinOf("plan.b", step).Apply(j)
	if err != nil || len(after.Plans[0].Edits) != 3 {
		t.Errorf("%v", err)
	}
	if _, _, err := WithinOf("plan.b", &Remove{ID: "tool.none"}).Apply(j); err == nil {
		t.Error("what does not fit is taken")
	}
}

// An alternative of a large job with a hundred edits.
func BenchmarkVariant(b *testing.B) {
	j := large()
	j.Plans = []Plan{{ID: "plan.a"}}
	for i := range 100 {
		e := &Change{ID: j.Net.Runs[i*8].ID, Key: "size", Value: json.RawMessage(`"1"`)}
		j.Plans[0].Edits = append(j.Plans[0].Edits, e.Form())
	}
	for b.Loop() {
		if v, left := Variant(j, "plan.a"); v == nil || left != nil {
			b.Fatal(left)
		}
	}
}
