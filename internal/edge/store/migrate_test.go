package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
)

const laterRows = 2000

// oldStore makes a file of today's schema with one job, and gives what is in it.
func oldStore(t *testing.T, path string) Saved {
	t.Helper()
	s, err := openWith(t.Context(), path, soon(t))
	must(t, err)
	newJob(t, s, "a")
	for revision := 1; revision <= 30; revision++ {
		must(t, s.Append(t.Context(), "a", stepOf(revision)))
	}
	saved, err := s.Load(t.Context(), "a")
	must(t, err)
	must(t, s.Close())
	return saved
}

func TestMigrationNames(t *testing.T) {
	steps, err := readMigrations(os.DirFS("migrations"))
	if err != nil || len(steps) != today {
		t.Fatalf("%d migrations, %v", len(steps), err)
	}
	file := &fstest.MapFile{Data: []byte("SELECT 1")}
	for _, bad := range []fstest.MapFS{
		{"0002_x.sql": file},
		{"0001_x.sql": file, "0003_x.sql": file},
		{"0001_x.sql": file, "0001_y.sql": file},
	} {
		if _, err := readMigrations(bad); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
}

// TestMigrate: a file with jobs in it is copied beside, whole, before it changes, and
// no copy is overwritten.
func TestMigrate(t *testing.T) {
	path := newPath(t)
	want := oldStore(t, path)
	if copies := besideNames(path); len(copies) != 0 {
		t.Fatalf("a new file was copied: %v", copies)
	}
	must(t, os.WriteFile(path+".schema-2", []byte("an earlier copy"), 0o600))
	s := open(t, path, settings{busy: busyWait, migrations: later(t, 10)})
	got, err := s.Load(t.Context(), "a")
	must(t, err)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	var extra string
	must(t, s.reader.QueryRow("SELECT extra FROM job").Scan(&extra))
	if extra != "moved" {
		t.Errorf("the migration wrote %q", extra)
	}
	if diff := cmp.Diff([]string{path + ".schema-2", path + ".schema-2-2"}, besideNames(path)); diff != "" {
		t.Error(diff)
	}
	earlier, err := os.ReadFile(path + ".schema-2")
	if err != nil || string(earlier) != "an earlier copy" {
		t.Errorf("the earlier copy is now %d bytes, %v", len(earlier), err)
	}
	// The copy is the old file: it opens with the old schema and has everything.
	old := open(t, path+".schema-2-2", soon(t))
	if got, err = old.Load(t.Context(), "a"); err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("the copy: %v %s", err, cmp.Diff(want, got))
	}
	// Opening again changes nothing and copies nothing.
	open(t, path, settings{busy: busyWait, migrations: later(t, 10)})
	if n := len(besideNames(path)); n != 2 {
		t.Errorf("%d copies after opening again, want 2", n)
	}
}

// TestMigrationFails: one that breaks off half way leaves the old schema.
func TestMigrationFails(t *testing.T) {
	path := newPath(t)
	want := oldStore(t, path)
	broken := later(t, 10)
	broken["0004_broken.sql"] = &fstest.MapFile{Data: []byte("CREATE TABLE half (n); DROP TABLE job; SELECT nothing FROM nowhere;")}
	_, err := openWith(t.Context(), path, settings{busy: busyWait, migrations: broken})
	if err == nil || !strings.Contains(err.Error(), "bringing the schema to 4") {
		t.Fatalf("opened: %v", err)
	}
	s := open(t, path, settings{busy: busyWait, migrations: later(t, 10)})
	if got, err := s.Load(t.Context(), "a"); err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("after it: %v %s", err, cmp.Diff(want, got))
	}
	var halves int
	must(t, s.reader.QueryRow("SELECT count(*) FROM sqlite_schema WHERE name = 'half'").Scan(&halves))
	if halves != 0 {
		t.Error("half of the broken migration is there")
	}
}

func TestNewerSchema(t *testing.T) {
	path := newPath(t)
	s, err := openWith(t.Context(), path, settings{busy: busyWait, migrations: later(t, 10)})
	must(t, err)
	newJob(t, s, "a")
	must(t, s.Close())
	before, err := os.ReadFile(path)
	must(t, err)
	_, err = openWith(t.Context(), path, soon(t))
	var trouble *Trouble
	if !errors.As(err, &trouble) || trouble.Kind != Other {
		t.Fatalf("opened: %v", err)
	}
	said(t, trouble.Words, path, "newer dropleg", "schema is 3", "up to 2", "left as it is", "Update")
	if after, err := os.ReadFile(path); err != nil || string(before) != string(after) {
		t.Errorf("the file was changed, %v", err)
	}
}

func TestOtherPrograms(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	db := raw(t, path)
	_, err := db.Exec("CREATE TABLE bookmark (name TEXT); INSERT INTO bookmark VALUES ('x')")
	must(t, err)
	_, err = openWith(t.Context(), path, soon(t))
	var trouble *Trouble
	if !errors.As(err, &trouble) || trouble.Kind != Other {
		t.Fatalf("opened: %v", err)
	}
	said(t, trouble.Words, path, "another program", "DROPLEG_STORE")
	var tables int
	must(t, db.QueryRow("SELECT count(*) FROM sqlite_schema").Scan(&tables))
	if tables != 1 {
		t.Errorf("%d tables in another program's database, want its own", tables)
	}
}

// childMigrate says when it begins, as that is what the kill is to meet.
func childMigrate(path string) error {
	migrations, err := readLater(laterRows)
	if err != nil {
		return err
	}
	fmt.Println("begin")
	s, err := openWith(context.Background(), path, settings{busy: busyWait, migrations: migrations})
	if err != nil {
		return err
	}
	fmt.Println("end")
	return s.Close()
}

// TestMigrationKilled: a kill leaves the old schema or the new, with every job.
func TestMigrationKilled(t *testing.T) {
	most := 20
	if testing.Short() {
		most = 8
	}
	path := newPath(t)
	oldStore(t, path)
	cmd := childCommand("migrate", path)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	lines := bufio.NewReader(out)
	begin, err := lines.ReadString('\n')
	start := time.Now()
	end, fault := lines.ReadString('\n')
	whole := time.Since(start)
	must(t, errors.Join(err, fault, cmd.Wait()))
	if begin+end != "begin\nend\n" {
		t.Fatalf("an undisturbed migration says %q", begin+end)
	}

	left := map[int]int{}
	for n := range most {
		// From the first moment to well after the end, more of them early: the machine
		// may be quicker than it was just now.
		part := 1.4 * float64(n) / float64(most)
		left[migrateKilled(t, time.Duration(part*part*float64(whole)))]++
	}
	t.Logf("%d kills left the old schema, %d the new", left[today], left[today+1])
	if left[today] == 0 {
		t.Error("no kill came before the end: they met nothing")
	}
}

// migrateKilled gives the schema that a migration killed at some moment left.
func migrateKilled(t *testing.T, moment time.Duration) int {
	t.Helper()
	path := newPath(t)
	want := oldStore(t, path)
	cmd := childCommand("migrate", path)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	if _, err := out.Read(make([]byte, 1)); err != nil {
		t.Fatal(err)
	}
	time.Sleep(moment)
	_ = cmd.Process.Kill() // it may have ended
	_ = cmd.Wait()

	db := openPool(source(path, time.Second), 1)
	var version, columns, tables, rows int
	must(t, db.QueryRow("PRAGMA user_version").Scan(&version))
	must(t, db.QueryRow("SELECT count(*) FROM pragma_table_info('job') WHERE name = 'extra'").Scan(&columns))
	must(t, db.QueryRow("SELECT count(*) FROM sqlite_schema WHERE name = 'extra'").Scan(&tables))
	if tables == 1 {
		must(t, db.QueryRow("SELECT count(*) FROM extra").Scan(&rows))
	}
	must(t, checkWhole(t.Context(), db))
	must(t, db.Close())
	if old := version == today && columns == 0 && tables == 0; !old && (version != today+1 || columns != 1 || rows != laterRows) {
		t.Errorf("schema %d, %d columns, %d tables, %d rows: neither old nor new", version, columns, tables, rows)
	}
	// Every copy under a final name is whole, and the next opening gets it done.
	for _, name := range besideNames(path) {
		copied := openPool(source(name, time.Second), 1)
		must(t, checkWhole(t.Context(), copied))
		must(t, copied.Close())
	}
	s := open(t, path, settings{busy: busyWait, migrations: later(t, laterRows)})
	if got, err := s.Load(t.Context(), "a"); err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("after a kill: %v %s", err, cmp.Diff(want, got))
	}
	if len(besideNames(path)) == 0 {
		t.Error("migrated without a copy")
	}
	return version
}

// TestFromFirstSchema: a file from before steps had keys keeps every step, and takes
// steps with a key from then on.
func TestFromFirstSchema(t *testing.T) {
	path := newPath(t)
	first, err := upTo(1)
	must(t, err)
	s, err := openWith(t.Context(), path, settings{busy: busyWait, migrations: first})
	must(t, err)
	newJob(t, s, "a")
	var want []Step
	for revision := 1; revision <= 30; revision++ {
		step := stepOf(revision)
		step.Key, step.Made, step.Merged = "", nil, false
		must(t, s.Append(t.Context(), "a", step))
		want = append(want, step)
	}
	must(t, s.Close())

	s = open(t, path, soon(t))
	if diff := cmp.Diff([]string{path + ".schema-1"}, besideNames(path)); diff != "" {
		t.Error(diff)
	}
	last := stepOf(33)
	last.Revision = 31
	must(t, s.Append(t.Context(), "a", last))
	got, err := s.Steps(t.Context(), "a", 0)
	must(t, err)
	if diff := cmp.Diff(append(want, last), got); diff != "" {
		t.Error(diff)
	}
	if last.Key == "" {
		t.Error("the last step was to have a key")
	}
}
