package bench

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/engine/network"
)

// agree is how closely the answers of two solvers must agree, relative.
const agree = 1e-6

type answers struct {
	Pressure map[string]float64 `json:"pressure_Pa_abs"`
	Flow     map[string]float64 `json:"flow_kg_s"`
}

// load reads a network and the rival's answer, which stands as expected.
func load(b *testing.B, path string) (*network.Network, answers) {
	data, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	d, problems := network.Read(data)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	n, problems := d.Network()
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	var want answers
	if err := json.Unmarshal(d.Expected, &want); err != nil {
		b.Fatal(err)
	}
	return n, want
}

func compare(b *testing.B, n *network.Network, a *network.State, want answers) {
	most := 0.0
	for _, m := range a.Flow {
		most = max(most, math.Abs(m))
	}
	for i, v := range n.Nodes {
		if p := want.Pressure[v.Name]; math.Abs(a.Pressure[i]-p) > agree*p {
			b.Fatalf("%s: %.9g Pa, rival %.9g", v.Name, a.Pressure[i], p)
		}
	}
	for i, l := range n.Links {
		if m := want.Flow[l.Name]; math.Abs(a.Flow[i]-m) > agree*math.Abs(m)+1e-9*most {
			b.Fatalf("%s: %.9g kg/s, rival %.9g", l.Name, a.Flow[i], m)
		}
	}
}

func solverOf(b *testing.B, n *network.Network) *network.Solver {
	top, err := n.Compile()
	if err != nil {
		b.Fatal(err)
	}
	return top.NewSolver()
}

// BenchmarkRivals times, for each file, a solve from nothing with ordering and
// work space made anew (cold), and one from nothing with both kept (compiled).
func BenchmarkRivals(b *testing.B) {
	files, err := filepath.Glob(filepath.Join(os.Getenv("RIVALS_DIR"), "*.json"))
	if err != nil || os.Getenv("RIVALS_DIR") == "" || len(files) == 0 {
		b.Skip("RIVALS_DIR names no folder with networks: run rivals.py")
	}
	ctx := context.Background()
	for _, path := range files {
		n, want := load(b, path)
		name := strings.TrimSuffix(filepath.Base(path), ".json")
		b.Run(name+"/cold", func(b *testing.B) {
			for b.Loop() {
				a, err := solverOf(b, n).Solve(ctx)
				if err != nil {
					b.Fatal(err)
				}
				touch(b, a)
			}
		})
		b.Run(name+"/compiled", func(b *testing.B) {
			s := solverOf(b, n)
			for b.Loop() {
				s.Forget()
				a, err := s.Solve(ctx)
				if err != nil {
					b.Fatal(err)
				}
				touch(b, a)
			}
			a, err := s.Solve(ctx)
			if err != nil {
				b.Fatal(err)
			}
			compare(b, n, a, want)
		})
	}
}

// touch looks at one figure, so that no solve can be left out as unused.
func touch(b *testing.B, a *network.State) {
	if !(a.Pressure[len(a.Pressure)-1] > 0) {
		b.Fatal("no pressure")
	}
}
