package size

import (
	"context"
	"slices"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/quote"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// priced is a price and the articles in it that have none of their own.
type priced struct {
	price   float64
	guessed []string
}

// lineCost is what a stretch costs beside its metres, in a study in which it has one size:
// the elbows and couplings in it, and the hours for all of it.
func (w *work) lineCost(s *study.Study, taken *parts.Answer, c *choice) priced {
	out := w.things(taken, c.ids, func(j *parts.Joint) bool {
		return slices.Contains(c.ids, parts.ThingOf(j.Sides[0].Thing)) && w.idx.Run(parts.ThingOf(j.Sides[1].Thing)) != nil
	})
	for _, id := range c.ids {
		if r := s.Index().Run(id); r != nil && (r.State == "" || r.State == string(parts.Planned)) {
			l, _ := w.idx.LengthOf(r)
			out.price += w.minutes(quote.Metre, float64(l))
		}
	}
	return out
}

// clips is what holds the lines of a study, with the hours for it, by run.
func (w *work) clips(ctx context.Context, s *study.Study) (map[job.ID]priced, error) {
	held, err := s.Hold(ctx)
	if err != nil {
		return nil, err
	}
	out := map[job.ID]priced{}
	for i := range held.Supports {
		x := &held.Supports[i]
		if x.State != string(parts.Planned) {
			continue
		}
		p := out[x.Run]
		p.price += w.minutes(quote.Support, 1)
		clip, fixing := purchase.Held(s.Index(), x)
		p.add(w.article(clip, s.Index().Run(x.Run).Size))
		p.add(w.article(fixing, ""))
		out[x.Run] = p
	}
	return out, nil
}

// otherwise is what clips cost more in a study than was reckoned for a pick: for each line
// they are reckoned as where all lines beside it had its size, and where they sit hangs on
// these a little.
func (w *work) otherwise(ctx context.Context, s *study.Study, picks []int) (float64, error) {
	if w.prices == nil {
		return 0, nil
	}
	clips, err := w.clips(ctx, s)
	if err != nil {
		return 0, err
	}
	sum := 0.0
	for _, p := range clips {
		sum += p.price
	}
	for i, k := range picks {
		sum -= w.choices[i].options[k].clips
	}
	return sum, nil
}

func (p *priced) add(more priced) {
	p.price += more.price
	p.guessed = append(p.guessed, more.guessed...)
}

// article is what an article costs that is known by one name, the end of which may be its size.
func (w *work) article(name, size string) priced {
	name = parts.Fold(name)
	if each, ok := w.prices.piece[name]; ok {
		return priced{price: each}
	}
	return priced{w.likely(strings.TrimSuffix(name, parts.Fold(size))), []string{name}}
}

// minutes is what so much work of a kind costs, by the times of the quotation.
func (w *work) minutes(what string, number float64) float64 {
	if w.rate == 0 {
		return 0
	}
	return number * quote.Minutes(w.job, what) / 60 * w.rate
}

// things is what the parts and joints of some things cost in a take-off. Lines themselves,
// what is used up and what has a choice of its own are not among them.
func (w *work) things(taken *parts.Answer, ids []job.ID, mine func(*parts.Joint) bool) priced {
	var out priced
	seen := map[*parts.Joint]bool{}
	for _, id := range ids {
		uses := taken.ByThing[string(id)]
		for _, l := range uses.Lines {
			if l.State != parts.Planned || slices.Contains(apart, l.Group) || l.Stock == "" && slices.Contains(machines, l.Group) {
				continue
			}
			n := 0.0
			for _, from := range l.From {
				if parts.ThingOf(from) == id {
					n++
				}
			}
			each, known := w.piece(l)
			if !known {
				out.guessed = append(out.guessed, l.Article)
			}
			out.price += n * float64(l.Pieces) / float64(len(l.From)) * each
		}
		for _, j := range uses.Joints {
			if !seen[j] && j.State == parts.Planned && w.rate > 0 && mine(j) {
				seen[j] = true
				out.price += w.minutes(j.Kind, 1)
			}
		}
	}
	return out
}

// apart is what is not counted with lines and fittings.
var apart = []parts.Group{
	parts.Stock, parts.Made, parts.Supplies, parts.Label, parts.Coupler, parts.Hose,
}

// machines are not counted either where they are not made for a line.
var machines = []parts.Group{parts.Plant, parts.Treatment}

// piece is the price of a part; where its size has none, the dearest of its kind in other
// sizes stands for it; nothing where its kind has none.
func (w *work) piece(l *parts.Line) (each float64, known bool) {
	for _, name := range l.Names() {
		if each, ok := w.prices.piece[name]; ok {
			return each, true
		}
	}
	return w.likely(strings.TrimSuffix(parts.Fold(l.Article), parts.Fold(l.Size))), false
}

// likely is the dearest of a kind in other sizes.
func (w *work) likely(stem string) (each float64) {
	stem = strings.TrimSpace(stem)
	for name, dear := range w.prices.piece {
		if strings.HasPrefix(name, stem+" ") {
			each = max(each, dear)
		}
	}
	return each
}
