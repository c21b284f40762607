package catalog

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// Formulas lists what can be asked of the built-in shelves by `calc`.
func Formulas() []formula.Formula { return []formula.Formula{threadFormula(), lineFormula()} }

// threadFormula looks a pipe thread up.
func threadFormula() formula.Formula {
	length := func(key, words string) formula.Symbol {
		return formula.Symbol{Key: key, Kind: unit.KindLength, Words: words}
	}
	return formula.Formula{
		Name:  "thread",
		Title: "figures of a taper pipe thread",
		Law:   "table of the standard; make-up = hand-tight engagement + three turns",
		Range: "1/8 to 2 in; other sizes are refused. NPT and R only look alike: they do not mate",
		Cite: []cite.Ref{
			{Source: "b1.20.1", Place: "table 2", How: cite.Read},
			{Source: "iso7-1", Place: "gauge diameter and gauge length", How: cite.Read},
		},
		In: []formula.Symbol{
			{Key: "size", Kind: unit.KindWord, Words: "nominal size, such as 1/2"},
			{Key: "kind", Kind: unit.KindWord, Words: "kind of thread", Choices: []string{"npt", "r"}, Word: "npt"},
		},
		Out: []formula.Symbol{
			{Key: "threads_per_inch", Kind: unit.KindNumber, Words: "threads per inch"},
			length("pitch_m", "pitch"),
			length("pitch_diameter_m", "NPT: pitch diameter at the hand-tight plane, E1; R: gauge diameter"),
			length("hand_tight_m", "NPT: hand-tight engagement, L1; R: gauge length"),
			length("effective_m", "NPT: effective thread, L2; R: useful thread"),
			length("make_up_m", "make-up: hand tight and three turns (NPT)"),
		},
		Eval: evalThread,
	}
}

func evalThread(in formula.Values) (formula.Values, error) {
	c := Builtin()
	kind, size := strings.ToLower(in.GetWord("kind", "npt")), in.GetWord("size", "")
	t, ok := c.Thread(kind, size)
	if !ok {
		var sizes []string
		for _, r := range c.Threads() {
			if r.Kind == kind {
				sizes = append(sizes, r.Size)
			}
		}
		if len(sizes) == 0 {
			return formula.Values{}, fmt.Errorf("kind: read %q, want npt or r", kind)
		}
		return formula.Values{}, fmt.Errorf("size: read %q, want one of %s%s", size, strings.Join(sizes, ", "), near(unit.Nearest(bare(size), sizes)))
	}
	out := formula.Num(map[string]float64{
		"threads_per_inch": t.PerInch, "pitch_m": float64(t.Pitch), "pitch_diameter_m": float64(t.GaugeDia),
		"hand_tight_m": float64(t.HandTight), "effective_m": float64(t.Effective),
	})
	if t.MakeUp > 0 {
		out.Put("make_up_m", float64(t.MakeUp))
	}
	return out, nil
}

// lineFormula looks a size of a stock up, with its rating.
func lineFormula() formula.Formula {
	room := float64(unit.Celsius(20))
	return formula.Formula{
		Name:  "line",
		Title: "size of a line and its greatest working pressure at a temperature",
		Law:   "lowest of the ratings of line and joint, each linear in temperature between its points",
		Range: "to the last temperature of the governing table; beyond it, and for stocks not fit for compressed gas, refused. The usual joint of the stock is taken",
		Cite: []cite.Ref{
			{Source: "csa-b137.9", Place: "clause 1.1", How: cite.Read},
			{Source: "ashrae-fundamentals", Place: "steel pipe and soldered joints", How: cite.Read},
			{Source: "copper-handbook", Place: "table 14.3c", How: cite.Read},
			{Source: "osha-pvc1990", Place: "plastics that shatter", How: cite.Read},
		},
		In: []formula.Symbol{
			{Key: "stock", Kind: unit.KindWord, Words: "stock, such as copper-l or pe-al-pe, or a hose, such as hose-rubber"},
			{Key: "size", Kind: unit.KindWord, Words: "size, such as 3/4, 22 mm, 20 x 2.0 or DN20"},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature of the line", Default: &room},
		},
		Out: []formula.Symbol{
			{Key: "outside_m", Kind: unit.KindLength, Words: "outside diameter"},
			{Key: "bore_m", Kind: unit.KindLength, Words: "bore"},
			{Key: "wall_m", Kind: unit.KindLength, Words: "wall"},
			{Key: "rating_Pa_g", Kind: unit.KindGauge, Words: "greatest working pressure"},
			{Key: "basis", Kind: unit.KindWord, Words: "set by"},
			{Key: "joining", Kind: unit.KindWord, Words: "joined by"},
			{Key: "source", Kind: unit.KindWord, Words: "from"},
		},
		Eval: evalLine,
	}
}

func evalLine(in formula.Values) (formula.Values, error) {
	c := Builtin()
	id, name := in.GetWord("stock", ""), in.GetWord("size", "")
	temp := unit.Temperature(in.Get("temp", float64(unit.Celsius(20))))
	s, ok := c.Stock(id)
	if hoses := c.HoseLine(id); !ok && len(hoses) > 0 {
		return evalHose(hoses, name, temp)
	}
	if !ok {
		return formula.Values{}, fmt.Errorf("stock: read %q, want one of %s%s", id, strings.Join(c.IDs(Stocks), ", "), near(c.Nearest(Stocks, id)))
	}
	z, ok := s.Size(name)
	if !ok && s.FitForAir != "no" {
		return formula.Values{}, noSize(s, name)
	}
	out := formula.Num(map[string]float64{
		"outside_m": float64(z.Outside), "bore_m": float64(z.Bore), "wall_m": float64(z.Wall),
	})
	p, basis, ref, ok := s.Rating(name, temp, "")
	if ok {
		out.Put("rating_Pa_g", float64(p))
	} else {
		_, _, _, cool := s.Rating(name, unit.Celsius(20), "")
		switch {
		case s.FitForAir == "no":
			return formula.Values{}, fmt.Errorf("stock: refused: %s (%s)", basis, ref.Text())
		case cool:
			return formula.Values{}, fmt.Errorf("temp: refused: %s (%s)", basis, ref.Text())
		}
		// A size that nobody rates still has its measures; basis says what is missing.
	}
	out.PutWord("basis", basis)
	out.PutWord("joining", s.Joining[0])
	out.PutWord("source", ref.Text())
	return out, nil
}

// evalHose looks a size of a hose up: its rating is one figure, to the greatest
// temperature of its standard.
func evalHose(hoses []Hose, name string, temp unit.Temperature) (formula.Values, error) {
	var s Stock
	for _, h := range hoses {
		s.Sizes = append(s.Sizes, Size{Size: h.Size, Also: h.Also, Outside: h.Outside, Bore: h.Bore, Wall: (h.Outside - h.Bore) / 2})
	}
	z, ok := s.Size(name)
	if !ok {
		return formula.Values{}, noSize(s, name)
	}
	h := hoses[slices.Index(s.Names(), z.Size)]
	if temp.Celsius() > h.MaxTemp+1e-9 {
		return formula.Values{}, fmt.Errorf("temp: refused: %s is not used above %g °C (%s)", h.Words, h.MaxTemp, h.Text())
	}
	out := formula.Num(map[string]float64{
		"outside_m": float64(z.Outside), "bore_m": float64(z.Bore), "wall_m": float64(z.Wall), "rating_Pa_g": float64(h.Rating),
	})
	out.PutWord("basis", h.Words)
	out.PutWord("source", h.Text())
	return out, nil
}

func noSize(s Stock, name string) error {
	return fmt.Errorf("size: read %q, want one of %s%s", name, strings.Join(s.Names(), ", "), near(s.Nearest(name)))
}

// near ends a message with the nearest valid word, if there is one.
func near(word string) string {
	if word == "" {
		return ""
	}
	return "; nearest is " + word
}
