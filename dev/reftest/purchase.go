package reftest

import (
	"context"
	"encoding/json"
	"errors"

	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/cut"
)

// leastPrice is the optimum that a case states.
type leastPrice struct {
	Price float64 `json:"least_price"`
}

// toACoin is how closely a least price is met, as a share: exactly.
const toACoin = 1e-12

var errUnproven = errors.New("the answer is not proven")

// leastOf reads a case into an instance, and gives the optimum that it states.
func leastOf(r Row, instance any) (float64, error) {
	text := []byte(r.Cell["text"])
	var want leastPrice
	err := errors.Join(json.Unmarshal(text, instance), json.Unmarshal(text, &want))
	return want.Price, err
}

// leastFigures hold a price that was found against the optimum; one that is not proven is
// no answer.
func leastFigures(want, got float64, proven bool) ([]Figure, error) {
	if !proven {
		return nil, errUnproven
	}
	return []Figure{figure("least price", want, got, toACoin, "money")}, nil
}

func basketFigures(r Row) ([]Figure, error) {
	var q buy.Instance
	want, err := leastOf(r, &q)
	if err != nil {
		return nil, err
	}
	question, err := q.Question()
	if err != nil {
		return nil, err
	}
	b, err := buy.Cheapest(context.Background(), question)
	if err != nil {
		return nil, err
	}
	return leastFigures(want, b.Answer("").LeastPrice, b.Proven)
}

func cuttingFigures(r Row) ([]Figure, error) {
	var q cut.Instance
	want, err := leastOf(r, &q)
	if err != nil {
		return nil, err
	}
	question, err := q.Question()
	if err != nil {
		return nil, err
	}
	p, err := cut.Solve(context.Background(), question, nil)
	if err != nil {
		return nil, err
	}
	return leastFigures(want, p.Answer("", question).LeastPrice, p.Proven)
}
