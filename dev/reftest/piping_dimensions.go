package reftest

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/internal/shop/catalog"
)

const dimensionFile = "piping/pipe_dimensions.csv"

// copied is how closely the catalogue repeats a table: to the rounding of a
// conversion between units.
const copied = 1e-9

func dimensionLaws() []Law {
	const topic, code = "Stocks", "internal/shop/catalog"
	return []Law{
		{Topic: topic, Name: "outside, wall, bore", Code: code + " Size", File: dimensionFile, Shelf: true, Figures: dimensions},
		{Topic: topic, Name: "roughness", Code: code + " Stock.Roughness", File: "piping/roughness.csv", Shelf: true, Figures: roughness},
		{Topic: topic, Name: "expansion and modulus", Code: code + " Material", File: "piping/expansion.csv", Shelf: true, Figures: material},
		{Topic: topic, Name: "leg constants", Code: code + " Material.Leg", File: bendFile, Shelf: true, Of: []string{"leg_formula"}, When: func(r Row) bool { return r.Expected != "92.2" }, Figures: legConstant},
		{Topic: topic, Name: "least bend radius", Code: code + " Stock.LeastRadius", File: bendFile, Shelf: true, Of: []string{"min_radius"}, Figures: leastRadius},
		{
			Topic: topic, Name: "least bend radius", Code: code + " Stock.LeastRadius", File: checksFile, Shelf: true, Of: []string{"bend"},
			Figures: func(r Row) ([]Figure, error) {
				s, z, err := sizeOf("copper-l", "1/2")
				return []Figure{figure("", r.Want, float64(s.LeastRadius(z))/inch, copied, "in")}, err
			},
		},
		{Topic: topic, Name: "threads", Code: code + " Thread", File: "piping/npt.csv", Shelf: true, Figures: thread},
		{
			Topic: topic, Name: "threads", Code: code + " Thread", File: checksFile, Shelf: true, Of: []string{"thread"},
			Figures: func(Row) ([]Figure, error) {
				th, ok := catalog.Builtin().Thread("npt", "1/2")
				if !ok {
					return nil, fmt.Errorf("no NPT 1/2")
				}
				return []Figure{
					{Name: "L1", Want: 0.320, Got: float64(th.HandTight) / inch, Allowed: 0.001, Unit: "in"},
					{Name: "L2", Want: 0.5337, Got: float64(th.Effective) / inch, Allowed: 0.001, Unit: "in"},
					{Name: "hand and three turns", Want: 0.534, Got: float64(th.MakeUp) / inch, Allowed: 0.001, Unit: "in"},
				}, nil
			},
		},
		{Topic: topic, Name: "take-outs", Code: code + " TakeOut", File: "piping/takeouts.csv", Shelf: true, Figures: takeOut},
	}
}

// sizeOf finds a stock and a size of it.
func sizeOf(stock, size string) (catalog.Stock, catalog.Size, error) {
	s, ok := catalog.Builtin().Stock(stock)
	if !ok {
		return s, catalog.Size{}, fmt.Errorf("no stock %q", stock)
	}
	z, ok := s.Size(size)
	if !ok {
		return s, z, fmt.Errorf("%s has no size %q", stock, size)
	}
	return s, z, nil
}

// how compares what the table and the shelf say of where the figure comes from.
func how(r Row, on cite.How) Figure { return word("how", string(r.How), string(on)) }

// shelfOf is the stock of the shelf for a stock of the dimension table.
func shelfOf(stock string) (string, bool) {
	id, ok := map[string]string{
		"steel_sch40": "steel-sch40", "steel_sch80": "steel-sch80", "steel_en10255_medium": "steel-en10255",
		"copper_K": "copper-k", "copper_L": "copper-l", "copper_M": "copper-m",
		"copper_en1057_thin": "copper-en1057-thin", "copper_en1057_thick": "copper-en1057-thick",
		"stainless_press": "stainless-press", "stainless_light": "stainless-light", "aluminium_metric": "aluminium-metric",
		"pe_al_pe": "pe-al-pe", "pe_al_pe_typical": "pe-al-pe", "pe_al_pe_metric": "pe-al-pe-metric",
		"hdpe_ips_sdr11": "hdpe-sdr11-inch", "hdpe_metric_sdr11": "hdpe-sdr11", "nylon_metric": "nylon-metric", "nylon_inch": "nylon-inch",
	}[stock]
	return id, ok
}

func dimensions(r Row) ([]Figure, error) {
	size := r.Cell["size"]
	for _, h := range catalog.Builtin().HoseLine(r.Cell["stock"]) {
		if h.Size == size {
			return []Figure{
				figure("outside", r.Num("od_mm"), 1e3*float64(h.Outside), copied, "mm"),
				figure("bore", r.Num("id_mm"), 1e3*float64(h.Bore), copied, "mm"),
				how(r, h.How),
			}, nil
		}
	}
	id, ok := shelfOf(r.Cell["stock"])
	if !ok {
		return nil, fmt.Errorf("no stock or hose %q", r.Cell["stock"])
	}
	if r.Cell["stock"] == "nylon_metric" && size == "10" && r.Cell["id_mm"] != "8" {
		size += "x" + r.Cell["id_mm"]
	}
	_, z, err := sizeOf(id, size)
	if err != nil {
		return nil, err
	}
	if r.Cell["stock"] == "pe_al_pe" && slices.Contains([]string{"1/2", "5/8", "3/4", "1"}, size) {
		return nil, unused("the least wall; the shelf has the typical bore where that was read")
	}
	return []Figure{
		figure("outside", r.Num("od_mm"), 1e3*float64(z.Outside), copied, "mm"),
		figure("wall", r.Num("wall_mm"), 1e3*float64(z.Wall), copied, "mm"),
		figure("bore", r.Num("id_mm"), 1e3*float64(z.Bore), copied, "mm"),
		how(r, z.How),
	}, nil
}

func roughness(r Row) ([]Figure, error) {
	place := map[string][2]string{
		"commercial steel, new": {"steel-sch40", "new"}, "carbon steel, lightly corroded": {"steel-sch40", "used"},
		"copper or brass, drawn, new": {"copper-l", "new"}, "copper, in use": {"copper-l", "used"},
		"aluminium, drawn, new": {"aluminium-metric", "new"}, "aluminium, in use": {"aluminium-metric", "used"},
		"stainless, new": {"stainless-press", "new"}, "pe_al_pe, hdpe, nylon, pvc, new": {"pe-al-pe", "new"},
	}
	at, ok := place[r.Quantity]
	if r.Quantity == "rubber hose, smooth bore" {
		return hoseRoughness(r)
	}
	if !ok {
		return nil, unused("no stock of the shelf in this state")
	}
	s, ok := catalog.Builtin().Stock(at[0])
	if !ok {
		return nil, fmt.Errorf("no stock %q", at[0])
	}
	span := s.Roughness
	if at[1] == "used" {
		if s.Used == nil {
			return nil, fmt.Errorf("%s has no roughness in use", at[0])
		}
		span = *s.Used
	}
	return spanFigures("", r, span), nil
}

func hoseRoughness(r Row) ([]Figure, error) {
	var figures []Figure
	for _, h := range catalog.Builtin().Hoses() {
		if strings.HasPrefix(h.Hose, "rubber") {
			figures = append(figures, spanFigures(h.Hose+" ", r, h.Roughness)...)
		}
	}
	return figures, nil
}

func spanFigures(of string, r Row, span catalog.Span) []Figure {
	return []Figure{
		figure(of+"roughness", r.Num("eps_mm"), 1e3*span.Value, copied, "mm"),
		figure(of+"low", r.Num("eps_low_mm"), 1e3*span.Low, copied, "mm"),
		figure(of+"high", r.Num("eps_high_mm"), 1e3*span.High, copied, "mm"),
		how(r, span.How),
	}
}

func material(r Row) ([]Figure, error) {
	id, ok := map[string]string{
		"copper C12200 (B31.9)": "copper", "carbon steel (B31.9)": "carbon-steel", "stainless austenitic (B31.9)": "stainless-steel",
		"aluminium (B31.9)": "aluminium", "pe 3406 hdpe (B31.9)": "hdpe", "pvc 1120 (B31.9)": "pvc", "cpvc 4120 (B31.9)": "cpvc",
		"abs 1210 (B31.9)": "abs", "pe_al_pe composite": "pe-al-pe", "pex plain": "pex", "nylon 11/12 plasticised": "nylon",
	}[r.Cell["material"]]
	if !ok {
		return nil, unused("the shelf takes the set of ASME B31.9 where it has one")
	}
	m, ok := catalog.Builtin().Material(id)
	if !ok {
		return nil, fmt.Errorf("no material %q", id)
	}
	figures := []Figure{figure("coefficient", r.Num("alpha_um_per_m_k"), 1e6*m.Alpha.Value, 1e-6, "1e-6/K"), how(r, m.Alpha.How)}
	if r.Cell["E_gpa"] != "" && m.Modulus != nil {
		figures = append(figures, figure("modulus", r.Num("E_gpa"), 1e-9*m.Modulus.Value, 1e-6, "GPa"))
	}
	return figures, nil
}

func legConstant(r Row) ([]Figure, error) {
	id, ok := map[string]string{
		"copper": "copper", "pe_al_pe": "pe-al-pe", "stainless_press": "stainless-steel", "steel": "carbon-steel",
		"aluminium": "aluminium", "hdpe": "hdpe", "nylon": "nylon", "pex plain": "pex",
	}[r.Cell["stock"]]
	if !ok {
		return nil, unused("no such material on the shelf")
	}
	m, ok := catalog.Builtin().Material(id)
	if !ok || m.Leg == nil {
		return nil, fmt.Errorf("%s has no leg constant", id)
	}
	return []Figure{figure("", r.Want, m.Leg.Value, copied, "1"), how(r, m.Leg.How)}, nil
}

func thread(r Row) ([]Figure, error) {
	kind := map[string]string{"NPT": "npt", "ISO7_R": "r", "ISO7_R_useful": "r"}[r.Cell["thread"]]
	th, ok := catalog.Builtin().Thread(kind, r.Cell["size"])
	if !ok {
		return nil, fmt.Errorf("no thread %s %s", kind, r.Cell["size"])
	}
	figures := []Figure{how(r, th.How)}
	for _, c := range []struct {
		column, name string
		got          float64
	}{
		{"tpi", "threads per inch", th.PerInch},
		{"pitch_mm", "pitch", float64(th.Pitch) * 1e3},
		{"E1_or_gauge_dia_in", "diameter", float64(th.GaugeDia) / inch},
		{"L1_or_gauge_len_in", "hand-tight", float64(th.HandTight) / inch},
		{"L2_or_useful_thread_in", "effective", float64(th.Effective) / inch},
		{"makeup_L1_plus_3turns_in", "make-up", float64(th.MakeUp) / inch},
	} {
		if r.Cell[c.column] != "" {
			// Five decimals of an inch as printed; the pitch is rounded to a micrometre.
			figures = append(figures, Figure{Name: c.name, Want: r.Num(c.column), Got: c.got, Allowed: 6e-5, Unit: "in"})
		}
	}
	return figures, nil
}

func takeOut(r Row) ([]Figure, error) {
	family := map[string]string{"threaded_mi_150": "threaded-150", "copper_solder": "copper-solder"}[r.Cell["family"]]
	kinds := map[string][]string{"elbow90_or_tee": {"elbow-90", "tee"}, "elbow90": {"elbow-90"}, "elbow45": {"elbow-45"}, "coupling_length": {"coupling"}}[r.Cell["fitting"]]
	ends := 1.0
	if r.Cell["fitting"] == "coupling_length" {
		ends = 2 // the table gives the whole length and the gap between the ends
	}
	var figures []Figure
	for _, kind := range kinds {
		to, ok := catalog.Builtin().TakeOut(family, kind, r.Cell["size"])
		if !ok {
			return nil, fmt.Errorf("no take-out %s %s %s", family, kind, r.Cell["size"])
		}
		figures = append(
			figures,
			figure(kind+" take-out", r.Num("takeout_mm"), 1e3*ends*float64(to.TakeOut), copied, "mm"),
			figure(kind+" centre to end", r.Num("centre_to_end_mm"), 1e3*ends*float64(to.CentreEnd), copied, "mm"),
			Figure{Name: kind + " insertion", Want: 25.4 * r.Num("insertion_in"), Got: 1e3 * float64(to.Insert), Allowed: 0.006, Unit: "mm"},
			how(r, to.How),
		)
	}
	return figures, nil
}
