package cut

import (
	"fmt"
	"math"
)

// Instance is a bare question as a document, without a job: pieces to cut and lengths to cut them from.
type Instance struct {
	Title  string  `json:"title"`
	Kerf   float64 `json:"kerf_mm"`
	Trim   float64 `json:"end_trim_mm"`
	Stocks []struct {
		Length    float64 `json:"length_mm"`
		Price     float64 `json:"price"`
		Available *int    `json:"available"`
	} `json:"stocks"`
	Pieces []struct {
		Length float64 `json:"length_mm"`
		Count  int     `json:"count"`
	} `json:"pieces"`
}

// Question is the instance as it is solved. The error says which figure cannot be used.
func (b *Instance) Question() (Question, error) {
	var bad error
	tenths := func(what string, mm float64) Length {
		l := math.Round(mm * 10)
		if !(math.Abs(mm*10-l) < 1e-6) || math.Abs(l) > 1e12 {
			bad = fmt.Errorf("%s: read %g; wanted mm, to a tenth", what, mm)
			return 0
		}
		return Length(l)
	}
	q := Question{Kerf: tenths("kerf_mm", b.Kerf), EndTrim: tenths("end_trim_mm", b.Trim)}
	for i, s := range b.Stocks {
		price, err := hundredths(s.Price)
		if err != nil {
			return q, fmt.Errorf("stocks[%d].price: %w", i, err)
		}
		what := fmt.Sprintf("stocks[%d].length_mm", i)
		q.Stocks = append(q.Stocks, Stock{ID: fmt.Sprintf("stock-%d", i+1), Length: tenths(what, s.Length), Price: price, Available: s.Available})
	}
	for i, p := range b.Pieces {
		what := fmt.Sprintf("pieces[%d].length_mm", i)
		q.Pieces = append(q.Pieces, Piece{ID: fmt.Sprintf("piece-%d", i+1), Length: tenths(what, p.Length), Count: p.Count})
	}
	return q, bad
}

// AnsweredBar is one length of an answer with what is cut from it.
type AnsweredBar struct {
	Stock float64   `json:"length_mm"`
	Cuts  []float64 `json:"cuts_mm"`
	Open  float64   `json:"left_mm"`
}

// Answered is the answer to an instance, in the keys of such documents.
type Answered struct {
	Title      string        `json:"title"`
	LeastPrice float64       `json:"least_price"`
	Proven     bool          `json:"proven"`
	Bound      float64       `json:"bound"`
	Cuts       []AnsweredBar `json:"cuts"`
}

// Answer is a plan as the answer to an instance.
func (p *Plan) Answer(title string, q Question) Answered {
	out := Answered{Title: title, LeastPrice: float64(p.Price) / 100, Proven: p.Proven, Bound: float64(p.Bound) / 100, Cuts: []AnsweredBar{}}
	for _, b := range p.Bars {
		bar := AnsweredBar{Stock: float64(q.Stocks[b.Stock].Length) / 10, Open: float64(b.Open) / 10, Cuts: []float64{}}
		for _, x := range b.Cuts {
			bar.Cuts = append(bar.Cuts, float64(x.Length)/10)
		}
		out.Cuts = append(out.Cuts, bar)
	}
	return out
}

// hundredths is a price in the smallest coin.
func hundredths(price float64) (int64, error) {
	whole := math.Round(price * 100)
	if !(whole >= 0 && whole <= 1e13) || math.Abs(price*100-whole) > 1e-6*(1+whole*1e-6) {
		return 0, fmt.Errorf("read %g; wanted a price in hundredths, 0 or more", price)
	}
	return int64(whole), nil
}
