package buy

import "fmt"

// Instance is a bare question as a document: needs, offers and suppliers, without a job.
type Instance struct {
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

// Question is the instance as it is solved. The error says which price cannot be used.
func (b *Instance) Question() (Question, error) {
	q := Question{Need: b.Need, Drawer: b.Drawer}
	for _, s := range b.Suppliers {
		delivery, err := Hundredths(s.Delivery)
		if err != nil {
			return q, fmt.Errorf("supplier %s: %w", s.ID, err)
		}
		free, err := Hundredths(s.FreeFrom)
		if err != nil {
			return q, fmt.Errorf("supplier %s: %w", s.ID, err)
		}
		q.Suppliers = append(q.Suppliers, Supplier{ID: s.ID, Delivery: delivery, FreeFrom: free})
	}
	for _, o := range b.Offers {
		price, err := Hundredths(o.Price)
		if err != nil {
			return q, fmt.Errorf("offer %s: %w", o.ID, err)
		}
		q.Offers = append(q.Offers, Offer{ID: o.ID, Supplier: o.Supplier, Price: price, Contains: o.Contains, Available: o.Available})
	}
	return q, nil
}

// Answered is the answer to an instance, in the keys of such documents.
type Answered struct {
	Title      string             `json:"title"`
	LeastPrice float64            `json:"least_price"`
	Proven     bool               `json:"proven"`
	Bound      float64            `json:"bound"`
	Purchase   map[string]int     `json:"purchase"`
	Delivery   map[string]float64 `json:"delivery"`
	Left       map[string]float64 `json:"left_over"`
}

// Answer is a basket as the answer to an instance.
func (b *Basket) Answer(title string) Answered {
	out := Answered{Title: title, LeastPrice: float64(b.Price) / 100, Proven: b.Proven, Bound: float64(b.Bound) / 100, Purchase: map[string]int{}, Delivery: map[string]float64{}, Left: b.Left}
	for _, l := range b.Lines {
		out.Purchase[l.Offer] = l.Times
	}
	for _, d := range b.Deliveries {
		out.Delivery[d.Supplier] = float64(d.Charge) / 100
	}
	return out
}
