package reftest

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

const ratingFile = "piping/ratings.csv"

func ratingLaws() []Law {
	const topic, code = "Ratings", "internal/shop/catalog"
	return []Law{
		{
			Topic: topic, Name: "points of pressure against temperature", Code: code + " Rating", File: ratingFile, Shelf: true,
			When: func(r Row) bool { return r.Cell["pressure_kpa"] != "" }, Figures: ratingPoint,
		},
		{
			Topic: topic, Name: "nylon by temperature", Code: code + " Stock.Rating", File: ratingFile, Shelf: true,
			Of: []string{"nylon temperature factor"}, When: func(r Row) bool { return r.Cell["pressure_kpa"] == "" }, Figures: nylonFactor,
		},
		{
			Topic: topic, Name: "stocks not fit for air", Code: code + " Stock.Rating", File: ratingFile, Shelf: true,
			When: func(r Row) bool { return r.Cell["fit_for_air"] == "no" }, Figures: notFit,
		},
		{
			Topic: topic, Name: "the rating that governs", Code: code + " Stock.Rating", File: checksFile,
			Of: []string{"rating", "interpolation"}, Figures: governing,
		},
	}
}

// line is a stock of the shelf joined in one way, in some sizes; none: all.
type line struct {
	stock, joining string
	sizes          []string
}

// ratedLines says of which lines of the shelf a row of ratings.csv speaks.
func ratedLines(r Row) []line {
	size := r.Cell["size"]
	first, _, _ := strings.Cut(size, " ")
	switch r.Cell["stock"] {
	case "pe_al_pe":
		return []line{{"pe-al-pe", "compression", nil}, {"pe-al-pe-metric", "compression", nil}}
	case "copper_M annealed/brazed":
		return []line{{"copper-m", "braze", []string{size}}}
	case "copper_M drawn":
		return []line{{"copper-m", "solder", []string{size}}}
	case "copper_L annealed/brazed":
		return []line{{"copper-l", "braze", []string{size}}}
	case "copper_K annealed/brazed":
		return []line{{"copper-k", "braze", []string{size}}}
	case "solder joint Sb5 95-5 tin-antimony (B31.9)":
		sizes := []string{"1/4", "3/8", "1/2", "5/8", "3/4", "1"}
		if first == "1-1/4" {
			sizes = []string{"1-1/4", "1-1/2", "2"}
		}
		return []line{{"copper-l", "solder", sizes}, {"copper-k", "solder", sizes}}
	case "copper_en1057":
		id := "copper-en1057-thin"
		if _, z, err := sizeOf(id, first); err != nil || !slices.Contains(z.Also, strings.ReplaceAll(size, " ", "")) {
			id = "copper-en1057-thick"
		}
		return []line{{id, "solder", []string{first}}}
	case "steel_sch40 threaded":
		return []line{{"steel-sch40", "thread", []string{size}}}
	case "steel_sch80 threaded":
		return []line{{"steel-sch80", "thread", []string{size}}}
	case "malleable iron fitting class 150":
		return []line{{"steel-sch40", "thread", []string{"1/2", "2"}}, {"steel-sch80", "thread", []string{"1/2", "2"}}}
	case "steel EN 10255 with EN 10242 fittings":
		return []line{{"steel-en10255", "thread", []string{"1/2", "3"}}}
	case "stainless_press":
		return []line{{"stainless-press", "press", nil}}
	case "aluminium_metric":
		return []line{{"aluminium-metric", "collet", nil}}
	case "hdpe_metric_sdr11 PE100":
		return []line{{"hdpe-sdr11", "fusion", nil}, {"hdpe-sdr11-inch", "fusion", nil}}
	case "nylon_metric PA12 plasticised":
		return []line{{"nylon-metric", "push-in", []string{size}}}
	case "nylon_inch SAE J844":
		return []line{{"nylon-inch", "", nil}}
	}
	return nil
}

// ratingPoint looks for the row's point among the ratings that speak of the line.
func ratingPoint(r Row) ([]Figure, error) {
	lines := ratedLines(r)
	if lines == nil {
		return nil, unused("the shelf leans on another row for this stock or joint (piping.md: the lower governs)")
	}
	var figures []Figure
	for _, l := range lines {
		s, ok := catalog.Builtin().Stock(l.stock)
		if !ok {
			return nil, fmt.Errorf("no stock %q", l.stock)
		}
		sizes := l.sizes
		if sizes == nil {
			sizes = s.Names()
		}
		for _, size := range sizes {
			z, ok := s.Size(size)
			if !ok {
				return nil, fmt.Errorf("%s has no size %q", l.stock, size)
			}
			p, point := nearestPoint(s, z, l.joining, r.Num("temp_c"), r.Num("pressure_kpa"))
			name := l.stock + " " + size
			figures = append(figures, figure(name, r.Num("pressure_kpa"), p, copied, "kPa"), word(name+" how", string(r.How), string(point.How)))
		}
	}
	return figures, nil
}

// nearestPoint is the rated pressure, kPa, at the temperature that lies nearest to
// the one looked for, among the ratings of the size and the joining.
func nearestPoint(s catalog.Stock, z catalog.Size, joining string, tempC, kPa float64) (float64, catalog.Rating) {
	best, from := math.NaN(), catalog.Rating{}
	for _, rating := range slices.Concat(z.Ratings, s.Ratings) {
		speaks := (len(rating.Joining) == 0 || joining == "" || slices.Contains(rating.Joining, joining)) &&
			(len(rating.Sizes) == 0 || slices.Contains(rating.Sizes, z.Size))
		for i, t := range rating.TempC {
			p := float64(rating.Pressure[i]) / 1e3
			if speaks && math.Abs(t-tempC) < 0.05 && !(math.Abs(p-kPa) >= math.Abs(best-kPa)) {
				best, from = p, rating
			}
		}
	}
	return best, from
}

// nylonFactor multiplies the 20 °C rating of 6 mm tube.
func nylonFactor(r Row) ([]Figure, error) {
	if strings.Contains(r.Quantity, "(read)") {
		return nil, unused("another maker's factors: 0.80 at 40 °C read against 0.72 recalled on the shelf")
	}
	factor, ok := number(strings.TrimPrefix(r.Cell["fit_for_air"], "factor "))
	s, found := catalog.Builtin().Stock("nylon-metric")
	if !ok || !found {
		return nil, fmt.Errorf("%s: no factor or no stock", r.ID)
	}
	base, _, _, okBase := s.Rating("6", unit.Celsius(20), "")
	p, _, _, okAt := s.Rating("6", unit.Celsius(r.Num("temp_c")), "")
	if !okBase || !okAt {
		return nil, fmt.Errorf("%s: refused", r.ID)
	}
	return []Figure{figure("factor", factor, float64(p/base), copied, "1")}, nil
}

func notFit(r Row) ([]Figure, error) {
	var figures []Figure
	for _, id := range []string{"pvc", "cpvc", "abs", "pex"} {
		if !strings.Contains(strings.ReplaceAll(r.Cell["stock"], "cpvc", "c-pvc"), strings.ReplaceAll(id, "cpvc", "c-pvc")) {
			continue
		}
		s, ok := catalog.Builtin().Stock(id)
		if !ok {
			return nil, fmt.Errorf("no stock %q", id)
		}
		_, _, _, rated := s.Rating(s.Sizes[0].Size, unit.Celsius(20), "")
		figures = append(figures, word(id, "no", s.FitForAir), word(id+" rated", "false", fmt.Sprint(rated)))
	}
	if len(figures) == 0 {
		return nil, unused("no such stock on the shelf")
	}
	return figures, nil
}

// governing asks for the rating of a whole line, as a job does.
func governing(r Row) ([]Figure, error) {
	type ask struct {
		stock, size, joining string
		tempC                float64
	}
	a, ok := map[string]ask{
		"checks 115": {"pe-al-pe", "3/4", "", 71},
		"checks 117": {"pe-al-pe", "3/4", "", 90},
		"checks 118": {"pvc", "1/2", "", 20},
		"checks 119": {"copper-m", "3/4", "braze", (100.0 - 32) / 1.8},
		"checks 120": {"copper-l", "3/4", "solder", (150.0 - 32) / 1.8},
	}[r.ID]
	if r.ID == "checks 157" {
		s, z, err := sizeOf("steel-sch40", "1/2")
		p, _ := nearestPoint(s, z, "thread", 93.3, 265*psi/1e3)
		return []Figure{{Want: r.Want, Got: p * 1e3 / psi, Allowed: lastDigit(r.Expected) / 2, Unit: r.Unit}}, err
	}
	if !ok {
		return nil, fmt.Errorf("%s: the line is not known", r.ID)
	}
	s, found := catalog.Builtin().Stock(a.stock)
	if !found {
		return nil, fmt.Errorf("no stock %q", a.stock)
	}
	p, _, _, rated := s.Rating(a.size, unit.Celsius(a.tempC), a.joining)
	switch {
	case r.Expected == "refuse":
		return []Figure{word("rated", "false", fmt.Sprint(rated))}, nil
	case !rated:
		return nil, fmt.Errorf("%s: refused", r.ID)
	case r.Unit == "kPa":
		return []Figure{{Want: r.Want, Got: float64(p) / 1e3, Allowed: 1, Unit: "kPa"}}, nil
	}
	return []Figure{{Want: r.Want, Got: float64(p) / psi, Allowed: lastDigit(r.Expected) / 2, Unit: r.Unit}}, nil
}
