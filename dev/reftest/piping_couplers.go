package reftest

import (
	"fmt"
	"strings"

	"dropleg/internal/shop/catalog"
)

func couplerLaws() []Law {
	const topic, code = "Couplers", "internal/shop/catalog"
	return []Law{
		{
			Topic: topic, Name: "C and b, estimated from the bore", Code: code + " Coupler", File: "piping/couplers.csv", Shelf: true,
			When: func(r Row) bool { return r.Cell["C_dm3_s_bar"] != "" }, Figures: coupler,
		},
		{Topic: topic, Name: "which plug mates", Code: code + " Mates", File: "piping/coupler_mates.csv", Shelf: true, Figures: mates},
	}
}

func coupler(r Row) ([]Figure, error) {
	id := map[string]string{
		"industrial/ISO 6150 B 1/4": "industrial-1/4", "industrial/ISO 6150 B 3/8": "industrial-3/8",
		"industrial/ISO 6150 B 1/2": "industrial-1/2", "wide 7.2-7.8 mm 1/4-1/2": "euro-7.2",
	}[r.Cell["profile"]+" "+r.Cell["body_size_in"]]
	k, ok := catalog.Builtin().Coupler(id)
	if !ok {
		return nil, fmt.Errorf("no coupler %q", id)
	}
	return []Figure{
		figure("C", r.Num("C_dm3_s_bar"), 1e8*float64(k.C), copied, "dm3/(s.bar)"),
		figure("b", r.Num("b"), k.B, copied, "1"),
		how(r, k.How),
	}, nil
}

// profileIDs are the couplers of the shelf that a name of the table stands for.
func profileIDs(name string) []string {
	return map[string][]string{
		"industrial 1/4": {"industrial-1/4"}, "industrial 3/8": {"industrial-3/8"}, "industrial 1/2": {"industrial-1/2"},
		"automotive 1/4": {"automotive-1/4"}, "lever/pinch 1/4": {"lever-1/4"}, "ISO 6150 B smallest": {"iso6150-b-12"},
		"wide 7.2-7.8 mm": {"euro-7.2"}, "ISO 6150 B": {"iso6150-b-12", "iso6150-b-15", "industrial-1/2"}, "ISO 6150 C": {"iso6150-c"},
		"high-flow": {"high-flow-1/4"}, "European 7.2 mm": {"euro-7.2"}, "European 5.5 mm": {"euro-5.5"},
		"universal multi-profile socket":                  {"universal-1/4"},
		"industrial 1/4, automotive 1/4, lever/pinch 1/4": {"industrial-1/4", "automotive-1/4", "lever-1/4"},
	}[name]
}

func mates(r Row) ([]Figure, error) {
	if strings.Contains(r.Cell["socket"], "thread") {
		return nil, unused("threads, not couplers")
	}
	var figures []Figure
	for _, socket := range profileIDs(r.Cell["socket"]) {
		for _, plug := range profileIDs(r.Cell["plug"]) {
			got, ref := catalog.Builtin().Mates(socket, plug)
			name := plug + " into " + socket
			figures = append(figures, word(name, strings.ReplaceAll(r.Expected, "_", "-"), got), word(name+" how", string(r.How), string(ref.How)))
		}
	}
	if len(figures) == 0 {
		return nil, fmt.Errorf("%s: no such couplers", r.ID)
	}
	return figures, nil
}
