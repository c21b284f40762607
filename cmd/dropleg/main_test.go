package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
)

func TestMain(m *testing.M) {
	status := m.Run()
	if built.folder != "" {
		_ = os.RemoveAll(built.folder)
	}
	os.Exit(status)
}

// built is the program that all tests here run, built once.
var built struct {
	once           sync.Once
	folder, binary string
	err            error
}

// binary is the path of the built program.
func binary(t *testing.T) string {
	t.Helper()
	built.once.Do(func() { built.folder, built.binary, built.err = build() })
	if built.err != nil {
		t.Fatal(built.err)
	}
	return built.binary
}

func build() (folder, binary string, err error) {
	folder, err = os.MkdirTemp("", "dropleg-test-")
	if err != nil {
		return "", "", err
	}
	binary = filepath.Join(folder, "dropleg")
	if runtime.GOOS == "windows" {
		binary += ".exe"
	}
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		return "", "", errors.Join(fmt.Errorf("go build: %w\n%s", err, out), os.RemoveAll(folder))
	}
	return folder, binary, nil
}
