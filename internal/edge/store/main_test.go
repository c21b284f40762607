package store

import (
	"bufio"
	"context"
	"database/sql"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// Some tests need a second process: one to kill, one that holds a lock, one that may
// not write. It is this test binary again, told by childVariable what to be.
const childVariable = "STORE_TEST_CHILD"

func TestMain(m *testing.M) {
	if be := os.Getenv(childVariable); be != "" {
		child, path := map[string]func(string) error{
			"append": childAppend, "migrate": childMigrate, "hold": childHold, "read-only": childReadOnly,
		}[be], os.Args[1]
		if err := child(path); err != nil {
			fmt.Fprintln(os.Stderr, be+":", err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func childCommand(be, path string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], path)
	cmd.Env = append(os.Environ(), childVariable+"="+be)
	cmd.Stderr = os.Stderr
	return cmd
}

// today is the number of the newest schema.
const today = 2

// soon is for stores whose waiting is not what is tested.
func soon(t testing.TB) settings {
	t.Helper()
	return settings{busy: 50 * time.Millisecond, migrations: os.DirFS("migrations")}
}

// later is the schema of today and one more, which fills a table.
func later(t testing.TB, rows int) fstest.MapFS {
	t.Helper()
	migrations, err := readLater(rows)
	must(t, err)
	return migrations
}

func readLater(rows int) (fstest.MapFS, error) {
	migrations, err := upTo(today)
	if err == nil {
		migrations[fmt.Sprintf("%04d_extra.sql", today+1)] = &fstest.MapFile{Data: []byte(laterText(rows))}
	}
	return migrations, err
}

// upTo are the migrations up to a schema.
func upTo(schema int) (fstest.MapFS, error) {
	names, err := filepath.Glob("migrations/*.sql")
	if err != nil {
		return nil, err
	}
	migrations := fstest.MapFS{}
	for _, name := range names[:schema] { // in order of their names
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		migrations[filepath.Base(name)] = &fstest.MapFile{Data: text}
	}
	return migrations, nil
}

func laterText(rows int) string {
	return fmt.Sprintf(`
		ALTER TABLE job ADD COLUMN extra TEXT NOT NULL DEFAULT 'none';
		CREATE TABLE extra (n INTEGER PRIMARY KEY, filler BLOB NOT NULL) STRICT;
		WITH RECURSIVE count(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM count WHERE n < %d)
			INSERT INTO extra SELECT n, randomblob(500) FROM count;
		UPDATE job SET extra = 'moved';`, rows)
}

func newPath(t testing.TB) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "data", "jobs.db")
}

func open(t testing.TB, path string, set settings) *Store {
	t.Helper()
	s, err := openWith(t.Context(), path, set)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Errorf("close: %v", err)
		}
	})
	return s
}

// newJob makes a job of revision 0.
func newJob(t testing.TB, s *Store, id string) {
	t.Helper()
	e := Entry{ID: id, Title: "Job " + id, Created: moment(0), Changed: moment(0)}
	if err := s.Create(t.Context(), e, document(0)); err != nil {
		t.Fatal(err)
	}
}

func moment(n int) time.Time {
	return time.Date(2031, 5, 6, 7, 8, 9, 123456000, time.UTC).Add(time.Duration(n) * time.Minute)
}

// stepOf is the one step that a revision can be, so that a half one is seen. Every
// seventh is larger than a page, every third has a key, every thirtieth a document.
func stepOf(revision int) Step {
	size := 200 + revision*37%400
	if revision%7 == 0 {
		size = 9000
	}
	s := Step{
		Revision: revision, When: moment(revision), By: "Ines", Plan: "plan.b", Kind: "edit", Of: revision / 2,
		Words: fmt.Sprintf("step %d: Ø 22 mm, 6.4 m", revision),
		Edit:  pattern(revision, size), Inverse: pattern(revision+1, size/2),
	}
	if revision%3 == 0 {
		s.Key, s.Made, s.Merged = fmt.Sprintf("key-%d", revision), []string{"line.a", "run.b"}, revision%2 == 0
	}
	if revision%30 == 0 {
		s.Kind, s.Doc = "replace", document(revision)
	}
	return s
}

func document(revision int) []byte { return pattern(revision, 20_000) }

func pattern(start, size int) []byte {
	data := make([]byte, size)
	for i := range data {
		data[i] = byte(start*31 + i*i%251)
	}
	return data
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// raw opens the file past this package.
func raw(t testing.TB, path string) *sql.DB {
	t.Helper()
	db := openPool(source(path, time.Second), 1)
	t.Cleanup(func() { db.Close() })
	return db
}

// childHold holds the lock to write until its input ends.
func childHold(path string) error {
	db := openPool(writing(path, time.Second), 1)
	tx, err := db.BeginTx(context.Background(), nil)
	if err != nil {
		return err
	}
	fmt.Println("held")
	_, _ = bufio.NewReader(os.Stdin).ReadString('\n')
	return tx.Rollback()
}

// said tells whether people's words hold all of these.
func said(t *testing.T, words string, wanted ...string) {
	t.Helper()
	for _, want := range wanted {
		if !strings.Contains(words, want) {
			t.Errorf("%q does not say %q", words, want)
		}
	}
}
