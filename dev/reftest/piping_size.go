package reftest

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/size"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

func sizeLaws() []Law {
	return []Law{{
		Topic: "Sizes", Name: "pipe size by flow and length", Code: "internal/decide/size Propose", File: checksFile,
		Of: []string{"pipe size rule"}, Figures: pipeSize,
		Caution: "the table states neither pressure nor loss: 1 psi of loss at 100 psig is taken",
		Because: []Because{{
			When: func(Row) bool { return true }, Abs: 1,
			Why: "the table has one size for ranges of flow and length, and states no loss; for 1 psi at 100 psig the neighbouring size comes out",
		}},
	}}
}

var sizeRow = regexp.MustCompile(`^(\d+) cfm; (\d+) ft$`)

// lineJob is a line of steel from a receiver at 100 psig to a tool that takes a constant
// flow and wants 99 psig. Velocities are let alone, as the table says nothing of them.
const lineJob = `{"dropleg": 1, "title": "one line", "rules": {"drop_velocity_m_s": 100},
 "net": {"points": [
  {"id": "point.c", "part": {"kind": "compressor", "compressor": {"free_air": {"m3_s": 0.1}, "cut_in_kPa_g": 689.48, "cut_out_kPa_g": 860}}},
  {"id": "point.r", "part": {"kind": "receiver", "volume_L": 500}},
  {"id": "point.e", "part": {"kind": "drop-elbow"}}],
 "runs": [
  {"id": "line.c", "from": {"point": "point.c"}, "to": {"point": "point.r", "port": "in"}, "stock": "steel-sch40", "size": "2", "role": "link", "length_m": 1},
  {"id": "line.a", "from": {"point": "point.r", "port": "out"}, "to": {"point": "point.e", "port": "in"}, "stock": "steel-sch40", "size": "1/2", "role": "drop", "length_m": %g}]},
 "outlets": [{"id": "outlet.a", "name": "a", "point": "point.e", "port": "out", "tools": ["tool.a"]}],
 "tools": [{"id": "tool.a", "name": "a", "constant": true, "flow": {"m3_s": %g}, "at_kPa_g": 682.58, "least_kPa_g": 682.58}]}`

// pipeSize is the place of the size in the list of the stock's sizes.
func pipeSize(r Row) ([]Figure, error) {
	read := sizeRow.FindStringSubmatch(r.Inputs)
	if read == nil {
		return nil, fmt.Errorf("%q is no flow and length", r.Inputs)
	}
	cfm, err := strconv.ParseFloat(read[1], 64)
	if err != nil {
		return nil, err
	}
	feet, err := strconv.ParseFloat(read[2], 64)
	if err != nil {
		return nil, err
	}
	const minute = 60
	j, found := job.Parse(fmt.Appendf(nil, lineJob, feet*foot, cfm*foot*foot*foot/minute))
	if j == nil {
		return nil, fmt.Errorf("%v", found)
	}
	shelf := catalog.Builtin()
	all, err := size.Propose(context.Background(), study.Of(j, shelf), size.Wish{}, nil)
	if err != nil {
		return nil, err
	}
	got := "1/2"
	for _, c := range all[0].Changes {
		got = c.To
	}
	stock, _ := shelf.Stock("steel-sch40")
	names := stock.Names()
	want := slices.Index(names, r.Expected)
	if want < 0 {
		return nil, fmt.Errorf("%q is no size of %s", r.Expected, stock.Stock)
	}
	return []Figure{{Name: "place in the list of sizes", Want: float64(want), Got: float64(slices.Index(names, got)), Unit: "sizes"}}, nil
}
