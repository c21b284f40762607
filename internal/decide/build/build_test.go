package build

import (
	"context"
	"testing"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func orderOf(t *testing.T, text []byte, change func(*job.Job)) (*Answer, *study.Study) {
	t.Helper()
	j, found := job.Parse(text)
	if j == nil {
		t.Fatal(found)
	}
	if change != nil {
		change(j)
	}
	s := study.Of(j, catalog.Builtin())
	a, err := Of(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return a, s
}

// Each planned piece and joint of the take-off and each planned support stands once in the
// order of work, no piece after a joint that it goes into, stages one after the other.
func TestOrderCloses(t *testing.T) {
	for _, x := range example.All() {
		text, _ := example.Read(x.Name)
		a, s := orderOf(t, text, nil)
		taken, err := s.Parts(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]int{}
		for i, step := range a.Steps {
			if _, twice := at[step.Task]; twice {
				t.Errorf("%s: %s stands twice", x.Name, step.Task)
			}
			at[step.Task] = i
			if i > 0 && rank(step.Stage) < rank(a.Steps[i-1].Stage) {
				t.Errorf("%s: %s comes after a later stage", x.Name, step.Task)
			}
		}
		for i := range taken.Pieces {
			p := &taken.Pieces[i]
			n, ok := at["cut "+p.ID]
			if ok != (p.State == parts.Planned) {
				t.Errorf("%s: %s is %s and in the list: %v", x.Name, p.ID, p.State, ok)
			}
			for _, k := range []string{p.From.Joint, p.To.Joint} {
				if m, made := at["join "+k]; ok && made && m < n {
					t.Errorf("%s: %s is cut after its joint %s", x.Name, p.ID, k)
				}
			}
		}
		for i := range taken.Joints {
			k := &taken.Joints[i]
			if _, ok := at["join "+k.ID]; ok != (k.State == parts.Planned) {
				t.Errorf("%s: joint %s is %s and in the list: %v", x.Name, k.ID, k.State, ok)
			}
		}
	}
}

func rank(s Stage) int {
	for i, o := range Stages() {
		if o == s {
			return i
		}
	}
	return -1
}

// A tick is done, taken back it is not; a line in a void waits for its joints.
func TestTicks(t *testing.T) {
	text, _ := example.Read(example.All()[0].Name)
	plan := func(j *job.Job) {
		for i := range j.Net.Runs {
			j.Net.Runs[i].State, j.Net.Runs[i].Support = "planned", "void"
		}
		for i := range j.Net.Points {
			j.Net.Points[i].State = "planned"
		}
	}
	a, _ := orderOf(t, text, plan)
	if a.Next < 0 || a.NextCut < 0 || a.NextJoint < 0 || a.Done != 0 {
		t.Fatalf("%d, %d, %d, done %d", a.Next, a.NextCut, a.NextJoint, a.Done)
	}
	first := a.Steps[a.NextCut].Task
	tick := func(j *job.Job, back bool) {
		plan(j)
		j.Records = append(j.Records, job.Record{ID: "record.a", Kind: "build", Task: first, Device: "a"})
		if back {
			j.Records = append(j.Records, job.Record{ID: "record.b", Kind: "build", Back: "record.a", Device: "a"})
		}
	}
	if b, _ := orderOf(t, text, func(j *job.Job) { tick(j, false) }); b.Done != 1 || b.NextCut == a.NextCut {
		t.Errorf("ticked: %d done, next cut %d", b.Done, b.NextCut)
	}
	if b, _ := orderOf(t, text, func(j *job.Job) { tick(j, true) }); b.Done != 0 || b.NextCut != a.NextCut {
		t.Errorf("taken back: %d done, next cut %d", b.Done, b.NextCut)
	}
	hidden := 0
	for _, s := range a.Steps {
		if s.What == Hide {
			hidden++
			if s.Hidden != "void" || len(s.Open) == 0 {
				t.Errorf("%s: %q, open %v", s.Task, s.Hidden, s.Open)
			}
		}
	}
	if hidden == 0 {
		t.Error("nothing is hidden")
	}
}
