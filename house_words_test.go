package dropleg_test

import (
	"bytes"
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"
)

// TestPlaceWords reads every text file that people get, test data and the built page
// included.
func TestPlaceWords(t *testing.T) {
	words := regexp.MustCompile(strings.Join(placeWords, "|"))
	skip := func(name string) bool {
		return name == ".git" || name == "node_modules" || name == "rapid"
	}
	read := 0
	walk(t, skip, func(file string, d fs.DirEntry) {
		if !d.Type().IsRegular() {
			return
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Error(err)
			return
		}
		if bytes.IndexByte(text[:min(len(text), 8000)], 0) >= 0 {
			return
		}
		read++
		for i, line := range bytes.Split(text, []byte("\n")) {
			if found := words.Find(line); found != nil {
				t.Errorf("%s:%d: %q speaks of one machine, not of the project", file, i+1, found)
			}
		}
	})
	if read == 0 {
		t.Error("no file was read")
	}
}

// TestLockFile holds that an installation does not depend on where somebody else
// fetched the packages from, and that what is fetched is what was tested.
func TestLockFile(t *testing.T) {
	text, err := os.ReadFile("web/package-lock.json")
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(text, []byte(`"resolved"`)) {
		t.Error("web/package-lock.json records addresses: npm install --omit-lockfile-registry-resolved")
	}
	if bytes.Count(text, []byte(`"integrity"`)) == 0 {
		t.Error("web/package-lock.json records no checksums")
	}
}
