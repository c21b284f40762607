package server

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"dropleg/engine/unit"
)

// mostTyped is how long a quantity may be that a person types.
const mostTyped = 200

// getQuantity reads what a person typed: ?kind=length&text=12ft6&units=us.
func (s *Server) getQuantity(w http.ResponseWriter, r *http.Request) {
	q := &query{values: r.URL.Query()}
	kind := q.kind()
	system := unit.System(q.word("units", systemWords()...))
	text := q.values.Get("text")
	if len(text) > mostTyped {
		q.wrong = append(q.wrong, fmt.Sprintf("text: read %d characters, want at most %d", len(text), mostTyped))
	}
	if q.refused(w) {
		return
	}
	if system == "" {
		system = unit.Metric
	}
	answer, err := understand(text, kind, system)
	var bad *unit.ParseError
	switch {
	case errors.As(err, &bad):
		bad = bad.In(system)
		tell(w, Fault{
			Title: "this is no " + kind.Words(), Status: http.StatusUnprocessableEntity, Detail: bad.Error(),
			Problems: []Problem{{Path: "text", Read: fmt.Sprintf("%q", bad.Read), Want: bad.Want, Nearest: bad.Nearest, Where: []string{}}},
		})
	case err != nil:
		failWith(w, r, err)
	default:
		send(w, r, answer)
	}
}

// understand reads a text and says in words what it was taken for. A flow keeps the
// reference that it was stated at.
func understand(text string, kind unit.Kind, system unit.System) (Quantity, error) {
	if kind == unit.KindFlow {
		f, err := unit.ParseFlow(text)
		if err != nil {
			return Quantity{}, err
		}
		if f.Mass {
			return Quantity{}, &unit.ParseError{Read: text, Want: "a volume of free air in a time, such as 18 cfm or 500 L/min", Nearest: "cfm"}
		}
		words := system.Text(kind, f.Value, unit.Env{})
		if f.Reference != unit.RefJob {
			words += " (" + string(f.Reference) + ")"
		}
		return Quantity{SI: f.Value, Words: words, Reference: string(f.Reference), Note: f.Note}, nil
	}
	si, err := unit.Parse(text, kind, unit.Env{})
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{SI: si, Words: system.Text(kind, si, unit.Env{})}, nil
}

// kind reads the word of a kind of quantity: "length", "gauge pressure".
func (q *query) kind() unit.Kind {
	read := strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(q.values.Get("kind")))
	var words []string
	for _, k := range unit.Kinds() {
		if k.Words() == read {
			return k
		}
		words = append(words, k.Words())
	}
	q.complain("kind", read, words)
	return unit.KindNumber
}
