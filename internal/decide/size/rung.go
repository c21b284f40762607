package size

import (
	"context"
	"fmt"

	"dropleg/engine/element"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// rung is the study with every choice at its option of one number, or at its last: so the
// laws and the take-off of all options come from the model itself, and a branching has the
// sizes of its lines.
type rung struct {
	study *study.Study
	model *model.Model
	// By element of the study as it stands.
	laws  []element.Law
	rts   []float64
	bores []float64
}

// climb builds the rungs.
func (w *work) climb(ctx context.Context) error {
	n := 1
	for _, c := range w.choices {
		n = max(n, len(c.options))
	}
	for k := range n {
		var edits []job.Edit
		for _, c := range w.choices {
			if k < len(c.options) {
				c.options[k].rung = k
			}
			edits = append(edits, c.options[min(k, len(c.options)-1)].edits...)
		}
		s := w.study
		if len(edits) > 0 {
			var err error
			if s, err = s.After(job.AllOf("", edits...)); err != nil {
				return fmt.Errorf("sizes by number %d: %w", k, err)
			}
		}
		r, err := w.rung(ctx, s)
		if err != nil {
			return err
		}
		w.rungs = append(w.rungs, r)
	}
	return nil
}

func (w *work) rung(ctx context.Context, s *study.Study) (rung, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return rung{}, err
	}
	r := rung{study: s, model: m}
	n := len(w.model.Elements())
	r.laws, r.rts, r.bores = make([]element.Law, n), make([]float64, n), make([]float64, n)
	at := namesOf(m)
	for name, i := range namesOf(w.model) {
		if k, ok := at[name]; ok { // what loses nothing in this size is no element
			r.laws[i], r.rts[i] = m.Law(k)
			r.bores[i] = float64(m.Elements()[k].Bore)
		}
	}
	return r, nil
}

// elementName tells an element across studies.
type elementName struct {
	id, outlet, tool job.ID
	leg, kind        string
	nth              int
}

// nameOf is the name of an element that is the first of its like, as lines are.
func nameOf(e *model.Element) elementName {
	return elementName{id: e.ID, outlet: e.Outlet, tool: e.Tool, leg: e.Leg, kind: e.Kind}
}

func namesOf(m *model.Model) map[elementName]int {
	out := make(map[elementName]int, len(m.Elements()))
	for i := range m.Elements() {
		name := nameOf(&m.Elements()[i])
		for {
			if _, taken := out[name]; !taken {
				break
			}
			name.nth++
		}
		out[name] = i
	}
	return out
}
