package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"dropleg": func() { os.Exit(Run(context.Background(), os.Args[1:], System())) },
	})
}

// TestScripts runs the manual: each script is one subject, told by examples.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("TERM", "xterm")
			e.Setenv("LANG", "en_US.UTF-8")
			e.Setenv("COLUMNS", "80")
			e.Setenv("TZ", "UTC")
			e.Setenv("DROPLEG_STORE", e.WorkDir+"/store/jobs.db")
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name != "root" {
				return false, fmt.Errorf("unknown condition %q", name)
			}
			return os.Geteuid() == 0, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"status": wantStatus, "keys": wantKeys, "sparse": sparse},
	})
}

// wantKeys is the command `keys FILE key …`: the file, or stdout or stderr, is one
// document of JSON, an object with these keys at its top, in any order, and no others
// unless the last is "...". `keys FILE [] key …` wants a list, each of these objects.
func wantKeys(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 || neg {
		ts.Fatalf("usage: keys FILE [[]] key …")
	}
	text, want := []byte(ts.ReadFile(args[0])), args[1:]
	var objects []map[string]json.RawMessage
	var err error
	if want[0] == "[]" {
		want = want[1:]
		err = json.Unmarshal(text, &objects)
	} else {
		objects = make([]map[string]json.RawMessage, 1)
		err = json.Unmarshal(text, &objects[0])
	}
	if err != nil || len(objects) == 0 {
		ts.Fatalf("%s is not the document wanted: %v", args[0], err)
	}
	more := want[len(want)-1] == "..."
	if more {
		want = want[:len(want)-1]
	}
	for _, o := range objects {
		for _, key := range want {
			if _, ok := o[key]; !ok {
				ts.Fatalf("%s lacks the key %s: it has %v", args[0], key, slices.Sorted(maps.Keys(o)))
			}
		}
		if !more && len(o) != len(want) {
			ts.Fatalf("%s has the keys %v, want %v", args[0], slices.Sorted(maps.Keys(o)), want)
		}
	}
}

// sparse is the command `sparse FILE MB`: a file of that size without contents.
func sparse(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 || neg {
		ts.Fatalf("usage: sparse FILE MB")
	}
	mb, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	file := ts.MkAbs(args[0])
	ts.Check(os.WriteFile(file, nil, 0o600))
	ts.Check(os.Truncate(file, mb<<20))
}

// wantStatus is the command `status N command …`: it runs the command and wants that
// exit status; stdout and stderr then look at what was written.
func wantStatus(ts *testscript.TestScript, neg bool, args []string) {
	want, err := strconv.Atoi(args[0])
	if err != nil || neg {
		ts.Fatalf("usage: status N command …")
	}
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("status %d, want %d", got, want)
	}
}
