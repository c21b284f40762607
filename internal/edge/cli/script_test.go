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
// document of JSON, an object with these keys at its top and no others, in any order.
// A list is judged by its first object; `keys FILE [] key …` says that it is one.
func wantKeys(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 || neg {
		ts.Fatalf("usage: keys FILE [[]] key …")
	}
	text, want := []byte(ts.ReadFile(args[0])), args[1:]
	var object map[string]json.RawMessage
	if want[0] == "[]" {
		var list []map[string]json.RawMessage
		if err := json.Unmarshal(text, &list); err != nil || len(list) == 0 {
			ts.Fatalf("%s is no list of objects: %v", args[0], err)
		}
		object, want = list[0], want[1:]
	} else if err := json.Unmarshal(text, &object); err != nil {
		ts.Fatalf("%s is no object: %v", args[0], err)
	}
	got := slices.Sorted(maps.Keys(object))
	slices.Sort(want)
	if !slices.Equal(got, want) {
		ts.Fatalf("%s has the keys %v, want %v", args[0], got, want)
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
