package reftest

import (
	"fmt"
	"strings"

	"dropleg/internal/shop/catalog"
)

const fittingFile = "piping/fittings_k.csv"

func fittingLaws() []Law {
	const topic, code = "Fittings", "internal/shop/catalog"
	return []Law{
		{
			Topic: topic, Name: "K by Le/D and fT against the printed K", Code: code + " Loss", File: fittingFile,
			Of: []string{"K, "}, When: func(r Row) bool { return printedK(r) && !society(r) }, Figures: kOfFitting,
			Because: []Because{{
				When: of("K, gate valve open"), Abs: 0.02,
				Why: "printed 0.15 at 1-1/2 in, where 8 × 0.021 is 0.168: the print repeats the figure of 2 in",
			}},
		},
		{
			Topic: topic, Name: "K of threaded iron", Code: code + " Loss", File: fittingFile, Shelf: true,
			Of: []string{"K, "}, When: func(r Row) bool { return printedK(r) && society(r) }, Figures: kOfFitting,
		},
		{
			Topic: topic, Name: "Le/D", Code: code + " LawRow", File: fittingFile, Shelf: true, Of: []string{"Le_over_D"}, Figures: leOverD,
		},
		{
			Topic: topic, Name: "fT, the friction factor of full turbulence", Code: code + " Catalog.FT", File: fittingFile, Shelf: true,
			Of: []string{"fT"}, Figures: turbulent,
		},
		{
			Topic: topic, Name: "K of one fitting", Code: code + " Loss", File: checksFile, Of: []string{"fitting K"},
			Figures: func(r Row) ([]Figure, error) {
				joining := "solder"
				if strings.Contains(r.Inputs, "threaded") {
					joining = "thread"
				}
				got, err := lossOf("elbow-90", "3/4", joining)
				return []Figure{{Want: r.Want, Got: got.Through, Allowed: 0.01, Unit: "1"}}, err
			},
		},
	}
}

// fittingOf is the kind of the shelf, and the leg, for a fitting of the table.
func fittingOf(fitting string) (kind string, branch, ok bool) {
	kind, ok = map[string]string{
		"elbow90 standard": "elbow-90", "elbow45 standard": "elbow-45", "tee run": "tee", "tee branch": "tee",
		"gate valve open": "gate-valve", "globe valve open": "globe-valve", "ball valve full bore": "ball-valve",
		"elbow90 threaded": "elbow-90", "elbow45 threaded": "elbow-45", "tee run threaded": "tee", "tee branch threaded": "tee",
		"globe threaded": "globe-valve", "gate threaded": "gate-valve",
	}[fitting]
	return kind, strings.HasPrefix(fitting, "tee branch"), ok
}

func printedK(r Row) bool {
	_, _, ok := fittingOf(r.Cell["fitting"])
	return ok && r.Cell["size"] != "all"
}

// society tells the rows of threaded iron, which the shelf holds by size.
func society(r Row) bool { return strings.Contains(r.Source, "(society K factors)") }

func lossOf(kind, size, joining string) (catalog.Loss, error) {
	c := catalog.Builtin()
	k, ok := c.Kind(kind)
	if !ok {
		return catalog.Loss{}, fmt.Errorf("no kind %q", kind)
	}
	_, z, err := sizeOf("steel-sch40", size)
	if err != nil {
		return catalog.Loss{}, err
	}
	loss, ok := c.Loss(k.Law, joining, z.Bore)
	if !ok {
		return loss, fmt.Errorf("%s %s has no loss", kind, size)
	}
	return loss, nil
}

// kOfFitting allows, where K is worked from Le/D and fT, half a unit of the last
// digit of both prints: the table gives K to two figures and fT to three decimals.
func kOfFitting(r Row) ([]Figure, error) {
	kind, branch, _ := fittingOf(r.Cell["fitting"])
	joining, allowed := "thread", copied*r.Want
	if !society(r) {
		joining = "solder"
		unit := 0.01
		if r.Want > 5 {
			unit = 0.1
		}
		allowed = unit/2 + r.Want*0.0005/0.019
	}
	loss, err := lossOf(kind, r.Cell["size"], joining)
	got := loss.Through
	if branch {
		got = loss.Branch
	}
	return []Figure{{Want: r.Want, Got: got, Allowed: allowed, Unit: "1"}, how(r, loss.Ref.How)}, err
}

func leOverD(r Row) ([]Figure, error) {
	kinds := map[string][]string{
		"elbow90 standard": {"elbow-90", "drop-elbow"}, "elbow45 standard": {"elbow-45"}, "tee run": {"tee"}, "tee branch": {"tee", "drip-leg"},
		"gate valve open": {"gate-valve"}, "globe valve open": {"globe-valve"}, "ball valve full bore": {"ball-valve"},
		"pipe bend 90, r/D=6": {"bend"}, "in-line ball check": {"check-valve"}, "elbow90 street": {"wall-block"},
	}[r.Cell["fitting"]]
	if kinds == nil {
		return nil, unused("no kind of the shelf")
	}
	var figures []Figure
	for _, id := range kinds {
		k, ok := catalog.Builtin().Kind(id)
		le := k.Law.LeOverD
		if id == "tee" && r.Cell["fitting"] == "tee branch" {
			le = k.Law.BranchLe
		}
		if !ok || le == nil {
			return nil, fmt.Errorf("%s has no Le/D", id)
		}
		figures = append(figures, figure(id, r.Want, *le, copied, "1"))
	}
	return figures, nil
}

func turbulent(r Row) ([]Figure, error) {
	sizes := []string{r.Cell["size"]}
	if r.Cell["size"] == "2-1/2 to 3" {
		sizes = []string{"2-1/2", "3"}
	}
	var figures []Figure
	for _, size := range sizes {
		_, z, err := sizeOf("steel-sch40", size)
		if err != nil {
			return nil, err
		}
		ft, ref := catalog.Builtin().FT(z.Bore)
		figures = append(figures, figure(size, r.Want, ft, copied, "1"), word("source", "fof-fT", string(ref.Source)))
	}
	if len(figures) == 0 {
		return nil, fmt.Errorf("%s: no size", r.ID)
	}
	return figures, nil
}
