package buy

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"
)

type amounts = map[string]float64

// Each answer can be worked out on paper.
func TestSmall(t *testing.T) {
	free := Supplier{ID: "s"}
	two := 2
	for _, row := range []struct {
		name  string
		q     Question
		price Money
		lines []Line
	}{
		{"nothing lacks", Question{Need: amounts{"a": 2}, Drawer: amounts{"a": 2}}, 0, nil},
		{"metres: four times 5.8 is 23.2", Question{
			Need: amounts{"pipe": 23.2}, Suppliers: []Supplier{free}, Offers: []Offer{{"o", "s", 37, amounts{"pipe": 5.8}, nil}},
		}, 148, []Line{{"o", 4, 148}}},
		{"spare on top", Question{
			Need: amounts{"a": 2}, Spare: amounts{"a": 1}, Suppliers: []Supplier{free}, Offers: []Offer{{"o", "s", 10, amounts{"a": 1}, nil}},
		}, 30, []Line{{"o", 3, 30}}},
		{"three more than needed, so that delivery is free", Question{
			Need: amounts{"a": 1}, Suppliers: []Supplier{{"s", 2600, 2000}}, Offers: []Offer{{"o", "s", 500, amounts{"a": 1}, nil}},
		}, 2000, []Line{{"o", 4, 2000}}},
		{"only two are to be had", Question{
			Need: amounts{"a": 3}, Suppliers: []Supplier{free},
			Offers: []Offer{{"o", "s", 10, amounts{"a": 1}, &two}, {"p", "s", 25, amounts{"a": 1}, nil}},
		}, 45, []Line{{"o", 2, 20}, {"p", 1, 25}}},
		{"a gift", Question{
			Need: amounts{"a": 3}, Suppliers: []Supplier{free}, Offers: []Offer{{"o", "s", 0, amounts{"a": 1}, nil}},
		}, 0, []Line{{"o", 3, 0}}},
		{"same price: what leaves less over", Question{
			Need: amounts{"a": 3}, Suppliers: []Supplier{free},
			Offers: []Offer{{"o", "s", 30, amounts{"a": 5}, nil}, {"p", "s", 30, amounts{"a": 3}, nil}},
		}, 30, []Line{{"p", 1, 30}}},
		{"same price: one supplier less", Question{
			Need: amounts{"a": 1, "b": 1}, Suppliers: []Supplier{free, {ID: "t"}},
			Offers: []Offer{{"o", "s", 10, amounts{"a": 1}, nil}, {"p", "t", 20, amounts{"b": 1}, nil}, {"r", "s", 20, amounts{"b": 1}, nil}},
		}, 30, []Line{{"o", 1, 10}, {"r", 1, 20}}},
	} {
		b, err := Cheapest(context.Background(), row.q)
		if err != nil || b.Price != row.price || !b.Proven || !reflect.DeepEqual(b.Lines, row.lines) {
			t.Errorf("%s: %+v: %v, want %v", row.name, b, err, row.lines)
		}
		holds(t, row.q, b)
	}
}

func TestUncovered(t *testing.T) {
	one := 1
	q := Question{
		Need: amounts{"a": 1, "b": 1, "c": 3}, Suppliers: []Supplier{{ID: "s"}},
		Offers: []Offer{{"o", "s", 10, amounts{"a": 1}, nil}, {"p", "s", 10, amounts{"c": 1}, &one}},
	}
	_, err := Cheapest(context.Background(), q)
	var short *UncoveredError
	if !errors.As(err, &short) || !reflect.DeepEqual(short.Articles, []string{"b", "c"}) || short.Missing["c"] != 2 {
		t.Errorf("%v", err)
	}
}

func TestBadQuestions(t *testing.T) {
	good := func() Question {
		return Question{Need: amounts{"a": 1}, Suppliers: []Supplier{{ID: "s"}}, Offers: []Offer{{"o", "s", 10, amounts{"a": 1}, nil}}}
	}
	for name, spoil := range map[string]func(q *Question){
		"offer twice":      func(q *Question) { q.Offers = append(q.Offers, q.Offers[0]) },
		"supplier twice":   func(q *Question) { q.Suppliers = append(q.Suppliers, q.Suppliers[0]) },
		"unknown supplier": func(q *Question) { q.Offers[0].Supplier = "t" },
		"negative price":   func(q *Question) { q.Offers[0].Price = -1 },
		"contains nothing": func(q *Question) { q.Offers[0].Contains["a"] = 0 },
		"need NaN":         func(q *Question) { q.Need["a"] = math.NaN() },
		"drawer negative":  func(q *Question) { q.Drawer = amounts{"a": -1} },
		"spare infinite":   func(q *Question) { q.Spare = amounts{"a": math.Inf(1)} },
		"delivery":         func(q *Question) { q.Suppliers[0].Delivery = -5 },
	} {
		q := good()
		spoil(&q)
		if _, err := Cheapest(context.Background(), q); !errors.Is(err, ErrQuestion) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := OneSupplier(context.Background(), q); !errors.Is(err, ErrQuestion) {
			t.Errorf("%s, one supplier: %v", name, err)
		}
	}
}

func TestHundredths(t *testing.T) {
	for price, want := range map[float64]Money{0: 0, 0.37: 37, 2.3: 230, 1999.99: 199999, 0.29: 29} {
		if got, err := Hundredths(price); err != nil || got != want {
			t.Errorf("%v: %d, want %d: %v", price, got, want, err)
		}
	}
	for _, price := range []float64{-0.01, 0.375, math.NaN(), math.Inf(1), 1e12} {
		if got, err := Hundredths(price); !errors.Is(err, ErrQuestion) {
			t.Errorf("%v was taken as %d", price, got)
		}
	}
	if got := Money(-1205).String(); got != "-12.05" {
		t.Errorf("%s", got)
	}
}

func TestOneSupplier(t *testing.T) {
	q := Question{
		Need: amounts{"a": 2, "b": 1}, Suppliers: []Supplier{{"s", 500, 0}, {"t", 0, 0}, {"u", 0, 0}},
		Offers: []Offer{
			{"o", "s", 10, amounts{"a": 1}, nil},
			{"p", "s", 10, amounts{"b": 1}, nil},
			{"q", "t", 60, amounts{"a": 1, "b": 1}, nil},
			{"r", "u", 1, amounts{"a": 1}, nil},
		},
	}
	list, err := OneSupplier(context.Background(), q)
	if err != nil || len(list) != 2 {
		t.Fatalf("%+v: %v", list, err)
	}
	if list[0].Supplier != "t" || list[0].Price != 120 || list[1].Supplier != "s" || list[1].Price != 530 {
		t.Errorf("%+v", list)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	b, err := Cheapest(ctx, generate(sizes()[5], 1))
	if err == nil && b.Proven || err != nil && !errors.Is(err, ErrNoTime) {
		t.Errorf("%v, proven %v: %v", b.Price, b.Proven, err)
	}
}

// What nobody needs may make a delivery free: by hand, one nut at 0.00 with a delivery of
// 0.13, or with a washer at 0.12 beside it that reaches the sum from which it is free.
func TestWhatNobodyNeedsMayFreeADelivery(t *testing.T) {
	q := Question{
		Need: map[string]float64{"nut": 1}, Suppliers: []Supplier{{ID: "t", Delivery: 13, FreeFrom: 1}},
		Offers: []Offer{{ID: "nut", Supplier: "t", Contains: map[string]float64{"nut": 1}}, {ID: "washer", Supplier: "t", Price: 12}},
	}
	b, err := Cheapest(context.Background(), q)
	if err != nil || b.Price != 12 || !b.Proven || len(b.Lines) != 2 {
		t.Errorf("%+v, %v", b, err)
	}
	q.Offers[1].Price = 14
	if b, err = Cheapest(context.Background(), q); err != nil || b.Price != 13 || len(b.Lines) != 1 {
		t.Errorf("a washer dearer than the delivery: %+v, %v", b, err)
	}
}
