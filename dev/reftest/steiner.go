package reftest

import (
	"context"
	"encoding/json"
	"errors"

	"dropleg/internal/decide/route"
)

func treeFigures(r Row) ([]Figure, error) {
	var q route.Instance
	var want struct {
		Length float64 `json:"least_length"`
	}
	text := []byte(r.Cell["text"])
	if err := errors.Join(json.Unmarshal(text, &q), json.Unmarshal(text, &want)); err != nil {
		return nil, err
	}
	a, err := q.Solve(context.Background(), nil)
	if err != nil {
		return nil, err
	}
	if !a.Proven {
		return nil, errUnproven
	}
	return []Figure{figure("least length", want.Length, a.Least, toACoin, "")}, nil
}
