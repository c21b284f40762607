package shoptest

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// To points at a copy of a figure.
func To[T any](x T) *T { return &x }

// Machine is a compressor point and its receiver, joined by a line, with the
// receiver's outlet port free: cut-in 700 kPa, cut-out 900 kPa, 500 L, 20 L/s.
func Machine() job.Net {
	return job.Net{
		Points: []job.Point{
			{ID: "point.compressor", At: &geom.Point{0, 0, 0.5}, Part: job.Part{Kind: "compressor", Compressor: &job.Compressor{
				FreeAir: &job.Flow{Value: 0.020, Reference: "iso1217"}, At: To(unit.GaugePressure(800e3)),
				CutIn: To(unit.GaugePressure(700e3)), CutOut: To(unit.GaugePressure(900e3)), Control: "load-unload",
			}}},
			{ID: "point.receiver", At: &geom.Point{1, 0, 0.5}, Part: job.Part{Kind: "receiver", Volume: To(unit.Volume(0.5))}},
		},
		Runs: []job.Run{
			{ID: "line.delivery", From: job.End{Point: "point.compressor", Port: "out"}, To: job.End{Point: "point.receiver", Port: "in"}, Stock: "copper-l", Size: "3/4", Role: "link"},
		},
	}
}

// Join adds a run with a stated length.
func Join(n *job.Net, id, from, to job.ID, ports [2]string, size string, length float64, role string) {
	n.Runs = append(n.Runs, job.Run{
		ID: id, From: job.End{Point: from, Port: ports[0]}, To: job.End{Point: to, Port: ports[1]},
		Stock: "copper-l", Size: size, Role: role, Length: To(unit.Length(length)),
	})
}

// Line is one line of copper 3/4 from the receiver to one outlet with nothing
// hanging there, and a tool screwed on that takes a constant flow (m³/s of free
// air). Air at 20 °C, standard atmosphere: nothing but the law of the line.
func Line(length, flow float64) *job.Job {
	n := Machine()
	n.Points = append(n.Points, job.Point{ID: "point.end", At: &geom.Point{9, 0, 1}, Part: job.Part{}})
	Join(&n, "line.main", "point.receiver", "point.end", [2]string{"out", "in"}, "3/4", length, "main")
	return &job.Job{
		Version: job.Version, Title: "one line", Net: n,
		Outlets: []job.Outlet{{ID: "outlet.a", Name: "A", Point: "point.end", Port: "out", Tools: []job.ID{"tool.t"}}},
		Tools: []job.Tool{{
			ID: "tool.t", Name: "steady tool", Constant: true, Flow: &job.Flow{Value: flow, Reference: "iso1217"},
			At: To(unit.GaugePressure(600e3)), Least: To(unit.GaugePressure(500e3)), Share: To(unit.Ratio(0.2)),
		}},
	}
}

// Bench is a dead-end main with three drops, each with valve, filter-regulator
// or plain coupler, a hose and a tool.
func Bench() *job.Job {
	n := Machine()
	n.Points = append(n.Points,
		job.Point{ID: "point.valve", At: &geom.Point{1, 0, 3}, Part: job.Part{Kind: "ball-valve"}},
		job.Point{ID: "point.tee-1", At: &geom.Point{5, 0, 3}, Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.tee-2", At: &geom.Point{10, 0, 3}, Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.a", At: &geom.Point{5, 0.1, 1}, Part: job.Part{Kind: "drop-elbow"}},
		job.Point{ID: "point.b", At: &geom.Point{10, 0.1, 1}, Part: job.Part{Kind: "drop-elbow"}},
		job.Point{ID: "point.c", At: &geom.Point{15, 0, 1}, Part: job.Part{Kind: "drop-elbow"}},
	)
	Join(&n, "line.riser", "point.receiver", "point.valve", [2]string{"out", "in"}, "3/4", 2.5, "link")
	Join(&n, "line.main-1", "point.valve", "point.tee-1", [2]string{"out", "run-1"}, "3/4", 4, "main")
	Join(&n, "line.main-2", "point.tee-1", "point.tee-2", [2]string{"run-2", "run-1"}, "3/4", 5, "main")
	Join(&n, "line.drop-a", "point.tee-1", "point.a", [2]string{"branch", "in"}, "1/2", 2, "drop")
	Join(&n, "line.drop-b", "point.tee-2", "point.b", [2]string{"branch", "in"}, "1/2", 2, "drop")
	Join(&n, "line.drop-c", "point.tee-2", "point.c", [2]string{"run-2", "in"}, "1/2", 7, "drop")
	return &job.Job{
		Version: job.Version, Title: "three drops", Net: n,
		Outlets: []job.Outlet{
			Outlet("a", []job.Part{{ID: "part.a-coupler", Kind: "coupler", Item: "industrial-1/4"}}, "rubber-3/8", "industrial-1/4", 5, "tool.blow"),
			Outlet("b", []job.Part{
				{ID: "part.b-regulator", Kind: "filter-regulator", Set: To(unit.GaugePressure(620e3)), Size: "1/2"},
				{ID: "part.b-coupler", Kind: "coupler", Item: "industrial-3/8"},
			}, "rubber-3/8", "industrial-3/8", 8, "tool.sander", "tool.blow"),
			Outlet("c", []job.Part{
				{ID: "part.c-valve", Kind: "ball-valve", Size: "1/2"},
				{ID: "part.c-coupler", Kind: "coupler", Item: "industrial-1/4"},
			}, "rubber-1/4", "industrial-1/4", 10, "tool.wrench", "tool.sander"),
		},
		Tools: []job.Tool{
			{ID: "tool.sander", Name: "sander", Flow: &job.Flow{Value: 0.0066, Reference: "iso1217"}, At: To(unit.GaugePressure(620e3)), Least: To(unit.GaugePressure(550e3)), Share: To(unit.Ratio(0.4)), Plug: "industrial-3/8"},
			{ID: "tool.wrench", Name: "impact wrench", Item: "impact-wrench-1/2", Plug: "industrial-1/4"},
			{ID: "tool.blow", Name: "blow gun", Item: "blow-gun", Plug: "industrial-1/4"},
		},
		Work: job.Work{Sets: []job.Set{
			{ID: "set.friday", Name: "Friday", Running: []job.InUse{
				{Tool: "tool.blow", Outlet: "outlet.a"}, {Tool: "tool.sander", Outlet: "outlet.b"}, {Tool: "tool.wrench", Outlet: "outlet.c"},
			}},
		}},
	}
}

// Outlet is an outlet at the drop elbow of its letter, with a hose that ends in
// a coupler of the plug's row.
func Outlet(letter string, hang []job.Part, hose, plug string, length float64, tools ...job.ID) job.Outlet {
	return job.Outlet{
		ID: job.ID("outlet." + letter), Name: letter, Point: job.ID("point." + letter), Port: "out", Hang: hang, Tools: tools,
		Hose: &job.Hose{ID: job.ID("hose." + letter), Item: hose, Length: unit.Length(length), Plug: plug, Socket: plug},
	}
}

// Ring is a ring main of copper 3/4, 4 m between drops, with as many drops
// ("outlet.1" on) and as many tools of one flow, each used at its own outlet
// and the next.
func Ring(drops int) *job.Job {
	n := Machine()
	n.Points = append(n.Points, job.Point{ID: "point.inlet", At: &geom.Point{2, 0, 3}, Part: job.Part{Kind: "tee"}})
	Join(&n, "line.riser", "point.receiver", "point.inlet", [2]string{"out", "branch"}, "3/4", 3, "link")
	j := &job.Job{Version: job.Version, Title: "a ring"}
	before, port := job.ID("point.inlet"), "run-1"
	for i := 1; i <= drops; i++ {
		tee, elbow := job.ID(fmt.Sprintf("point.tee-%d", i)), job.ID(fmt.Sprintf("point.%d", i))
		x := float64(4 * i)
		n.Points = append(n.Points,
			job.Point{ID: tee, At: &geom.Point{x, 0, 3}, Part: job.Part{Kind: "tee"}},
			job.Point{ID: elbow, At: &geom.Point{x, 0.1, 1}, Part: job.Part{Kind: "drop-elbow"}})
		Join(&n, job.ID(fmt.Sprintf("line.ring-%d", i)), before, tee, [2]string{port, "run-1"}, "3/4", 4, "ring")
		Join(&n, job.ID(fmt.Sprintf("line.drop-%d", i)), tee, elbow, [2]string{"branch", "in"}, "1/2", 2, "drop")
		before, port = tee, "run-2"
		id := job.ID(fmt.Sprintf("tool.%d", i))
		next := job.ID(fmt.Sprintf("tool.%d", 1+i%drops))
		j.Outlets = append(j.Outlets, Outlet(fmt.Sprint(i), []job.Part{
			{ID: job.ID(fmt.Sprintf("part.valve-%d", i)), Kind: "ball-valve", Size: "1/2"},
			{ID: job.ID(fmt.Sprintf("part.coupler-%d", i)), Kind: "coupler", Item: "industrial-3/8"},
		}, "rubber-3/8", "industrial-3/8", 8, id, next))
		j.Tools = append(j.Tools, job.Tool{
			ID: id, Name: fmt.Sprintf("tool %d", i), Flow: &job.Flow{Value: 0.004 + 0.0001*float64(i), Reference: "iso1217"},
			At: To(unit.GaugePressure(600e3)), Least: To(unit.GaugePressure(500e3)), Share: To(unit.Ratio(0.15)),
		})
	}
	Join(&n, "line.ring-close", before, "point.inlet", [2]string{port, "run-2"}, "3/4", 4, "ring")
	j.Net = n
	return j
}
