package store

import (
	"path/filepath"
	"testing"
)

func TestPath(t *testing.T) {
	for _, c := range []struct {
		name, system string
		env          map[string]string
		want         string
	}{
		{"named", "linux", map[string]string{"DROPLEG_STORE": "/x/y.db", "HOME": "/home/ines"}, "/x/y.db"},
		{"xdg", "linux", map[string]string{"XDG_DATA_HOME": "/data", "HOME": "/home/ines"}, "/data/dropleg/jobs.db"},
		{"xdg relative", "linux", map[string]string{"XDG_DATA_HOME": "data", "HOME": "/home/ines"}, "/home/ines/.local/share/dropleg/jobs.db"},
		{"home", "freebsd", map[string]string{"HOME": "/home/ines"}, "/home/ines/.local/share/dropleg/jobs.db"},
		{"mac", "darwin", map[string]string{"HOME": "/Users/ines"}, "/Users/ines/Library/Application Support/dropleg/jobs.db"},
		{"windows", "windows", map[string]string{"LocalAppData": "/local"}, "/local/dropleg/jobs.db"},
		{"windows bare", "windows", map[string]string{"USERPROFILE": "/ines"}, "/ines/AppData/Local/dropleg/jobs.db"},
		{"nothing", "linux", nil, ""},
		{"nothing on windows", "windows", map[string]string{"HOME": "/home/ines"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := pathOn(c.system, func(key string) string { return c.env[key] })
			if filepath.ToSlash(got) != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// TestOddPaths: a path is a path, whatever an address would make of it.
func TestOddPaths(t *testing.T) {
	for _, name := range []string{"a b", "100% #1", "what?mode=ro", "a%20b", "file:x", "ä[1]*"} {
		path := filepath.Join(t.TempDir(), name, name)
		s, err := Open(t.Context(), path)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		newJob(t, s, "a")
		must(t, s.Close())
		s = open(t, path, soon(t))
		if _, err := s.Load(t.Context(), "a"); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		names, err := filepath.Glob(filepath.Dir(escaped(path)) + "/*")
		must(t, err)
		for _, got := range names {
			if got != path && got != path+"-wal" && got != path+"-shm" {
				t.Errorf("%s: made %s", name, got)
			}
		}
	}
}

// escaped keeps a path from being a pattern.
func escaped(path string) string {
	var text []rune
	for _, r := range path {
		if r == '*' || r == '[' || r == '?' || r == '\\' {
			text = append(text, '\\')
		}
		text = append(text, r)
	}
	return string(text)
}
