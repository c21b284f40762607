package store

import (
	"bytes"
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// suite is what any store of jobs must do. The tests get the store anew for every call
// they make, so that one way to run them is to close it and open it in between.
var suite = []struct {
	name string
	test func(t *testing.T, s func() *Store)
}{
	{"round trip", testRoundTrip},
	{"behind", testBehind},
	{"list", testList},
	{"bin and origin", testBinAndOrigin},
	{"history", testHistory},
	{"snapshots", testSnapshots},
	{"late snapshot", testLateSnapshot},
	{"going back", testGoingBack},
	{"pictures", testPictures},
	{"not there", testNotThere},
	{"names", testNames},
}

func TestSuite(t *testing.T) {
	for _, c := range suite {
		t.Run(c.name+"/open", func(t *testing.T) {
			s := open(t, newPath(t), soon(t))
			c.test(t, func() *Store { return s })
		})
		t.Run(c.name+"/reopened", func(t *testing.T) {
			path := newPath(t)
			var s *Store
			c.test(t, func() *Store {
				if s != nil {
					must(t, s.Close())
				}
				s = open(t, path, soon(t))
				return s
			})
		})
	}
}

func testRoundTrip(t *testing.T, s func() *Store) {
	want := Saved{
		Entry: Entry{
			ID: "skerry-row", Title: "Skerry Row Boatworks, Ø ≤ ³", Created: moment(1), Changed: moment(2),
			Revision: 7, Origin: "file shop.json", OriginSum: "abc",
		},
		At: 7, Doc: []byte("{\"any\x00thing\": \xff}"),
	}
	must(t, s().Create(t.Context(), want.Entry, want.Doc))
	for revision := 8; revision <= 30; revision++ {
		must(t, s().Append(t.Context(), want.ID, stepOf(revision)))
		want.Steps = append(want.Steps, stepOf(revision))
	}
	want.Revision, want.Changed = 30, moment(30)
	got, err := s().Load(t.Context(), want.ID)
	must(t, err)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	steps, err := s().Steps(t.Context(), want.ID, 28)
	must(t, err)
	if diff := cmp.Diff([]Step{stepOf(29), stepOf(30)}, steps); diff != "" {
		t.Error(diff)
	}
	if err := s().Create(t.Context(), want.Entry, want.Doc); !errors.Is(err, ErrTaken) {
		t.Errorf("a second job of the same id: %v", err)
	}
	if err := s().Create(t.Context(), Entry{ID: "empty"}, nil); err == nil {
		t.Error("a job without a document was taken")
	}
	if _, err := s().Load(t.Context(), "empty"); !errors.Is(err, ErrNotThere) {
		t.Errorf("half a job was kept: %v", err)
	}
	// A clock's reading in another zone comes back as the same moment.
	e := Entry{ID: "zone", Created: time.Now().In(time.FixedZone("east", 7200))}
	must(t, s().Create(t.Context(), e, want.Doc))
	again, err := s().Load(t.Context(), "zone")
	must(t, err)
	if !again.Created.Equal(e.Created.Truncate(time.Microsecond)) || !again.Changed.IsZero() {
		t.Errorf("created %v, read %v; changed %v", e.Created, again.Created, again.Changed)
	}
}

func testBehind(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	must(t, s().Append(t.Context(), "a", stepOf(1)))
	for _, revision := range []int{-1, 0, 1, 3} {
		err := s().Append(t.Context(), "a", stepOf(revision))
		if !errors.Is(err, ErrBehind) {
			t.Errorf("step %d after 1: %v", revision, err)
		}
		var trouble *Trouble
		if errors.As(err, &trouble) {
			t.Errorf("step %d after 1 is no trouble of the disk: %v", revision, err)
		}
	}
	must(t, s().Append(t.Context(), "a", stepOf(2)))
	if err := s().Keep(t.Context(), "a", 3, "ahead", document(3), nil); !errors.Is(err, ErrBehind) {
		t.Errorf("a snapshot of a revision to come: %v", err)
	}
}

func testList(t *testing.T, s func() *Store) {
	if jobs, err := s().Jobs(t.Context()); err != nil || len(jobs) != 0 {
		t.Fatalf("a new store has %v, %v", jobs, err)
	}
	for _, id := range []string{"b", "a", "c"} {
		newJob(t, s(), id)
	}
	must(t, s().Append(t.Context(), "c", stepOf(1)))
	jobs, err := s().Jobs(t.Context())
	must(t, err)
	var ids string
	for _, e := range jobs {
		ids += e.ID
	}
	if ids != "cab" {
		t.Errorf("order is %s, want the last changed first, then by id: cab", ids)
	}
}

func testBinAndOrigin(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	must(t, s().SetOrigin(t.Context(), "a", "file x.json", "sum"))
	must(t, s().Remove(t.Context(), "a"))
	// Whoever has it open when another throws it away loses nothing.
	must(t, s().Append(t.Context(), "a", stepOf(1)))
	want := Entry{
		ID: "a", Title: "Job a", Created: moment(0), Changed: moment(1), Revision: 1,
		Origin: "file x.json", OriginSum: "sum", Removed: true,
	}
	jobs, err := s().Jobs(t.Context())
	must(t, err)
	if diff := cmp.Diff([]Entry{want}, jobs); diff != "" {
		t.Error(diff)
	}
	must(t, s().Restore(t.Context(), "a"))
	saved, err := s().Load(t.Context(), "a")
	must(t, err)
	if want.Removed = false; saved.Entry != want {
		t.Errorf("restored: %+v", saved.Entry)
	}
}

func testHistory(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	for revision := 1; revision <= 31; revision++ {
		must(t, s().Append(t.Context(), "a", stepOf(revision)))
	}
	for _, c := range []struct{ before, most, first, count int }{
		{0, 0, 31, 31},
		{0, 4, 31, 4},
		{31, 2, 30, 2},
		{3, 10, 2, 2},
		{1, 10, 0, 0},
		{99, 1, 31, 1},
	} {
		steps, err := s().History(t.Context(), "a", c.before, c.most)
		must(t, err)
		if len(steps) != c.count {
			t.Fatalf("before %d, most %d: %d steps, want %d", c.before, c.most, len(steps), c.count)
		}
		for i, step := range steps {
			want := stepOf(c.first - i)
			want.Doc = nil
			if diff := cmp.Diff(want, step); diff != "" {
				t.Errorf("before %d, most %d: %s", c.before, c.most, diff)
			}
		}
	}
}

func testSnapshots(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	newJob(t, s(), "other")
	for revision := 1; revision <= 40; revision++ {
		must(t, s().Append(t.Context(), "a", stepOf(revision)))
		if revision%4 == 0 {
			must(t, s().Keep(t.Context(), "a", revision, "titled", document(revision), []byte{byte(revision)}))
		}
	}
	must(t, s().Append(t.Context(), "a", stepOf(41)))
	saved, err := s().Load(t.Context(), "a")
	must(t, err)
	if saved.At != 40 || !bytes.Equal(saved.Doc, document(40)) || len(saved.Steps) != 1 || saved.Title != "titled" {
		t.Errorf("loads from %d with %d steps, title %s", saved.At, len(saved.Steps), saved.Title)
	}
	thumb, err := s().Thumb(t.Context(), "a")
	if err != nil || !bytes.Equal(thumb, []byte{40}) {
		t.Errorf("thumb %v, %v", thumb, err)
	}
	must(t, s().Keep(t.Context(), "a", 41, "again", document(41), nil))
	if thumb, err = s().Thumb(t.Context(), "a"); err != nil || !bytes.Equal(thumb, []byte{40}) {
		t.Errorf("thumb after a snapshot without one: %v, %v", thumb, err)
	}
	if thumb, err = s().Thumb(t.Context(), "other"); err != nil || thumb != nil {
		t.Errorf("thumb of a job that has none: %v, %v", thumb, err)
	}
	rows, err := s().reader.QueryContext(t.Context(), "SELECT revision FROM snapshot WHERE job = 'a' ORDER BY revision")
	must(t, err)
	defer rows.Close()
	var kept []int
	for rows.Next() {
		var revision int
		must(t, rows.Scan(&revision))
		kept = append(kept, revision)
	}
	must(t, rows.Err())
	if diff := cmp.Diff([]int{0, 32, 36, 40, 41}, kept); diff != "" {
		t.Errorf("the first and the newest four stay: %s", diff)
	}
}

func testLateSnapshot(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	for revision := 1; revision <= 9; revision++ {
		must(t, s().Append(t.Context(), "a", stepOf(revision)))
	}
	must(t, s().Keep(t.Context(), "a", 8, "new", document(8), []byte("new")))
	must(t, s().Keep(t.Context(), "a", 5, "old", document(5), []byte("old")))
	saved, err := s().Load(t.Context(), "a")
	must(t, err)
	thumb, err := s().Thumb(t.Context(), "a")
	must(t, err)
	if saved.At != 8 || saved.Title != "new" || string(thumb) != "new" {
		t.Errorf("a snapshot of 5 after one of 8: from %d, title %s, thumb %s", saved.At, saved.Title, thumb)
	}
}

func testGoingBack(t *testing.T, s func() *Store) {
	e := Entry{ID: "a", Revision: 3}
	must(t, s().Create(t.Context(), e, document(3)))
	for revision := 4; revision <= 12; revision++ {
		must(t, s().Append(t.Context(), "a", stepOf(revision)))
	}
	must(t, s().Keep(t.Context(), "a", 8, "", document(8), nil))
	for _, c := range []struct{ revision, from int }{{3, 3}, {4, 3}, {7, 3}, {8, 8}, {9, 8}, {12, 8}} {
		saved, err := s().LoadAt(t.Context(), "a", c.revision)
		must(t, err)
		if saved.At != c.from || !bytes.Equal(saved.Doc, document(c.from)) || len(saved.Steps) != c.revision-c.from {
			t.Errorf("revision %d: from %d with %d steps", c.revision, saved.At, len(saved.Steps))
		}
		for i, step := range saved.Steps {
			if diff := cmp.Diff(stepOf(c.from+1+i), step); diff != "" {
				t.Error(diff)
			}
		}
	}
	for _, revision := range []int{-1, 2, 13} {
		if _, err := s().LoadAt(t.Context(), "a", revision); !errors.Is(err, ErrNotThere) {
			t.Errorf("revision %d of 3 to 12: %v", revision, err)
		}
	}
}
