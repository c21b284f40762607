package cut

import (
	"fmt"
	"math/rand/v2"
)

// made is a question of one of the kinds of the reference files.
type made struct {
	name string
	ask  Question
}

var kindsMade = []string{"threes", "stocks", "coil", "kerf", "few", "sticks"}

// generate makes questions like the reference files, the same for the same seed.
func generate(kind string, seed uint64) made {
	r := rand.New(rand.NewPCG(seed, 0x63757431))
	makers := map[string]func(*rand.Rand) Question{
		"threes": makeThrees, "stocks": makeStocks, "coil": makeCoil, "kerf": makeKerf, "few": makeFew, "sticks": makeSticks,
	}
	return made{fmt.Sprintf("%s-%d", kind, seed), makers[kind](r)}
}

func between(r *rand.Rand, low, high int) int { return low + r.IntN(high-low+1) }

// makeThrees makes sticks that come out exactly full with three pieces each.
func makeThrees(r *rand.Rand) Question {
	const mm = 10
	q := Question{Kerf: 2 * mm, Stocks: []Stock{{ID: "stick", Length: 6000 * mm, Price: 3100}}}
	grid := 5
	if r.IntN(4) == 0 {
		grid = 1
	}
	var lengths []int
	for range between(r, 30, 40) {
		for {
			a := between(r, 1900/grid, 2980/grid) * grid
			b := between(r, 1500/grid, 2700/grid) * grid
			if c := 6000 - 2*2 - a - b; c >= 400 && c <= b {
				lengths = append(lengths, a, b, c)
				break
			}
		}
	}
	return q.with(lengths)
}

func (q Question) with(mm []int) Question {
	at := map[int]int{}
	for _, n := range mm {
		if k, ok := at[n]; ok {
			q.Pieces[k].Count++
			continue
		}
		at[n] = len(q.Pieces)
		q.Pieces = append(q.Pieces, Piece{ID: fmt.Sprintf("p%d", n), Length: Length(n * 10), Count: 1})
	}
	return q
}

func distinct(r *rand.Rand, n, low, high, grid int) []int {
	seen := map[int]bool{}
	var out []int
	for len(out) < n {
		v := between(r, low/grid, high/grid) * grid
		if !seen[v] {
			seen[v] = true
			out = append(out, v)
		}
	}
	return out
}

// makeStocks makes three lengths for sale, one of them limited, and some leftovers.
func makeStocks(r *rand.Rand) Question {
	q := Question{Kerf: Length(between(r, 1, 4) * 10), EndTrim: Length([]int{0, 0, 50, 100, 200}[r.IntN(5)])}
	sale := [][]int{{3000, 4000, 6000}, {2500, 4000, 6000}, {3000, 5000, 6000}, {2000, 3000, 6000}}[r.IntN(4)]
	limited := r.IntN(3)
	for i, length := range sale {
		// A little cheaper by the metre the longer it is.
		price := int64(float64(length) * (0.50 + 0.04*r.Float64() - 0.01*float64(i)) / 10 * 10)
		if r.IntN(2) == 0 {
			price = price / 10 * 10
		}
		s := Stock{ID: fmt.Sprintf("s%d", length), Length: Length(length * 10), Price: price}
		if i == limited {
			n := between(r, 5, 25)
			s.Available = &n
		}
		q.Stocks = append(q.Stocks, s)
	}
	for i := range between(r, 1, 4) {
		n := between(r, 1, 2)
		q.Stocks = append(q.Stocks, Stock{
			ID: fmt.Sprintf("left%d", i), Length: Length(between(r, 80, 280) * 100), Available: &n, Leftover: true,
		})
	}
	top := sale[2] * 61 / 100
	if sale[limited] == sale[2] {
		top = sale[1] * 95 / 100
	}
	total := between(r, 90, 150)
	lengths := distinct(r, between(r, 15, 25), 500, top, 5)
	all := append([]int(nil), lengths...)
	for len(all) < total {
		all = append(all, lengths[r.IntN(len(lengths))])
	}
	return q.with(all)
}

// makeCoil makes coils with 6 to 10 lengths.
func makeCoil(r *rand.Rand) Question {
	length := []int{30480, 30480, 15240, 91440, 50000}[r.IntN(5)]
	q := Question{Kerf: Length(r.IntN(3) * 10), Stocks: []Stock{{ID: "coil", Length: Length(length * 10), Price: 12000}}}
	if r.IntN(3) == 0 {
		q.Stocks = append(q.Stocks, Stock{ID: "half", Length: Length(length * 5), Price: 6600})
	}
	low := []int{1500, 3000, 6000}[r.IntN(3)]
	var all []int
	for _, v := range distinct(r, between(r, 6, 10), low, min(length*6/10, 20000), 10) {
		for range between(r, 2, 8) {
			all = append(all, v)
		}
	}
	return q.with(all)
}

// makeKerf makes pieces that would fit n to a stick without the kerf.
func makeKerf(r *rand.Rand) Question {
	q := Question{Kerf: Length(between(r, 2, 4) * 10), Stocks: []Stock{{ID: "stick", Length: 60000, Price: 3100}}}
	n := between(r, 2, 4)
	lengths := []int{6000 / n}
	for range between(r, 1, 3) {
		k := between(r, 2, 6)
		lengths = append(lengths, 6000/k-between(r, 0, 6))
	}
	var all []int
	for _, v := range lengths {
		for range between(r, 5, 14) {
			all = append(all, v)
		}
	}
	return q.with(all)
}

// makeFew makes 2 to 5 lengths with counts to 60.
func makeFew(r *rand.Rand) Question {
	q := Question{Kerf: Length(r.IntN(4) * 10), Stocks: []Stock{{ID: "stick", Length: 60000, Price: 3100}}}
	if r.IntN(2) == 0 {
		q.Stocks = append(q.Stocks, Stock{ID: "short", Length: 30000, Price: 1680})
	}
	var all []int
	for _, v := range distinct(r, between(r, 2, 5), 250, 3000, 1) {
		for range between(r, 10, 60) {
			all = append(all, v)
		}
	}
	return q.with(all)
}

// makeSticks makes 6 to 12 lengths of some ten each from one length or three.
func makeSticks(r *rand.Rand) Question {
	length := []int{3000, 6096, 6000, 5800}[r.IntN(4)]
	q := Question{Kerf: Length(between(r, 1, 3) * 10), Stocks: []Stock{{ID: "stick", Length: Length(length * 10), Price: int64(length * 2 / 3)}}}
	if r.IntN(3) == 0 {
		q.Stocks = append(q.Stocks, Stock{ID: "half", Length: Length(length * 5), Price: int64(length * 36 / 100)})
		q.Stocks = append(q.Stocks, Stock{ID: "mid", Length: Length(length * 7), Price: int64(length * 49 / 100)})
	}
	var all []int
	for _, v := range distinct(r, between(r, 6, 12), length/6, length*8/10, 5) {
		for range between(r, 3, 12) {
			all = append(all, v)
		}
	}
	return q.with(all)
}
