package cure

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Days are working days that fall short in something.
type Days struct {
	Answer *day.Answer
	// Short are the tools that go short, the worst first; none where it is a matter of the motor.
	Short []day.Tool
	// Times is by how much more store the matter would likely be mended; 1 or less: by none.
	Times float64
	// Air: without more air nothing mends it.
	Air bool
	// Enough says whether the matter is mended, and Told what is left of it, in words.
	Enough func(*day.Answer) bool
	Told   func(*day.Answer) string
	// Left is a number that falls as the matter mends.
	Left func(*day.Answer) float64
}

// Effort of one matter of the days: how many changed shops are worked through, in one
// whose sets can all be solved and in one where they are too many.
const (
	mostTried     = 4
	mostTriedMany = 1
	mostDoes      = 2    // single changes that do, from which no more are looked for
	firstDays     = 16   // of a longer answer so many are worked through again
	alike         = 1e-3 // share of time by which a tool may look worse: the days are the same, turn for turn
	helpsBy       = 0.8  // of the matter may be left by what is worth telling
)

// ForDays finds what mends a matter of the working days. Each change is applied and
// the same days, turn for turn, are worked through with it; what makes a tool worse,
// a motor start or run beyond what it bears, or leaves the receiver never full, is
// dropped. Where no single change does, the two that help most are tried together.
func (b *Bench) ForDays(ctx context.Context, d Days) ([]job.Cure, error) {
	before, err := b.sameDays(ctx, d.Answer)
	if err != nil {
		return nil, err
	}
	groups, both, err := b.plantChanges(ctx, d)
	if err != nil {
		return nil, err
	}
	does, helps, err := b.live(ctx, d, before, groups)
	if err != nil {
		return nil, err
	}
	if len(does) == 0 {
		if len(helps) > 1 {
			slices.SortStableFunc(helps, func(x, y *proposal) int { return cmp.Compare(d.Left(x.days), d.Left(y.days)) })
			both = append([]*proposal{joined(helps[0], helps[1])}, both...)
		}
		for _, pair := range both {
			if ok, err := b.through(ctx, d, before, pair); err != nil {
				return nil, err
			} else if ok && pair.cures {
				does = append(does, pair)
				break
			}
		}
	}
	var out []job.Cure
	for _, p := range slices.Concat(does, helps)[:min(len(does)+len(helps), mostGiven)] {
		if len(does) > 0 && !p.cures {
			break // where something does, what only helps is noise
		}
		words := fmt.Sprintf("%s (%s, by %s)", p.words, d.Told(p.days), DaysWords(p.days.Days))
		out = append(out, job.Cure{Words: words, Edits: forms(p.edits), Price: p.price, Cures: p.cures, Verified: true})
	}
	return out, nil
}

// DaysWords is "1 working day", "4 working days".
func DaysWords(n int) string {
	if n == 1 {
		return "1 working day"
	}
	return fmt.Sprintf("%d working days", n)
}

// sameDays is the answer that changes are held against: of many days only the first.
func (b *Bench) sameDays(ctx context.Context, a *day.Answer) (*day.Answer, error) {
	if a.Days <= firstDays {
		return a, nil
	}
	return b.study.Day(ctx, day.Ask{Seed: a.Seed, Days: firstDays, Time: a.Time, AsOne: a.AsOne})
}

// live works changes through, place by place, in each the smallest first, until some do.
func (b *Bench) live(ctx context.Context, d Days, before *day.Answer, groups [][]*proposal) (does, helps []*proposal, err error) {
	left := mostTried
	if before.Looked > 0 || len(before.Receivers) > 0 { // such days take long
		left = mostTriedMany
	}
	for _, group := range groups {
		var best *proposal
		for _, p := range group {
			if left == 0 || len(does) == mostDoes {
				break
			}
			left--
			ok, err := b.through(ctx, d, before, p)
			if err != nil {
				return nil, nil, err
			}
			if ok && (best == nil || d.Left(p.days) < d.Left(best.days)) {
				best = p
			}
			if !ok || p.cures || d.Left(p.days) > helpsBy*d.Left(before) {
				break // more of what hurts or does not help is not looked at
			}
		}
		switch {
		case best == nil:
		case best.cures:
			does = append(does, best)
		case d.Left(best.days) <= helpsBy*d.Left(before):
			helps = append(helps, best)
		}
	}
	return does, helps, nil
}

// through works the same days through with a change; ok says that it hurts nobody.
func (b *Bench) through(ctx context.Context, d Days, before *day.Answer, p *proposal) (ok bool, err error) {
	t, err := b.Try(ctx, p.edits...)
	if refused(err) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	// What a far receiver brings is told by nothing less than a day in which it stands apart.
	p.days, err = t.study.Day(ctx, day.Ask{Seed: before.Seed, Days: before.Days, Time: before.Time, AsOne: before.AsOne && p.place != farAway})
	if err != nil || p.days.Untold != "" || harmedInDays(before, p.days) {
		return false, err
	}
	harmed, err := t.Harmed(ctx, everywhere)
	p.cures = d.Enough(p.days)
	return len(harmed) == 0, err
}

// harmedInDays: some tool goes short longer than before, some motor is driven beyond
// what it bears and farther than before, or cut-out is not reached any more.
func harmedInDays(before, after *day.Answer) bool {
	if before.Full && !after.Full {
		return true
	}
	short := map[job.ID]unit.Ratio{}
	for _, t := range before.Tools {
		short[t.ID] = t.Short
	}
	for _, t := range after.Tools {
		if t.Short > short[t.ID]+alike {
			return true
		}
	}
	was := map[job.ID]day.Compressor{}
	for _, k := range before.Compressors {
		was[k.ID] = k
	}
	for _, k := range after.Compressors {
		w := was[k.ID]
		if k.Most > 0 && k.Starts > max(k.Most, w.Starts) || k.DutyMost > 0 && k.Duty > max(k.DutyMost, w.Duty) {
			return true
		}
	}
	return false
}

// plantChanges lists what may be tried, by place, and what of the plant together. Of a
// tool that has its pressure at cut-in, the store and what fills it come first; of one
// that has not, its hose and the cut-in.
func (b *Bench) plantChanges(ctx context.Context, d Days) (groups [][]*proposal, both []*proposal, err error) {
	store, air, in := b.receivers(d), b.compressors(d.Answer), b.band(d)
	if len(store) > 0 && len(air) > 0 {
		// A larger compressor fills the old receiver too fast for its motor.
		both = append(both, joined(air[0], store[0]))
	}
	if d.Air {
		return [][]*proposal{air}, both, nil
	}
	w, err := b.worstMoment(ctx, d.Short)
	switch {
	case err != nil:
		return nil, nil, err
	case w == nil:
		return [][]*proposal{store, air, in}, both, nil
	case w.short:
		return [][]*proposal{w.hose, in, air, store}, both, nil
	}
	return [][]*proposal{store, air, b.farReceiver(w), in, w.hose}, both, nil
}

// spoiltMoment is the set that spoils a tool most, with the receivers at cut-in.
type spoiltMoment struct {
	use   job.InUse
	short bool // even so it has less than it needs
	path  []model.Step
	hose  []*proposal
}

// worstMoment solves the set that spoils the worst tool most; nil where there is none.
func (b *Bench) worstMoment(ctx context.Context, short []day.Tool) (*spoiltMoment, error) {
	if len(short) == 0 || len(short[0].Spoilt) == 0 {
		return nil, nil
	}
	t, running := &short[0], short[0].Spoilt[0].Running
	i := slices.IndexFunc(running, func(u job.InUse) bool { return u.Tool == t.ID })
	if i < 0 {
		return nil, nil
	}
	pair, ok := b.model.PairOf(running[i])
	if !ok {
		return nil, nil
	}
	r, err := b.model.NewSolver().Solve(ctx, model.Case{Running: running, Supply: model.CutIn})
	if err != nil || !r.Solved || !r.Tools[pair.Index].Known {
		return nil, err
	}
	w := &spoiltMoment{use: running[i], short: r.Tools[pair.Index].Pressure < pair.Least, path: b.model.Path(r, pair.Index)}
	for _, s := range w.path {
		e := &b.model.Elements()[s.Element]
		if e.Thing == model.ThingHose && float64(s.Loss) > worthHose {
			w.hose = append(w.hose, b.hoses(e, float64(s.Loss), float64(s.Loss))...)
		}
	}
	return w, nil
}

// worthHose is the loss from which a wider hose is tried by whole days, Pa.
const worthHose = 10e3
