package cut

import "math"

// brute is an answer by trying everything: the first uncut piece goes into each stock
// length, together with each set of the other uncut ones that fits.
type brute struct {
	q       Question
	lengths []Length
	known   map[string]int64
}

const never = math.MaxInt64 / 4

func bruteForce(q Question) int64 {
	b := brute{q: q, known: map[string]int64{}}
	for _, p := range q.Pieces {
		for range p.Count {
			b.lengths = append(b.lengths, p.Length)
		}
	}
	left := make([]byte, len(q.Stocks))
	for i, s := range q.Stocks {
		left[i] = byte(len(b.lengths))
		if s.Available != nil {
			left[i] = byte(min(*s.Available, len(b.lengths)))
		}
	}
	return b.least(1<<len(b.lengths)-1, left)
}

func (b *brute) least(uncut int, left []byte) int64 {
	if uncut == 0 {
		return 0
	}
	key := string(left) + string(rune(uncut))
	if v, ok := b.known[key]; ok {
		return v
	}
	first := uncut & -uncut
	best := int64(never)
	for set := uncut; set > 0; set = (set - 1) & uncut {
		if set&first == 0 {
			continue
		}
		used := b.length(set)
		for i, s := range b.q.Stocks {
			if left[i] > 0 && used <= s.Length-b.q.EndTrim {
				left[i]--
				best = min(best, s.Price+b.least(uncut&^set, left))
				left[i]++
			}
		}
	}
	b.known[key] = best
	return best
}

// length is what the pieces of a set take with a kerf between each two.
func (b *brute) length(set int) Length {
	sum := -b.q.Kerf
	for i, l := range b.lengths {
		if set>>i&1 == 1 {
			sum += l + b.q.Kerf
		}
	}
	return sum
}

// bruteJoin is the least price of the stock when one copy of a piece is made of two
// ends: every place of the joint, and each of the ends a piece of its own.
func bruteJoin(q Question, piece int, u Union) int64 {
	best := int64(never)
	length := q.Pieces[piece].Length - u.Length
	for a := u.Shortest; 2*a <= length; a++ {
		two := q
		two.Pieces = append([]Piece(nil), q.Pieces...)
		two.Pieces[piece].Count--
		two.Pieces = append(two.Pieces, Piece{"a", a, 1}, Piece{"b", length - a, 1})
		best = min(best, bruteForce(two))
	}
	return best
}
