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

func basketFigures(r Row) ([]Figure, error) {
	var q buy.Instance
	var want leastPrice
	if err := errors.Join(json.Unmarshal([]byte(r.Cell["text"]), &q), json.Unmarshal([]byte(r.Cell["text"]), &want)); err != nil {
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
	if !b.Proven {
		return nil, errUnproven
	}
	return []Figure{figure("least price", want.Price, b.Answer("").LeastPrice, toACoin, "money")}, nil
}

func cuttingFigures(r Row) ([]Figure, error) {
	var q cut.Instance
	var want leastPrice
	if err := errors.Join(json.Unmarshal([]byte(r.Cell["text"]), &q), json.Unmarshal([]byte(r.Cell["text"]), &want)); err != nil {
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
	if !p.Proven {
		return nil, errUnproven
	}
	return []Figure{figure("least price", want.Price, p.Answer("", question).LeastPrice, toACoin, "money")}, nil
}
