package cli

import (
	"context"
	"errors"
	"os"
	"os/exec"
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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"status": wantStatus},
	})
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
