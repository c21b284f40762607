package cli

import (
	"encoding/json"
	"fmt"
	"math"

	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/cut"
	"dropleg/internal/answer/demand"
)

// A bare instance is one question without a shop around it, for scripts and outside
// checks: it is known by its keys, and its answer has the keys of such files.

// topKeys are the keys at the top of a JSON document; nil where it is none.
func topKeys(data []byte) map[string]json.RawMessage {
	var keys map[string]json.RawMessage
	if json.Unmarshal(data, &keys) != nil {
		return nil
	}
	return keys
}

// bare reads a file that is a bare instance with the keys given, into one; ok is false
// where it is something else, a job.
func (c *call) bare(word string, into any, keys ...string) (name string, ok bool, err error) {
	name, data, err := c.read(word)
	if err != nil {
		return name, false, err
	}
	have := topKeys(data)
	if _, job := have["dropleg"]; job {
		return name, false, nil
	}
	for _, k := range keys {
		if _, there := have[k]; !there {
			return name, false, nil
		}
	}
	if err := json.Unmarshal(data, into); err != nil {
		return name, true, unusable(name, err.Error(), fmt.Sprintf("an instance with the keys %v, as numbers and names", keys))
	}
	return name, true, nil
}

// isFile says whether a word is a file and not standard input or a stored job: only a file
// is looked at twice.
func isFile(word string) bool {
	if word == "-" {
		return false
	}
	_, err := readFile(word)
	return err == nil
}

// bareDemand is independent tools, each on for a share of the time.
type bareDemand struct {
	Title string `json:"title"`
	Crew  int    `json:"crew"`
	Tools []struct {
		Flow  float64 `json:"flow_L_min"`
		Share float64 `json:"share"`
	} `json:"tools"`
}

// bareLevels are the shares of the time that are told.
var bareLevels = []float64{0.5, 0.9, 0.95, 0.99, 0.999}

const mostBareFlow = 1e6 // L/min of all tools: the grid is of 1 L/min

// demandOf answers a bare demand; ok is false where the file is none.
func (c *call) demandOf(word string) (ok bool, err error) {
	if !isFile(word) {
		return false, nil
	}
	var q bareDemand
	name, ok, err := c.bare(word, &q, "tools")
	if !ok || err != nil {
		return ok, err
	}
	var all []demand.Part
	sum := 0.0
	for i, t := range q.Tools {
		if !(t.Flow >= 0 && t.Flow <= mostBareFlow) || !(t.Share >= 0 && t.Share <= 1) {
			return true, unusable(name, fmt.Sprintf("tools[%d]: flow_L_min %g, share %g", i, t.Flow, t.Share), "a flow of 0 or more and a share of 0 to 1")
		}
		if sum += t.Flow; sum > mostBareFlow {
			return true, unusable(name, "more than a million L/min altogether", "less: the distribution is told on a grid of 1 L/min")
		}
		all = append(all, demand.Solo(t.Share, t.Flow))
	}
	f := demand.FlowsOf(all, 1, q.Crew)
	levels := map[string]float64{}
	for _, l := range bareLevels {
		levels[fmt.Sprintf("%g", l)] = f.Level(l)
	}
	return true, c.writeJSON(map[string]any{"title": q.Title, "mean_L_min": f.Mean(), "sd_L_min": f.SD(), "percentile_L_min": levels, "within_L_min": f.Within})
}

// bareBuy is needs, offers and suppliers.
type bareBuy struct {
	Title     string             `json:"title"`
	Need      map[string]float64 `json:"need"`
	Drawer    map[string]float64 `json:"in_the_drawer"`
	Suppliers []struct {
		ID       string  `json:"id"`
		Delivery float64 `json:"delivery"`
		FreeFrom float64 `json:"free_from"`
	} `json:"suppliers"`
	Offers []struct {
		ID        string             `json:"id"`
		Supplier  string             `json:"supplier"`
		Price     float64            `json:"price"`
		Contains  map[string]float64 `json:"contains"`
		Available *int               `json:"available"`
	} `json:"offers"`
}

// question is a bare purchase as it is solved.
func (b *bareBuy) question() (buy.Question, error) {
	q := buy.Question{Need: b.Need, Drawer: b.Drawer}
	for _, s := range b.Suppliers {
		delivery, err := buy.Hundredths(s.Delivery)
		if err != nil {
			return q, fmt.Errorf("supplier %s: %w", s.ID, err)
		}
		free, err := buy.Hundredths(s.FreeFrom)
		if err != nil {
			return q, fmt.Errorf("supplier %s: %w", s.ID, err)
		}
		q.Suppliers = append(q.Suppliers, buy.Supplier{ID: s.ID, Delivery: delivery, FreeFrom: free})
	}
	for _, o := range b.Offers {
		price, err := buy.Hundredths(o.Price)
		if err != nil {
			return q, fmt.Errorf("offer %s: %w", o.ID, err)
		}
		q.Offers = append(q.Offers, buy.Offer{ID: o.ID, Supplier: o.Supplier, Price: price, Contains: o.Contains, Available: o.Available})
	}
	return q, nil
}

// bareBought is the answer to a bare purchase.
type bareBought struct {
	Title      string             `json:"title"`
	LeastPrice float64            `json:"least_price"`
	Proven     bool               `json:"proven"`
	Bound      float64            `json:"bound"`
	Purchase   map[string]int     `json:"purchase"`
	Delivery   map[string]float64 `json:"delivery"`
	Left       map[string]float64 `json:"left_over"`
}

func boughtOf(title string, b *buy.Basket) bareBought {
	out := bareBought{Title: title, LeastPrice: float64(b.Price) / 100, Proven: b.Proven, Bound: float64(b.Bound) / 100, Purchase: map[string]int{}, Delivery: map[string]float64{}, Left: b.Left}
	for _, l := range b.Lines {
		out.Purchase[l.Offer] = l.Times
	}
	for _, d := range b.Deliveries {
		out.Delivery[d.Supplier] = float64(d.Charge) / 100
	}
	return out
}

// bareCut is pieces to cut and lengths to cut them from.
type bareCut struct {
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

// question is a bare cutting as it is solved.
func (b *bareCut) question() (cut.Question, error) {
	var bad error
	tenths := func(what string, mm float64) cut.Length {
		l := math.Round(mm * 10)
		if !(math.Abs(mm*10-l) < 1e-6) || math.Abs(l) > 1e12 {
			bad = fmt.Errorf("%s: read %g; wanted mm, to a tenth", what, mm)
			return 0
		}
		return cut.Length(l)
	}
	q := cut.Question{Kerf: tenths("kerf_mm", b.Kerf), EndTrim: tenths("end_trim_mm", b.Trim)}
	for i, s := range b.Stocks {
		price, err := buy.Hundredths(s.Price)
		if err != nil {
			return q, fmt.Errorf("stocks[%d]: %w", i, err)
		}
		what := fmt.Sprintf("stocks[%d].length_mm", i)
		q.Stocks = append(q.Stocks, cut.Stock{ID: fmt.Sprintf("stock-%d", i+1), Length: tenths(what, s.Length), Price: int64(price), Available: s.Available})
	}
	for i, p := range b.Pieces {
		what := fmt.Sprintf("pieces[%d].length_mm", i)
		q.Pieces = append(q.Pieces, cut.Piece{ID: fmt.Sprintf("piece-%d", i+1), Length: tenths(what, p.Length), Count: p.Count})
	}
	return q, bad
}

// bareBar is one length with what is cut from it.
type bareBar struct {
	Stock float64   `json:"length_mm"`
	Cuts  []float64 `json:"cuts_mm"`
	Open  float64   `json:"left_mm"`
}

// bareCutting is the answer to a bare cutting.
type bareCutting struct {
	Title      string    `json:"title"`
	LeastPrice float64   `json:"least_price"`
	Proven     bool      `json:"proven"`
	Bound      float64   `json:"bound"`
	Cuts       []bareBar `json:"cuts"`
}

func cuttingOf(title string, q cut.Question, p *cut.Plan) bareCutting {
	out := bareCutting{Title: title, LeastPrice: float64(p.Price) / 100, Proven: p.Proven, Bound: float64(p.Bound) / 100, Cuts: []bareBar{}}
	for _, b := range p.Bars {
		bar := bareBar{Stock: float64(q.Stocks[b.Stock].Length) / 10, Open: float64(b.Open) / 10, Cuts: []float64{}}
		for _, x := range b.Cuts {
			bar.Cuts = append(bar.Cuts, float64(x.Length)/10)
		}
		out.Cuts = append(out.Cuts, bar)
	}
	return out
}
