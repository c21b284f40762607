package numtest

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Found is what glpsol makes of a programme.
type Found struct {
	Best  float64 // the least it has found: +Inf for none
	Ended bool    // Best is proven the least, or that there is none
}

// Glpsol solves a programme in CPLEX LP form for so many seconds. It skips the test where
// glpsol is not there or time is short.
func Glpsol(t testing.TB, programme string, seconds int) Found {
	t.Helper()
	glpsol, err := exec.LookPath("glpsol")
	if err != nil || testing.Short() {
		t.Skip("needs glpsol and time")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.lp"), filepath.Join(dir, "out.txt")
	if err := os.WriteFile(in, []byte(programme), 0o600); err != nil {
		t.Fatal(err)
	}
	told, err := exec.Command(glpsol, "--lp", in, "--cuts", "--tmlim", strconv.Itoa(seconds), "-w", out).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, told)
	}
	if strings.Contains(string(told), "HAS NO PRIMAL FEASIBLE") || strings.Contains(string(told), "HAS NO INTEGER FEASIBLE") {
		return Found{math.Inf(1), true}
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	return found(t, string(answer))
}

// found reads the line "s mip ROWS COLUMNS STATUS PRICE" of an answer: o is proven, f found,
// n proven that there is none, u neither.
func found(t testing.TB, answer string) Found {
	t.Helper()
	for line := range strings.Lines(answer) {
		f := strings.Fields(line)
		if len(f) != 6 || f[0] != "s" || f[1] != "mip" {
			continue
		}
		best, err := strconv.ParseFloat(f[5], 64)
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		switch f[4] {
		case "o", "f":
			return Found{best, f[4] == "o"}
		}
		return Found{math.Inf(1), f[4] == "n"}
	}
	t.Fatalf("no answer in %q", answer)
	return Found{}
}
