package find

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Found is what a look at a thing showed, and what was done to it.
type Found string

// What a look shows. From then on the thing is right in each case.
const (
	Mended   Found = job.Mended
	Replaced Found = job.Replaced
	Sound    Found = job.Sound
)

// mistaken is how often somebody finds wrong what was right, or the other way round:
// common practice, no source.
const mistaken = 0.05

// seenAt tells what is wrong with a look, nil where nothing is.
func seenAt(m *model.Model, r Reading) *Unusable {
	if r.Found != Mended && r.Found != Replaced && r.Found != Sound {
		return &Unusable{r, "what a look showed: wanted mended, replaced or sound."}
	}
	if !canBeWrong(m, r.Thing) {
		return &Unusable{r, "no thing that air passes, and no tool, is called that: what was looked at is not known."}
	}
	return nil
}

// canBeWrong says whether a thing of the job is in the network.
func canBeWrong(m *model.Model, id job.ID) bool {
	return id != "" && (slices.ContainsFunc(m.Elements(), func(e model.Element) bool { return e.ID == id }) ||
		slices.ContainsFunc(m.Nodes(), func(n model.Node) bool { return n.Point == id || n.Outlet == id }) ||
		slices.ContainsFunc(m.Tools(), func(t model.Tool) bool { return t.ID == id }) ||
		slices.ContainsFunc(m.Compressors(), func(c model.Compressor) bool { return c.ID == id }))
}

// bars tells what is wrong with a reading in this search, nil where nothing is: beside what
// none can be, a look at what is no cause. Mending that explains no reading before it, and
// may not part those from the ones behind it.
func (f *Finder) bars(r Reading) *Unusable {
	if bad := usable(f.rig.m, r); bad != nil || r.Kind != Look {
		return bad
	}
	if !slices.ContainsFunc(f.causes, func(c cause) bool { return c.id == r.Thing }) {
		return &Unusable{r, capital(f.named(r.Thing)) + " is no cause that is weighed: what was found there tells nothing of those that are."}
	}
	return nil
}

// look takes what a look showed. What was mended explains the readings before it and no
// later one. Two things that were mended are as many as two faults explain: what was
// read before the last but one was mended is weighed no more.
func (f *Finder) look(ctx context.Context, r Reading) error {
	before := *f
	f.taken = append(slices.Clone(f.taken), r)
	f.causes = slices.Clone(f.causes)
	if r.Found != Sound {
		f.lapse(r.Thing)
		f.since = len(f.read)
	}
	for i := range f.causes {
		c := &f.causes[i]
		switch {
		case c.id != r.Thing || c.over || c.until > 0:
		case r.Found == Sound:
			c.seen += math.Log(mistaken)
		case f.since == 0:
			c.over = true
		default:
			c.until = f.since
			if r.Found == Mended {
				c.seen -= math.Log(mistaken)
			}
		}
	}
	if err := f.relay(ctx); err != nil {
		*f = before // whoever gives up in between leaves the finder as it was
		return err
	}
	return nil
}

// lapse lets go of what was read before the last mending, another one being made after
// further readings. What is mended once more was not right in between.
func (f *Finder) lapse(again job.ID) {
	if f.since == 0 || f.since == len(f.read) {
		return
	}
	f.read = slices.Clone(f.read[f.since:])
	f.singles = slices.Clone(f.singles)
	for i := range f.singles {
		f.singles[i].sees = slices.Clone(f.singles[i].sees[f.since:])
	}
	for i := range f.causes {
		c := &f.causes[i]
		c.over = (c.over || c.until > 0) && c.id != again
		c.until = 0
	}
	f.since = 0
}

// relay lays the trials anew after a look, and keeps what they make of the readings.
func (f *Finder) relay(ctx context.Context) error {
	type key struct {
		fault fault
		until int
	}
	had := map[key]trial{}
	for _, t := range f.singles {
		had[key{t.faults[0], f.causes[t.causes[0]].until}] = t
	}
	f.regroup()
	f.layTrials()
	f.doubles, f.tried, f.heeded = nil, map[[2]int]*trial{}, nil
	for k := range f.singles {
		t := &f.singles[k]
		if old, known := had[key{t.faults[0], f.causes[t.causes[0]].until}]; known {
			t.sees = slices.Clone(old.sees)
			continue
		}
		for i := range f.read {
			p, err := f.rig.predict(ctx, &f.read[i], f.thereAt(t, i))
			if err != nil {
				return err
			}
			t.sees = append(t.sees, p)
		}
	}
	for i := range f.read {
		f.steps(i)
	}
	return nil
}

// regroup takes out of the groups that no reading tells apart what a look tells apart:
// what was mended stands by itself, and what was mended long ago nowhere.
func (f *Finder) regroup() {
	f.groups = nil
	for _, members := range f.alike {
		parts := map[job.ID][]int{}
		order := []job.ID{""}
		for _, m := range members {
			c := &f.causes[m]
			id := job.ID("")
			if c.until > 0 {
				id = c.id
			}
			if c.over {
				continue
			}
			if id != "" && len(parts[id]) == 0 {
				order = append(order, id)
			}
			parts[id] = append(parts[id], m)
		}
		for _, id := range order {
			if len(parts[id]) > 0 {
				f.addGroup(parts[id])
			}
		}
	}
}

// addGroup adds causes that nothing tells apart, the likeliest first.
func (f *Finder) addGroup(members []int) {
	slices.SortStableFunc(members, func(a, b int) int {
		return cmp.Compare(f.odds(b), f.odds(a))
	})
	for _, m := range members {
		f.causes[m].group = len(f.groups)
	}
	f.groups = append(f.groups, members)
}

// odds are those of a cause before any reading, by what looks showed.
func (f *Finder) odds(cause int) float64 {
	return f.causes[cause].odds * math.Exp(f.causes[cause].seen)
}

// gone says whether a cause was mended.
func (f *Finder) gone(cause int) bool { return f.causes[cause].until > 0 }

// thereAt are the faults of a trial that were there at the i-th reading.
func (f *Finder) thereAt(t *trial, i int) []fault {
	all := make([]fault, 0, len(t.faults))
	for k, x := range t.faults {
		if until := f.causes[t.causes[k]].until; until == 0 || i < until {
			all = append(all, x)
		}
	}
	return all
}

// mended says whether anything was put right while the shop was looked into.
func (f *Finder) mended() bool {
	return slices.ContainsFunc(f.taken, func(r Reading) bool { return r.Kind == Look && r.Found != Sound })
}

// lookWords is what a look showed, in words.
func (f *Finder) lookWords(r *Reading) string {
	said := map[Found]string{
		Mended: "was wrong and is mended", Replaced: "was replaced", Sound: "was looked at and found sound",
	}[r.Found]
	return capital(f.named(r.Thing)) + " " + said
}

// lapsedWords says that readings of too long ago are weighed no more; "" where none are.
func (f *Finder) lapsedWords() string {
	n := len(f.read)
	for _, r := range f.taken {
		if r.Kind != Look {
			n--
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d taken before the last but one mending: they tell of another shop.", -n)
}

// whyFirst is what the reading where it was complained of shows.
func (f *Finder) whyFirst() string {
	if f.since > 0 || f.mended() {
		return "It shows whether that was all."
	}
	return "It shows how much is missing where it was complained of."
}

// left are the faults of a trial that nobody has mended yet.
func (f *Finder) left(t *trial) []fault { return f.thereAt(t, len(f.read)) }

// leftGroups are the groups of a trial's causes that nobody has mended yet, the second -1
// where it is one; that of nothing wrong where there is none.
func (f *Finder) leftGroups(t *trial) [2]int {
	out := [2]int{-1, -1}
	for _, c := range t.causes {
		if c < 0 || f.gone(c) {
			continue
		}
		g := f.causes[c].group
		switch {
		case out[0] < 0:
			out[0] = g
		case out[0] != g:
			out[1] = g
		}
	}
	if out[0] < 0 {
		out[0] = f.causes[f.sound().causes[0]].group
	}
	return out
}
